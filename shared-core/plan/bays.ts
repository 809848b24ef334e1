/** Divides a room into bays along dams, which are straight lines across the whole room. */
import type { Point } from '../book/fields.ts';
import { clipToHalfPlane, type HalfPlane, otherSide } from './half-plane.ts';
import { DUST_M, distanceM } from './point.ts';
import type { Region } from './region.ts';

/** The half-plane to the right of the line from `a` to `b` on the drawing; null when both points are the same. */
export function rightOf(a: Point, b: Point): HalfPlane | null {
  const lengthM = distanceM(a, b);
  if (lengthM < DUST_M) return null;
  const normal = { x: -(b.yM - a.yM) / lengthM, y: (b.xM - a.xM) / lengthM };
  return { normal, offsetM: a.xM * normal.x + a.yM * normal.y };
}

/**
 * Divides a region along the whole line through two points.
 * @param a a point of the line
 * @param b a second point of the line; when it equals `a`, the region is returned undivided
 */
export function splitByLine(region: Region, a: Point, b: Point): readonly Region[] {
  const half = rightOf(a, b);
  if (half === null) return [region];
  return [...clipToHalfPlane(region, half), ...clipToHalfPlane(region, otherSide(half))];
}

/** Divides a region along several lines, one after the other. */
export function baysOf(region: Region, dams: readonly { readonly from: Point; readonly to: Point }[]): readonly Region[] {
  return dams.reduce<readonly Region[]>((bays, dam) => bays.flatMap((bay) => splitByLine(bay, dam.from, dam.to)), [region]);
}
