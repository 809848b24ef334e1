/** What an empty screen will show, drawn dashed: each screen has its own. */
export type EmptyDrawingName = keyof typeof DRAWINGS;

/** `dashed` is what will stand there; `line` what it is measured by; `strong` the scale itself. */
interface Paths {
  readonly dashed: string;
  readonly line?: string;
  readonly strong?: string;
}

const DRAWINGS = {
  /** A room with its readings. */
  room: { dashed: 'M1 1H66V48H166V84H1Z', line: 'M27 17H39M33 11V23M27 62H39M33 56V68M78 66H90M84 60V72M130 66H142M136 60V72' },
  /** A week's line with the pour of one room and the drying of another. */
  days: {
    dashed: 'M28 28H70V40H28ZM70 34H150M76 54H118V66H76ZM118 60H160',
    line: 'M49 18V20M49 24V26M49 44V46M49 50V52M49 56V58M49 62V64M49 68V70M49 74V76',
    strong: 'M1 14H167M1 8V14M25 10V14M49 10V14M73 10V14M97 10V14M121 10V14M145 10V14M167 8V14',
  },
  /** Small plans of properties side by side. */
  properties: {
    dashed: 'M1 10H42V34H24V58H1ZM1 34H24M24 10V34M60 22H104V58H60ZM82 22V58M122 10H166V40H148V58H122ZM122 34H148',
    line: 'M1 72H34M60 72H92M122 72H152',
  },
  /** The seven stages along a line, with jobs standing at some of them. */
  jobs: {
    dashed: 'M1 38H57M1 56H112M1 74H29',
    strong: 'M1 20H167M1 14V20M29 16V20M57 16V20M84 16V20M112 16V20M140 16V20M167 14V20M57 32V44M112 50V62M29 68V80',
  },
  /** A bag with its water, and the range of its yield. */
  material: { dashed: 'M10 8H58V84H10ZM10 20H58', strong: 'M82 46H160M82 38V54M160 38V54M108 40L102 52M140 40L134 52' },
  /** Layers under a level, a test in one of them. */
  layers: {
    dashed: 'M8 40C50 34 110 46 160 38M8 52C50 46 110 58 160 50M8 78C50 72 110 84 160 76',
    line: 'M96 24V60M92 60H100M8 30V84M160 30V84',
    strong: 'M1 24H167',
  },
  /** A floor under its new level, the depth between two slashes. */
  section: {
    dashed: 'M8 52C36 70 56 78 84 60S132 40 160 48',
    line: 'M50 28V72M46 32L54 24M46 76L54 68',
    strong: 'M1 28H167M40 22V28M80 22V28M120 22V28',
  },
  /** A room in lanes, each with the way it is filled. */
  lanes: {
    dashed: 'M20 4H148V88H20ZM52 4V88M84 4V88M116 4V88',
    line: 'M36 14V30M32 24L36 30L40 24M68 14V30M64 24L68 30L72 24M100 14V30M96 24L100 30L104 24',
  },
  /** Ranges hung from the day of the pour. */
  cure: {
    dashed: 'M14 34H58M14 54H96M14 74H146',
    line: 'M40 30L34 38M58 30L52 38M72 50L66 58M96 50L90 58M112 70L106 78M146 70L140 78',
    strong: 'M1 14H167M14 8V84M50 10V14M86 10V14M122 10V14M158 10V14',
  },
  /** A page with its plan and its dates. */
  handover: { dashed: 'M40 2H128V90H40ZM52 16H92V30H116V48H52Z', line: 'M52 60H116M52 70H104M52 80H110' },
  /** Amounts on both sides of a line: charged and received. */
  money: { dashed: 'M14 44V18H34V44ZM60 44V28H80V44ZM106 44V12H126V44ZM30 48V66H50V48ZM122 48V80H142V48Z', strong: 'M1 46H167' },
  /** Copies one behind the other along the days they were made. */
  backup: {
    dashed: 'M8 66V30H44V66ZM56 66V22H92V66ZM104 66V14H140V66Z',
    line: 'M16 40H36M16 48H30M64 32H84M64 40H78M112 24H132M112 32H126',
    strong: 'M1 76H167M26 70V76M74 70V76M122 70V76',
  },
} as const satisfies Readonly<Record<string, Paths>>;

/** Hidden from screen readers, because the words beside it say the same. */
export function EmptyDrawing({ name }: { readonly name: EmptyDrawingName }) {
  const { dashed, line = '', strong = '' }: Paths = DRAWINGS[name];
  return (
    <svg width="168" height="92" viewBox="0 0 168 92" fill="none" stroke="var(--line)" aria-hidden="true">
      <path d={dashed} strokeWidth={1.5} strokeDasharray="4 3" />
      <path d={line} />
      <path d={strong} strokeWidth={1.5} />
    </svg>
  );
}
