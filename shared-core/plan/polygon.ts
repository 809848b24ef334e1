/** Area, perimeter, centroid and direction of a ring of corners. */
import type { Point } from '../book/fields.ts';
import { cross, distanceM, sidesOf } from './point.ts';

/**
 * Signed area of a ring in m², by the shoelace formula: positive when it runs clockwise on the drawing
 * (x right, y down). Zero for fewer than three corners.
 */
export function signedAreaM2(ring: readonly Point[]): number {
  const origin = ring[0];
  if (origin === undefined) return 0;
  let twice = 0;
  for (const { from, to } of sidesOf(ring)) twice += cross(origin, from, to);
  return twice / 2;
}

/** Area of a ring in m², in either direction. */
export function ringAreaM2(ring: readonly Point[]): number {
  return Math.abs(signedAreaM2(ring));
}

/** Perimeter of a ring in meters. */
export function ringPerimeterM(ring: readonly Point[]): number {
  return sidesOf(ring).reduce((sum, side) => sum + distanceM(side.from, side.to), 0);
}

/** Reverses a ring if needed, so that it runs clockwise on the drawing (positive signed area) or counterclockwise. */
export function turned(ring: readonly Point[], way: 'clockwise' | 'counterclockwise'): readonly Point[] {
  const isClockwise = signedAreaM2(ring) >= 0;
  return isClockwise === (way === 'clockwise') ? ring : [...ring].reverse();
}

/** Total area and first moments of area of rings, outlines positive and cutouts negative. */
function moments(ring: readonly Point[], about: Point): { readonly area: number; readonly x: number; readonly y: number } {
  let [area, x, y] = [0, 0, 0];
  for (const { from, to } of sidesOf(ring)) {
    const twice = cross(about, from, to);
    area += twice / 2;
    x += (twice * (from.xM + to.xM - 2 * about.xM)) / 6;
    y += (twice * (from.yM + to.yM - 2 * about.yM)) / 6;
  }
  return { area, x, y };
}

/** Center of area of an outline less its cutouts; null when there is no area. */
export function centroidOf(outline: readonly Point[], holes: readonly (readonly Point[])[] = []): Point | null {
  const about = outline[0];
  if (about === undefined) return null;
  const parts = [moments(turned(outline, 'clockwise'), about), ...holes.map((hole) => moments(turned(hole, 'counterclockwise'), about))];
  const area = parts.reduce((sum, part) => sum + part.area, 0);
  if (Math.abs(area) < 1e-12) return null;
  const [x, y] = [parts.reduce((sum, part) => sum + part.x, 0), parts.reduce((sum, part) => sum + part.y, 0)];
  return { xM: about.xM + x / area, yM: about.yM + y / area };
}

/** The axis-aligned bounding box of the points; null when there are none. */
export type Bounds = { readonly leftM: number; readonly topM: number; readonly rightM: number; readonly bottomM: number };

/** The axis-aligned bounding box of the points; null when there are none. */
export function boundsOf(points: readonly Point[]): Bounds | null {
  const first = points[0];
  if (first === undefined) return null;
  return points.reduce(
    (box, p) => ({
      leftM: Math.min(box.leftM, p.xM),
      topM: Math.min(box.topM, p.yM),
      rightM: Math.max(box.rightM, p.xM),
      bottomM: Math.max(box.bottomM, p.yM),
    }),
    { leftM: first.xM, topM: first.yM, rightM: first.xM, bottomM: first.yM },
  );
}
