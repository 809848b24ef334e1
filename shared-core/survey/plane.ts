/** The finish as a plane, and the plane through the heights entered for a ramp. */
import type { Point } from '../book/fields.ts';
import { real } from './typed-reads.ts';

/** Height in meters at x, y: zM + slopeX·x + slopeY·y, in the room's own axes. */
export type Plane = { readonly zM: number; readonly slopeX: number; readonly slopeY: number };

/** The height of a plane at a point, meters. */
export function planeAtM(plane: Plane, xM: number, yM: number): number {
  return plane.zM + plane.slopeX * xM + plane.slopeY * yM;
}

/** Points to fit a plane to, meters; the first `spotCount` of each array. */
type Spots = { readonly xM: Float64Array; readonly yM: Float64Array; readonly zM: Float64Array; readonly spotCount: number };

/** The least-squares plane of the spots that count; level through their average where they are on one line. */
export function fittedPlane({ xM, yM, zM, spotCount }: Spots, counts: (i: number) => boolean = () => true): Plane {
  const used = Array.from({ length: spotCount }, (_, i) => i).filter(counts);
  const mean = (values: Float64Array): number => used.reduce((sum, i) => sum + real(values, i), 0) / Math.max(1, used.length);
  const [mx, my, mz] = [mean(xM), mean(yM), mean(zM)];
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const i of used) {
    const x = real(xM, i) - mx;
    const y = real(yM, i) - my;
    const z = real(zM, i) - mz;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const det = xx * yy - xy * xy;
  const slopeX = det === 0 ? 0 : (xz * yy - yz * xy) / det;
  const slopeY = det === 0 ? 0 : (yz * xx - xz * xy) / det;
  return { zM: mz - slopeX * mx - slopeY * my, slopeX, slopeY };
}

/** A height on the readings' scale at a place, meters. */
export type RampHeight = { readonly point: Point; readonly heightM: number };

/** A plane, or the reason the entered heights do not define one. */
export type RampPlane = { readonly ok: true; readonly plane: Plane } | { readonly ok: false; readonly message: string };

const SAME_PLACE_M = 0.01;

/**
 * The plane of a ramp. One height makes it level; two make it slope straight from one to the other and level across; three
 * define it fully. Fails when two heights are at one place or three are on one line.
 */
export function rampPlane(through: readonly RampHeight[]): RampPlane {
  const [a, b, c] = through;
  if (!a) return { ok: false, message: 'Enter the ramp’s elevation at each end.' };
  if (!b) return { ok: true, plane: { zM: a.heightM, slopeX: 0, slopeY: 0 } };
  const ux = b.point.xM - a.point.xM;
  const uy = b.point.yM - a.point.yM;
  const du = b.heightM - a.heightM;
  const length2 = ux * ux + uy * uy;
  if (length2 < SAME_PLACE_M ** 2) {
    return { ok: false, message: 'Two ramp elevations are at the same point. Move or delete one.' };
  }
  let slopeX = (du * ux) / length2;
  let slopeY = (du * uy) / length2;
  if (c) {
    const vx = c.point.xM - a.point.xM;
    const vy = c.point.yM - a.point.yM;
    const dv = c.heightM - a.heightM;
    const twice = ux * vy - uy * vx;
    if (Math.abs(twice) < SAME_PLACE_M * Math.sqrt(length2)) {
      return {
        ok: false,
        message: 'The three ramp elevations are on one line. Move one aside or delete it.',
      };
    }
    slopeX = (du * vy - dv * uy) / twice;
    slopeY = (dv * ux - du * vx) / twice;
  }
  return { ok: true, plane: { zM: a.heightM - slopeX * a.point.xM - slopeY * a.point.yM, slopeX, slopeY } };
}

/** A room's outline, corners in meters. */
type Outline = readonly { readonly xM: number; readonly yM: number }[];

/**
 * Default ends of a ramp along a room's longer direction, in the middle of its far sides, both at `heightM` (meters on the
 * survey's scale), for the user to overwrite. Null for an outline of fewer than three corners.
 */
export function rampEnds(outline: Outline, heightM: number): RampHeight[] | null {
  if (outline.length < 3) return null;
  const xs = outline.map((p) => p.xM);
  const ys = outline.map((p) => p.yM);
  const [west, east] = [Math.min(...xs), Math.max(...xs)];
  const [south, north] = [Math.min(...ys), Math.max(...ys)];
  return east - west >= north - south
    ? [west, east].map((xM) => ({ point: { xM, yM: (south + north) / 2 }, heightM }))
    : [south, north].map((yM) => ({ point: { xM: (west + east) / 2, yM }, heightM }));
}
