/** Dashed drawings of what an empty screen will show. */
export type EmptyDrawingName = 'room' | 'days' | 'properties' | 'jobs' | 'material';

const DASHED = { fill: 'none', stroke: 'var(--line)', strokeWidth: 1.5, strokeDasharray: '4 3' } as const;
const LINE = { fill: 'none', stroke: 'var(--line)', strokeWidth: 1 } as const;

const Room = () => (
  <>
    <path d="M1 1H66V48H166V84H1Z" {...DASHED} />
    <path d="M27 17H39M33 11V23M27 62H39M33 56V68M78 66H90M84 60V72M130 66H142M136 60V72" {...LINE} />
  </>
);

/** A week with the pour of one room and the drying of another. */
const Days = () => (
  <>
    <path d="M1 14H167M1 8V14M25 10V14M49 10V14M73 10V14M97 10V14M121 10V14M145 10V14M167 8V14" {...LINE} strokeWidth={1.5} />
    <path d="M28 28H70V40H28ZM70 34H150" {...DASHED} />
    <path d="M76 54H118V66H76ZM118 60H160" {...DASHED} />
    <path d="M49 14V84" {...LINE} strokeDasharray="1 3" />
  </>
);

/** Small plans of properties, side by side. */
const Properties = () => (
  <>
    <path d="M1 10H42V34H24V58H1ZM1 34H24M24 10V34" {...DASHED} />
    <path d="M60 22H104V58H60ZM82 22V58" {...DASHED} />
    <path d="M122 10H166V40H148V58H122ZM122 34H148" {...DASHED} />
    <path d="M1 72H34M60 72H92M122 72H152" {...LINE} />
  </>
);

/** The seven stages on a line, with jobs at some of them. */
const Jobs = () => (
  <>
    <path d="M1 20H167M1 14V20M29 16V20M57 16V20M84 16V20M112 16V20M140 16V20M167 14V20" {...LINE} strokeWidth={1.5} />
    <path d="M1 38H57M1 56H112M1 74H29" {...DASHED} />
    <path d="M57 32V44M112 50V62M29 68V80" {...LINE} strokeWidth={1.5} />
  </>
);

/** A bag with its water, and the range of its yield. */
const Material = () => (
  <>
    <path d="M10 8H58V84H10ZM10 20H58" {...DASHED} />
    <path d="M82 46H160M82 38V54M160 38V54M108 40L102 52M140 40L134 52" {...LINE} strokeWidth={1.5} />
  </>
);

const DRAWINGS: Readonly<Record<EmptyDrawingName, () => React.ReactNode>> = {
  room: Room,
  days: Days,
  properties: Properties,
  jobs: Jobs,
  material: Material,
};

/** Hidden from screen readers, because the words beside it say the same. */
export function EmptyDrawing({ name }: { readonly name: EmptyDrawingName }) {
  const Marks = DRAWINGS[name];
  return (
    <svg width="168" height="92" viewBox="0 0 168 92" aria-hidden="true">
      <Marks />
    </svg>
  );
}
