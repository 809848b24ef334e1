/** Axes of a lane, and the parts of straight lines along and across it that are on the floor. */
import type { Point } from '../book/fields.ts';
import { directionOf } from '../plan/point.ts';
import type { Region } from '../plan/region.ts';

/** Axes of a lane: `u` runs along the lane, `v` across it. */
export type Axes = { readonly ux: number; readonly uy: number };

/** All rings of a floor, outlines and cutouts, to be read with the even-odd rule. */
export const ringsOf = (regions: readonly Region[]): (readonly Point[])[] => regions.flatMap((r) => [r.outline, ...r.holes]);

/** All corners of a floor. */
export const cornersOf = (regions: readonly Region[]): Point[] => ringsOf(regions).flat();

/** Axes with `u` at an angle from x toward y, degrees. Right angles are exact. */
export function axesAt(angleDeg: number): Axes {
  const { x, y } = directionOf(angleDeg);
  return { ux: x, uy: y };
}

export const alongM = (axes: Axes, p: Point): number => axes.ux * p.xM + axes.uy * p.yM;
export const acrossM = (axes: Axes, p: Point): number => axes.ux * p.yM - axes.uy * p.xM;

/** The point at `u` along and `v` across. */
export const pointAt = (axes: Axes, u: number, v: number): Point => ({
  xM: axes.ux * u - axes.uy * v,
  yM: axes.uy * u + axes.ux * v,
});

/** Parts of the line across the lane at `u` that are on the floor: start and end in `v`, in order. */
export function spansAcross(regions: readonly Region[], axes: Axes, u: number): number[] {
  return crossings(
    regions,
    (p) => alongM(axes, p),
    (p) => acrossM(axes, p),
    u,
  );
}

/** Parts of the line along the lane at `v` that are on the floor: start and end in `u`, in order. */
export function spansAlong(regions: readonly Region[], axes: Axes, v: number): number[] {
  return crossings(
    regions,
    (p) => acrossM(axes, p),
    (p) => alongM(axes, p),
    v,
  );
}

function crossings(regions: readonly Region[], level: (p: Point) => number, place: (p: Point) => number, value: number): number[] {
  const found: number[] = [];
  for (const ring of ringsOf(regions)) {
    let before = ring.at(-1);
    for (const corner of ring) {
      if (before) {
        const a = level(before) - value;
        const b = level(corner) - value;
        if (a >= 0 !== b >= 0) found.push(place(before) + (a / (a - b)) * (place(corner) - place(before)));
      }
      before = corner;
    }
  }
  return found.sort((a, b) => a - b);
}
