/** Finds the parts of a straight line that are on a floor, and the longest line that fits. */
import type { Point } from '../book/fields.ts';
import { between, cross, distanceM, sidesOf } from './point.ts';
import { pointInRegion, type Region } from './region.ts';

/** A part of a line, in meters along it from the first point. */
export type Stretch = { readonly fromM: number; readonly toM: number };

/**
 * The parts of the infinite line through two points that are on the floor or along its edge.
 * @param region the floor
 * @param a the origin of the measurements
 * @param b gives the line's direction
 */
export function stretchesOnLine(region: Region, a: Point, b: Point): readonly Stretch[] {
  const lengthM = distanceM(a, b);
  if (lengthM === 0) return [];
  const alongOf = (p: Point) => ((p.xM - a.xM) * (b.xM - a.xM) + (p.yM - a.yM) * (b.yM - a.yM)) / lengthM;
  const meets: number[] = [];
  for (const ring of [region.outline, ...region.holes]) {
    for (const { from, to } of sidesOf(ring)) {
      const [f, t] = [cross(a, b, from) / lengthM, cross(a, b, to) / lengthM];
      if (Math.abs(f) <= 1e-9) meets.push(alongOf(from));
      if (Math.abs(f) > 1e-9 && Math.abs(t) > 1e-9 && f < 0 !== t < 0) meets.push(alongOf(between(from, to, f / (f - t))));
    }
  }
  meets.sort((x, y) => x - y);
  const stretches: Stretch[] = [];
  for (let i = 0; i + 1 < meets.length; i += 1) {
    const [fromM, toM] = [meets[i], meets[i + 1]];
    if (fromM === undefined || toM === undefined || toM - fromM < 1e-9) continue;
    if (pointInRegion(between(a, b, (fromM + toM) / 2 / lengthM), region, 1e-8) === 'outside') continue;
    const last = stretches[stretches.length - 1];
    if (last !== undefined && Math.abs(last.toM - fromM) < 1e-8) stretches[stretches.length - 1] = { fromM: last.fromM, toM };
    else stretches.push({ fromM, toM });
  }
  return stretches;
}
