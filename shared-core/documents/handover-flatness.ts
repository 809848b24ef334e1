/** The picture of the floors' flatness before and after the pour, or after alone. */
import type { Point } from '../book/fields.ts';
import { type Deviation, deviationOf, flatnessMarks, type FlatnessMap } from '../drawing/flatness-map.ts';
import { groupMark, textMark } from '../drawing/ink.ts';
import type { Mark } from '../drawing/marks.ts';
import type { ContourSteps } from '../drawing/plan-floor.ts';
import { fitText, SANS_BOLD, textWidthPx } from '../drawing/type-metrics.ts';
import { formatDepth, formatSignedDepth, isZeroDepth } from '../measure/length-format.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { WorstGap } from '../survey/flatness.ts';
import { USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import type { FloorRead } from '../survey/read-floor.ts';
import type { HandoverRoom } from './handover-rooms.ts';
import { type HandoverPlace, spanWords } from './handover-tables.ts';
import { flatnessWords } from './quote-table.ts';
import { drawingBlock } from './blocks.ts';
import type { Block } from './tree.ts';

/** Rooms side by side at most, the space between them and between the two sides of one. */
const MOST_COLUMNS = 4;
const GAP_PX = 18;
const LINE_PX = 19;
/** The page between its margins, and the height of a map: of one room, and of several. */
const MEASURE_PX = 696;
const MAP_PX = { alone: 150, several: 100 } as const;
/** Distances between lines, meters: the first that leaves few enough lines on either side. */
const STEPS_M: Readonly<Record<UnitSystem, readonly number[]>> = {
  us: [INCH_M / 8, INCH_M / 4, INCH_M / 2, INCH_M],
  metric: [0.003, 0.006, 0.012, 0.025],
};
const MOST_LINES = 4;

type Side = 'before' | 'after';
type Measured = { readonly worst: WorstGap; readonly deviation: Deviation };
type Cell = { readonly handoverRoom: HandoverRoom; readonly side: Side; readonly measured: Measured | null };

function measuredOf({ room, flatness }: HandoverRoom, side: Side): Measured | null {
  const { worst, floor }: { worst: WorstGap | null; floor: FloorRead | null } =
    side === 'after' ? flatness.after : (flatness.before ?? { worst: null, floor: null });
  const deviation = floor === null ? null : deviationOf(room.plan, floor);
  return worst === null || deviation === null ? null : { worst, deviation };
}

function stepsFor(cells: readonly Cell[], { units, locale }: HandoverPlace): ContourSteps {
  const most = Math.max(
    0,
    ...cells.flatMap(({ measured }) => (measured === null ? [] : [measured.deviation.highM, measured.deviation.lowM])),
  );
  const everyM = STEPS_M[units].find((step) => most / step < MOST_LINES + 1) ?? STEPS_M[units].at(-1) ?? INCH_M;
  return { everyM, heavyEveryM: 2 * everyM, text: (valueM) => formatSignedDepth(valueM, units, locale).replace(/[″"]$| mm$/, '') };
}

function mapOf({ handoverRoom, measured }: Cell, steps: ContourSteps, { units, locale }: HandoverPlace): FlatnessMap {
  const { plan } = handoverRoom.room;
  if (measured === null) return { plan, deviation: null, steps, straightedge: null };
  const { contacts, point, gapM } = measured.worst;
  const straightedge = contacts === null || point === null ? null : { ends: contacts, at: point, words: formatDepth(gapM, units, locale) };
  return { plan, deviation: measured.deviation, steps, straightedge };
}

const SIDES: Readonly<Record<Side, string>> = { before: 'Before', after: 'After' };

/** What is said of, with the figure of the side: `Before: 1/8″ in 10 ft`. A floor that shows no gap before the pour has no figure. */
function withGap(of: string, { side, measured }: Cell, place: HandoverPlace): string {
  if (measured === null) return `${of}: not measured`;
  const { gapM } = measured.worst;
  return side === 'before' && isZeroDepth(gapM, place.units) ? of : `${of}: ${flatnessWords(gapM, place)}`;
}

/** The words over a map, without the straightedge's length where they are too long: the key names it. */
function sideWords(cell: Cell, place: HandoverPlace, widthPx: number): string {
  const whole = withGap(SIDES[cell.side], cell, place);
  if (cell.measured === null && textWidthPx(whole, 15) > widthPx) return fitText('Not measured', widthPx, 15);
  return textWidthPx(whole, 15) <= widthPx ? whole : fitText(whole.replace(/ in \d+ (?:ft|m)$/, ''), widthPx, 15);
}

function altOf(cells: readonly Cell[], place: HandoverPlace): string {
  const depth = (m: number): string => formatDepth(m, place.units, place.locale);
  const said = cells.map((cell) => {
    const { handoverRoom, side, measured } = cell;
    const spread = measured === null ? '' : `, ${depth(measured.deviation.highM)} high to ${depth(measured.deviation.lowM)} low`;
    return `${withGap(`${handoverRoom.room.name} ${side} the pour`, cell, place)}${spread}`;
  });
  return `Flatness on the plan, with the straightedge at the largest gap. ${said.join('; ')}`;
}

/** Height of a map in its box: a long room needs less than the box has. */
function mapHeightPx(outline: readonly Point[], widthPx: number, mostPx: number): number {
  const span = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
  return Math.min(mostPx, (widthPx * span(outline.map((p) => p.yM))) / span(outline.map((p) => p.xM)));
}

/** How the maps are laid out: the sides shown, the width of all and the greatest height of one. */
export type FlatnessLayout = { readonly sides: readonly Side[]; readonly widthPx: number; readonly mapPx: number };

/** The maps, a column for each room, its sides beside each other; null where no floor was measured after the pour. */
export function flatnessPicture(
  rooms: readonly HandoverRoom[],
  place: HandoverPlace,
  { sides, widthPx, mapPx }: FlatnessLayout,
): { readonly drawing: Extract<Block, { kind: 'drawing' }>; readonly key: string } | null {
  if (rooms.every(({ flatness }) => flatness.after.worst === null)) return null;
  const columns = Math.min(MOST_COLUMNS, rooms.length);
  const roomPx = (widthPx - GAP_PX * (columns - 1)) / columns;
  const sidePx = (roomPx - GAP_PX * (sides.length - 1)) / sides.length;
  const rowPx = 2 * LINE_PX + 4 + Math.max(...rooms.map(({ room }) => mapHeightPx(room.plan.outline, sidePx - 4, mapPx))) + 10;
  const cellsOf = (handoverRoom: HandoverRoom): Cell[] =>
    sides.map((side) => ({ handoverRoom, side, measured: measuredOf(handoverRoom, side) }));
  const cells = rooms.map(cellsOf);
  const steps = stepsFor(cells.flat(), place);
  const marks = cells.flatMap((ofRoom, i): Mark[] => {
    const [left, top] = [(i % columns) * (roomPx + GAP_PX), Math.floor(i / columns) * rowPx];
    const { room } = ofRoom[0]?.handoverRoom ?? { room: { id: '', name: '' } };
    return [
      textMark(left, top + 14, fitText(room.name, roomPx, 15, SANS_BOLD), { face: SANS_BOLD }),
      ...ofRoom.map((cell, k) => {
        const x = left + k * (sidePx + GAP_PX);
        return groupMark(`flatness:${room.id}:${cell.side}`, withGap(`${room.name} ${cell.side} the pour`, cell, place), [
          textMark(x, top + 14 + LINE_PX, sideWords(cell, place, sidePx)),
          ...flatnessMarks(mapOf(cell, steps, place), { x: x + 2, y: top + 2 * LINE_PX + 4, width: sidePx - 4, height: mapPx }),
        ]);
      }),
    ];
  });
  const every = formatDepth(steps.everyM, place.units, place.locale);
  return {
    drawing: drawingBlock({ width: widthPx, height: Math.ceil(rooms.length / columns) * rowPx, marks }, altOf(cells.flat(), place), {
      gives: true,
    }),
    key: `Lines: every ${every} over (solid) or under (dashed) an even floor. Bar: ${spanWords(USUAL_STRAIGHTEDGE_M, place)} straightedge, largest gap.`,
  };
}

/** Before and after across the page, with the key as its caption. */
export function beforeAfterPicture(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const mapPx = rooms.length === 1 ? MAP_PX.alone : MAP_PX.several;
  const picture = flatnessPicture(rooms, place, { sides: ['before', 'after'], widthPx: MEASURE_PX, mapPx });
  return picture === null ? [] : [{ ...picture.drawing, caption: picture.key }];
}
