/** Converts between a room's corners and its sides as measured by tape, and keeps the room's position and direction. */
import type { Point } from '../book/fields.ts';
import { directionOf, sidesOf } from './point.ts';
import { headings, type Side, walkSides } from './tape.ts';

/** Position of a walk in the room: its first corner, and the direction of its first side, clockwise on the drawing from the x axis. */
export type WalkPlace = { readonly start: Point; readonly headingDeg: number };

/** Turns this close to a whole degree are rounded, since corners stored as doubles make a right angle 89.9999999. */
const WHOLE_DEG = 1e-6;

function headingDeg(from: Point, to: Point): number {
  return (Math.atan2(to.yM - from.yM, to.xM - from.xM) * 180) / Math.PI;
}

/** A turn normalized to −180 to 180 degrees. */
function turnOf(deg: number): number {
  const turn = ((((deg + 180) % 360) + 360) % 360) - 180;
  const whole = Math.round(turn);
  return Math.abs(turn - whole) < WHOLE_DEG ? whole : turn;
}

/** The sides of an outline with the turn at the end of each, and the position of the walk; no sides while nothing is drawn. */
export function tapeOfOutline(outline: readonly Point[]): { readonly sides: readonly Side[]; readonly place: WalkPlace } {
  const walls = sidesOf(outline);
  const headings = walls.map(({ from, to }) => headingDeg(from, to));
  const sides = walls.map(({ from, to }, i) => ({
    lengthM: Math.hypot(to.xM - from.xM, to.yM - from.yM),
    turnDeg: turnOf((headings[(i + 1) % headings.length] ?? 0) - (headings[i] ?? 0)),
  }));
  return { sides, place: { start: outline[0] ?? { xM: 0, yM: 0 }, headingDeg: turnOf(headings[0] ?? 0) } };
}

/** Moves the points of a walk, which starts at the origin along the x axis, to its position in the room. */
export function placedPoints(points: readonly Point[], { start, headingDeg: deg }: WalkPlace): readonly Point[] {
  const { x, y } = directionOf(deg);
  return points.map((p) => ({ xM: start.xM + p.xM * x - p.yM * y, yM: start.yM + p.xM * y + p.yM * x }));
}

/** The corners of a walk at its position in the room. */
export function cornersInPlace(sides: readonly Side[], place: WalkPlace): readonly Point[] {
  return placedPoints(walkSides(sides).corners, place);
}

/**
 * Calculates the missing lengths that close a walk: one side that runs along the gap, or two sides in
 * different directions. Null when none or more than two are missing, or when they cannot close the gap.
 * @param turnsDeg the turn at the end of every side
 * @param lengthsM the lengths, null where not measured
 */
export function missingLengths(turnsDeg: readonly number[], lengthsM: readonly (number | null)[]): readonly (number | null)[] {
  const unchanged = lengthsM.map(() => null);
  const missing = lengthsM.flatMap((lengthM, i) => (lengthM === null ? [i] : []));
  const known = lengthsM.map((lengthM, i) => ({ lengthM: lengthM ?? 0, turnDeg: turnsDeg[i] ?? 0 }));
  const directions = headings(known);
  const { gapXM, gapYM, closes } = walkSides(known);
  if (closes) return unchanged;
  const [i, j] = missing;
  const a = i === undefined ? undefined : directions[i];
  if (i === undefined || a === undefined || missing.length > 2) return unchanged;
  const b = j === undefined ? { x: -a.y, y: a.x } : (directions[j] ?? a);
  const cross = a.x * b.y - a.y * b.x;
  if (Math.abs(cross) < 1e-9) return unchanged;
  const alongA = (gapXM * b.y - gapYM * b.x) / cross;
  const alongB = (gapYM * a.x - gapXM * a.y) / cross;
  const isAside = j === undefined && Math.abs(alongB) > 1e-6;
  if (isAside || !(alongA > 0) || (j !== undefined && !(alongB > 0))) return unchanged;
  return lengthsM.map((_, k) => (k === i ? alongA : k === j ? alongB : null));
}

/**
 * The side from the end of a walk to a point: its length and the turn before it, in the walk's own axes. The turn is
 * snapped to a right angle within `snapDeg`.
 */
export function sideToward(
  sides: readonly Side[],
  toward: Point,
  snapDeg: number,
): { readonly lengthM: number; readonly turnBeforeDeg: number } {
  const { gapXM, gapYM } = walkSides(sides);
  const [dx, dy] = [toward.xM + gapXM, toward.yM + gapYM];
  const last = sides.slice(0, -1).reduce((sum, side) => sum + side.turnDeg, 0);
  const wanted = turnOf((Math.atan2(dy, dx) * 180) / Math.PI - last);
  const square = Math.round(wanted / 90) * 90;
  if (Math.abs(wanted - square) > snapDeg) return { lengthM: Math.hypot(dx, dy), turnBeforeDeg: wanted };
  const direction = directionOf(last + square);
  return { lengthM: Math.max(0, dx * direction.x + dy * direction.y), turnBeforeDeg: turnOf(square) };
}

/** A point of the room in the axes of a walk; the inverse of `placedPoints`. */
export function inWalkAxes(point: Point, { start, headingDeg: deg }: WalkPlace): Point {
  const { x, y } = directionOf(deg);
  const [dx, dy] = [point.xM - start.xM, point.yM - start.yM];
  return { xM: dx * x + dy * y, yM: dy * x - dx * y };
}
