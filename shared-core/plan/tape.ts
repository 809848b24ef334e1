/** Builds a room from tape measurements, a walk of lengths and turns, and closes a walk that does not meet its start. */
import type { Point } from '../book/fields.ts';
import { formatLength } from '../measure/length-format.ts';
import type { Parsed } from '../measure/parsed.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { directionOf } from './point.ts';

/** A side: its length, and the turn at its end in degrees, positive to the right (90 at an inside corner, −90 at an outside corner). */
export type Side = { readonly lengthM: number; readonly turnDeg: number };

/** A walk that ends this close to its start is closed: a tape is read to 1/16 in. Common practice. */
export const CLOSED_WITHIN_M = 0.0016;

/** Shapes offered for entering sides. Turns go clockwise on the drawing from the upper left corner. */
export const SHAPE_TURNS = {
  rectangle: [90, 90, 90, 90],
  l: [90, 90, -90, 90, 90, 90],
  t: [90, 90, -90, 90, 90, -90, 90, 90],
  u: [90, -90, -90, 90, 90, 90, 90, 90],
} as const;
export type Shape = keyof typeof SHAPE_TURNS;

/** The result of a walk: a corner at the start of each side, and the gap from its end to its start. */
export type Walk = {
  readonly corners: readonly Point[];
  /** From the end of the walk to its start. */
  readonly gapXM: number;
  readonly gapYM: number;
  readonly closes: boolean;
};

/** The direction of each side of a walk, from the turns at the ends of the sides before it: unit vectors. */
export function headings(sides: readonly Pick<Side, 'turnDeg'>[]): readonly { readonly x: number; readonly y: number }[] {
  let headingDeg = 0;
  return sides.map((side) => {
    const direction = directionOf(headingDeg);
    headingDeg += side.turnDeg;
    return direction;
  });
}

/** Places the sides from the origin, the first one along the x axis. */
export function walkSides(sides: readonly Side[]): Walk {
  const corners: Point[] = [];
  let point: Point = { xM: 0, yM: 0 };
  const directions = headings(sides);
  for (const [i, side] of sides.entries()) {
    corners.push(point);
    const direction = directions[i] ?? { x: 1, y: 0 };
    point = { xM: point.xM + direction.x * side.lengthM, yM: point.yM + direction.y * side.lengthM };
  }
  return { corners, gapXM: 0 - point.xM, gapYM: 0 - point.yM, closes: Math.hypot(point.xM, point.yM) <= CLOSED_WITHIN_M };
}

/** A message about a walk that does not close; null when it does. */
export function closingSentence(walk: Walk, units: UnitSystem, locale?: string): string | null {
  if (walk.closes) return null;
  const parts = [
    { offM: walk.gapXM, over: 'too far right', under: 'too far left' },
    { offM: walk.gapYM, over: 'too far down', under: 'too far up' },
  ].filter(({ offM }) => Math.abs(offM) > CLOSED_WITHIN_M / 2);
  const gaps = parts
    .map(({ offM, over, under }) => `${formatLength(Math.abs(offM), units, locale)} ${offM < 0 ? over : under}`)
    .join(' and ');
  return `The sides do not close. The last one ends ${gaps}. Spread the difference over all sides, or correct one side.`;
}

/**
 * Closes a walk by adjusting every side and keeping all directions: the changes are proportional to the lengths
 * and minimal in total (weighted least squares, the compass rule of surveying with fixed directions).
 */
export function spreadOverSides(sides: readonly Side[]): Parsed<readonly Side[]> {
  const { gapXM, gapYM } = walkSides(sides);
  const directions = headings(sides);
  let [xx, xy, yy] = [0, 0, 0];
  for (const [i, side] of sides.entries()) {
    const direction = directions[i] ?? { x: 1, y: 0 };
    xx += side.lengthM * direction.x * direction.x;
    xy += side.lengthM * direction.x * direction.y;
    yy += side.lengthM * direction.y * direction.y;
  }
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-12 * (xx + yy) ** 2)) return { ok: false, message: 'All sides run in one direction. Check the turns.' };
  const byX = (yy * gapXM - xy * gapYM) / determinant;
  const byY = (xx * gapYM - xy * gapXM) / determinant;
  const mended = sides.map((side, i) => {
    const direction = directions[i] ?? { x: 1, y: 0 };
    return { ...side, lengthM: side.lengthM * (1 + direction.x * byX + direction.y * byY) };
  });
  return mended.every((side) => side.lengthM > 0)
    ? { ok: true, value: mended }
    : { ok: false, message: 'The gap is too large to spread. Check the sides and the turns.' };
}

/** Closes a walk by changing one side; refused with a message when that side is not parallel to the gap. */
export function mendOneSide(sides: readonly Side[], index: number, units: UnitSystem, locale?: string): Parsed<readonly Side[]> {
  const side = sides[index];
  const direction = headings(sides)[index];
  if (side === undefined || direction === undefined) return { ok: false, message: `There is no side ${index + 1}.` };
  const { gapXM, gapYM } = walkSides(sides);
  const alongM = gapXM * direction.x + gapYM * direction.y;
  const leftM = Math.abs(gapXM * direction.y - gapYM * direction.x);
  if (leftM > CLOSED_WITHIN_M) {
    const remainder = formatLength(leftM, units, locale);
    return {
      ok: false,
      message: `Side ${index + 1} cannot close the room alone. A gap of ${remainder} would stay open. Choose a side that runs along the gap.`,
    };
  }
  if (side.lengthM + alongM <= 0) return { ok: false, message: `Side ${index + 1} would be shorter than 0. Check the other sides.` };
  return { ok: true, value: sides.map((other, i) => (i === index ? { ...other, lengthM: other.lengthM + alongM } : other)) };
}

/** Indexes of the sides that could close the walk alone. */
export function sidesThatMend(sides: readonly Side[]): readonly number[] {
  return sides.flatMap((_, index) => (mendOneSide(sides, index, 'metric').ok ? [index] : []));
}
