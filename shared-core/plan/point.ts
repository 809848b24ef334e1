/** Points of a plan and the basic geometry on them. Meters; x to the right, y down the drawing. */
import type { Point } from '../book/fields.ts';

/** Corners closer than this are one corner: half the reading precision of a tape. Common practice. */
export const SAME_PLACE_M = 0.0005;
/** Lengths below this are floating-point rounding errors. */
export const DUST_M = 1e-9;

/** Twice the signed area of the triangle o, a, b. */
export function cross(o: Point, a: Point, b: Point): number {
  return (a.xM - o.xM) * (b.yM - o.yM) - (a.yM - o.yM) * (b.xM - o.xM);
}

/** Distance between two points. A plain root: `Math.hypot` takes several times as long, for lengths no room has. */
export function distanceM(a: Point, b: Point): number {
  const x = b.xM - a.xM;
  const y = b.yM - a.yM;
  return Math.sqrt(x * x + y * y);
}

/** The point at a given share of the way between two points. */
export function between(a: Point, b: Point, share: number): Point {
  return { xM: a.xM + (b.xM - a.xM) * share, yM: a.yM + (b.yM - a.yM) * share };
}

/** Cosine and sine of an angle in degrees, exact at whole quarter turns. */
export function directionOf(angleDeg: number): { readonly x: number; readonly y: number } {
  const turn = ((angleDeg % 360) + 360) % 360;
  if (turn === 0) return { x: 1, y: 0 };
  if (turn === 90) return { x: 0, y: 1 };
  if (turn === 180) return { x: -1, y: 0 };
  if (turn === 270) return { x: 0, y: -1 };
  const radians = (turn * Math.PI) / 180;
  return { x: Math.cos(radians), y: Math.sin(radians) };
}

/** The sides of a ring, from each corner to the next and from the last back to the first. */
export function sidesOf(ring: readonly Point[]): readonly { readonly from: Point; readonly to: Point }[] {
  return ring.flatMap((from, index) => {
    const to = ring[(index + 1) % ring.length];
    return to === undefined ? [] : [{ from, to }];
  });
}

/** The point of a segment nearest to `point`, and its distance. */
export function nearestOnSegment(
  point: Point,
  from: Point,
  to: Point,
): { readonly point: Point; readonly alongM: number; readonly offM: number } {
  const lengthM = distanceM(from, to);
  const dot = (point.xM - from.xM) * (to.xM - from.xM) + (point.yM - from.yM) * (to.yM - from.yM);
  const share = lengthM === 0 ? 0 : Math.min(1, Math.max(0, dot / (lengthM * lengthM)));
  const place = between(from, to, share);
  return { point: place, alongM: share * lengthM, offM: distanceM(point, place) };
}
