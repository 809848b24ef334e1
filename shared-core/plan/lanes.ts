/** Divides a room into parallel lanes in pouring order, starting at the wall farthest from the exit. */
import type { Point } from '../book/fields.ts';
import { clipToHalfPlane, otherSide } from './half-plane.ts';
import { directionOf } from './point.ts';
import type { Region } from './region.ts';

/** One lane. Several pieces when a cutout or the outline divides it. */
export type Lane = readonly Region[];

/** The maximum number of lanes; more means that the width is a typo. */
export const LANES_MOST = 500;

function extent(
  points: readonly Point[],
  axis: { readonly x: number; readonly y: number },
): { readonly least: number; readonly most: number } {
  const along = points.map((p) => p.xM * axis.x + p.yM * axis.y);
  return { least: Math.min(...along), most: Math.max(...along) };
}

/**
 * Cuts a region into parallel lanes.
 * @param region the floor, without plan problems
 * @param widthM width of a lane, more than zero; the last lane gets the remainder
 * @param angleDeg direction of the lanes, degrees from the x axis toward y
 * @param wayOut the exit: lanes start on the side farthest from it, or on the side with the smallest coordinate when null
 * @returns lanes in pouring order; empty when the width is not a positive number or gives more than `LANES_MOST`
 */
export function lanesOfRegion(region: Region, widthM: number, angleDeg: number, wayOut: Point | null): readonly Lane[] {
  if (!(widthM > 0) || !Number.isFinite(angleDeg) || region.outline.length < 3) return [];
  const along = directionOf(angleDeg);
  const across = { x: -along.y, y: along.x };
  const { least, most } = extent(region.outline, across);
  const count = Math.max(1, Math.ceil((most - least) / widthM - 1e-9));
  if (count > LANES_MOST) return [];
  const exitM = wayOut === null ? most : wayOut.xM * across.x + wayOut.yM * across.y;
  const startsLeast = exitM - least >= most - exitM;
  const normal = startsLeast ? across : { x: -across.x, y: -across.y };
  const start = startsLeast ? least : -most;
  const lanes: Lane[] = [];
  let rest: readonly Region[] = [region];
  for (let order = 0; order < count; order += 1) {
    const isLast = order === count - 1;
    const farHalf = { normal, offsetM: start + (order + 1) * widthM };
    const pieces = isLast ? rest : rest.flatMap((piece) => clipToHalfPlane(piece, otherSide(farHalf)));
    if (!isLast) rest = rest.flatMap((piece) => clipToHalfPlane(piece, farHalf));
    lanes.push(pieces);
  }
  return lanes;
}
