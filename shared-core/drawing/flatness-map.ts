/** A room's flatness on a small plan: lines of equal height over an even floor, and the straightedge at the largest gap. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { fittedPlane, planeAtM } from '../survey/plane.ts';
import type { FloorRead } from '../survey/read-floor.ts';
import { heightsAlong } from '../survey/surface.ts';
import { type FloorField, floorField } from './floor-field.ts';
import { circleRing, lineMark, ringMark, textMark } from './ink.ts';
import { placeFirst, reserve, reserveRings, startSheet, textBox, uprightBox } from './labels.ts';
import type { Mark } from './marks.ts';
import { type Contour, type ContourSteps, contourMarks, contoursOf, fieldRange, isBoxIn } from './plan-floor.ts';
import { fitPlan, ringOnSheet, toSheet } from './plan-walls.ts';
import type { Box, Rings } from './ring-clip.ts';
import { spacingOf } from './room-plan.ts';
import { SANS_BOLD, textWidthPx } from './type-metrics.ts';

/** How far a floor is over and under the even plane that fits its readings best, meters. */
export type Deviation = { readonly field: FloorField; readonly highM: number; readonly lowM: number };

/** The deviation of a measured floor; null without an outline. The figures are those of the readings, not of the drawn field. */
export function deviationOf(plan: Pick<Plan, 'outline'>, { surface, spots }: Pick<FloorRead, 'surface' | 'spots'>): Deviation | null {
  const plane = fittedPlane(surface);
  const height = heightsAlong(surface);
  const field = floorField(
    plan.outline,
    (x, y) => height(x, y).zM - planeAtM(plane, x, y),
    spacingOf(plan.outline, spots.length),
    MAP_CELLS,
  );
  const over = spots.map(({ xM, yM, zM }) => zM - planeAtM(plane, xM, yM));
  return field === null ? null : { field, highM: Math.max(0, ...over), lowM: Math.max(0, ...over.map((m) => -m)) };
}

/** A map is a few inches wide. */
const MAP_CELLS = 2500;
const WORDS_PX = 15;

export type FlatnessMap = {
  readonly plan: Pick<Plan, 'outline' | 'holes'>;
  /** Null where the floor is not measured: the outline is dashed. */
  readonly deviation: Deviation | null;
  readonly steps: ContourSteps;
  /** The straightedge at the largest gap; null where there is no gap. */
  readonly straightedge: { readonly ends: readonly [Point, Point]; readonly at: Point; readonly words: string } | null;
};

/** The map, fitted to a box from its upper left corner. Lines over an even floor are solid, those under it dashed. */
export function flatnessMarks({ plan, deviation, steps, straightedge }: FlatnessMap, box: Box): Mark[] {
  const fit = fitPlan(plan.outline, box, 'start');
  if (fit === null) return [];
  const ring = ringOnSheet(fit, plan.outline);
  const holes = plan.holes.map((hole) => ringOnSheet(fit, hole.corners));
  const room: Rings = [ring, ...holes];
  const walls = [ring, ...holes].map((r, i) =>
    ringMark(r, { pen: i === 0 ? 'cut' : 'seen', dash: deviation === null ? 'not-yet' : null, fill: i === 0 ? null : 'paper' }),
  );
  if (deviation === null) return walls;
  const sheet = startSheet(box);
  reserveRings(sheet, room);
  const edge: Mark[] = [];
  if (straightedge !== null) {
    const [from, to] = straightedge.ends.map((p) => toSheet(fit, p));
    const [x, y] = toSheet(fit, straightedge.at);
    const line = [...(from ?? []), ...(to ?? [])];
    edge.push(lineMark(line, { pen: 'datum' }), ringMark(circleRing(x, y, 4), { pen: 'seen', fill: 'paper' }));
    sheet.lines.push(line);
    reserve(sheet, uprightBox({ x: x - 5, y: y - 5, width: 10, height: 10 }));
    const setting = { face: SANS_BOLD, sizePx: WORDS_PX, anchor: 'middle' as const };
    // Beside the ring, the words begin where it ends; over and under it they stand clear of it.
    const beside = textWidthPx(straightedge.words, WORDS_PX, SANS_BOLD) / 2 + 9;
    const spots = [
      [0, -12],
      [0, 21],
      [beside, 5],
      [-beside, 5],
      [20, -12],
      [-20, -12],
      [20, 21],
      [-20, 21],
    ];
    const candidates = spots.map(([dx = 0, dy = 0]) => {
      const at = { x: x + dx, y: y + dy };
      return { ...at, box: textBox(at.x, at.y, straightedge.words, { ...setting, air: 2 }) };
    });
    const label = placeFirst(sheet, candidates, (at) => isBoxIn(at, room));
    if (label !== null) edge.push(textMark(label.x, label.y, straightedge.words, setting));
  }
  const contours = contoursOf(deviation.field, steps, fit, room, fieldRange(deviation.field, fit, room));
  const signed = (sign: 1 | -1): Contour[] => contours.filter(({ valueM }) => valueM * sign > 1e-9);
  const over = contourMarks(signed(1), steps, sheet, room, []);
  const under = contourMarks(signed(-1), steps, sheet, room, []);
  return [...over, ...under.map((mark): Mark => (mark.kind === 'path' ? { ...mark, dash: 'not-yet' } : mark)), ...walls, ...edge];
}
