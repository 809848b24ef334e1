/** A room divided into bays by dams: straight lines right across. */
import type { Point } from '../book/fields.ts';
import { clipToHalfPlane, type HalfPlane, otherSide } from './half-plane.ts';
import { DUST_M, distanceM } from './point.ts';
import type { Region } from './region.ts';

/** The side of a line that lies to the right of it on the sheet, going from `a` to `b`; null when they are one point. */
export function rightOf(a: Point, b: Point): HalfPlane | null {
  const lengthM = distanceM(a, b);
  if (lengthM < DUST_M) return null;
  const normal = { x: -(b.yM - a.yM) / lengthM, y: (b.xM - a.xM) / lengthM };
  return { normal, offsetM: a.xM * normal.x + a.yM * normal.y };
}

/**
 * Divides a region along the whole line through two points.
 * @param region the floor
 * @param a a point of the line
 * @param b another; when both are one point, the region comes back whole
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
