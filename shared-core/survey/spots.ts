/** The patches of floor above a height, which would be ground: their outlines and sizes. */
import type { Point } from '../book/fields.ts';
import { type ContourLine, joinPieces, piecesAt } from './contours.ts';
import type { Mosaic } from './mosaic.ts';
import type { Plane } from './plane.ts';
import { distanceToRingM, isWithinRing, type RoomRings, signedAreaM2 } from './room-rings.ts';
import type { Surface } from './surface.ts';
import { real } from './typed-reads.ts';

/**
 * A patch above the height: rings (the first is its edge, others are lower floor inside it), its size, and its highest
 * point.
 */
export type HighSpot = {
  readonly rings: readonly (readonly Point[])[];
  readonly areaM2: number;
  /** Narrow and long side of the smallest rectangle around it, meters (searched in steps of 5 degrees). */
  readonly widthM: number;
  readonly lengthM: number;
  /** How far its highest point is above the height, meters. */
  readonly depthM: number;
  readonly highestAt: Point;
};

/** Smaller patches are artifacts of rounding, square meters. */
const SPECK_M2 = 1e-7;
/** A point this near to a patch's edge counts as on it, meters. */
const ON_EDGE_M = 1e-6;

/** Patches of the floor above `heightM`, measured from the plane's slope; the largest first. */
export function spotsAbove(
  surface: Surface,
  room: RoomRings,
  mosaic: Mosaic,
  slope: Pick<Plane, 'slopeX' | 'slopeY'>,
  heightM: number,
): HighSpot[] {
  const pieces = piecesAt(surface, room, mosaic, slope, heightM);
  const levelM = heightM + 1e-9;
  const above = (xM: number, yM: number, zM: number): number => zM - slope.slopeX * xM - slope.slopeY * yM - levelM;
  const { alongWalls } = mosaic;
  for (let k = 0; k < alongWalls.length; k += 6) {
    const [ax, ay, bx, by] = [real(alongWalls, k), real(alongWalls, k + 1), real(alongWalls, k + 3), real(alongWalls, k + 4)];
    const da = above(ax, ay, real(alongWalls, k + 2));
    const db = above(bx, by, real(alongWalls, k + 5));
    if (da <= 0 && db <= 0) continue;
    const cut = da / (da - db);
    const mid: readonly [number, number] = [ax + cut * (bx - ax), ay + cut * (by - ay)];
    pieces.push(...(da > 0 ? [ax, ay] : mid), ...(db > 0 ? [bx, by] : mid));
  }
  const rings = joinPieces(pieces).filter((line) => line.points.length >= 3);
  const flats = rings.map(flat);
  const areas = flats.map(signedAreaM2);
  const outer = rings.map((_, i) => i).filter((i) => (areas[i] ?? 0) > SPECK_M2);
  const within = new Map<number, number[]>(outer.map((i) => [i, []]));
  rings.forEach((ring, i) => {
    if ((areas[i] ?? 0) > -SPECK_M2) return;
    const probe = ring.points[0];
    if (!probe) return;
    const holders = outer.filter((o) => isWithinRing(flats[o] ?? new Float64Array(0), probe.xM, probe.yM));
    holders.sort((a, b) => (areas[a] ?? 0) - (areas[b] ?? 0));
    within.get(holders[0] ?? -1)?.push(i);
  });
  const spots = outer.map((o): HighSpot => {
    const holes = within.get(o) ?? [];
    const edge = rings[o]?.points ?? [];
    const size = smallestRectangle(edge);
    return {
      rings: [edge, ...holes.map((h) => rings[h]?.points ?? [])],
      areaM2: (areas[o] ?? 0) + holes.reduce((sum, h) => sum + (areas[h] ?? 0), 0),
      ...size,
      ...highestWithin(mosaic, flats[o] ?? new Float64Array(0), edge[0] ?? { xM: 0, yM: 0 }, above),
    };
  });
  return spots.sort((a, b) => b.areaM2 - a.areaM2);
}

function flat(line: ContourLine): Float64Array {
  return Float64Array.from(line.points.flatMap((point) => [point.xM, point.yM]));
}

function highestWithin(
  mosaic: Mosaic,
  ring: Float64Array,
  fallback: Point,
  above: (xM: number, yM: number, zM: number) => number,
): { depthM: number; highestAt: Point } {
  let depthM = 0;
  let highestAt = fallback;
  const { extremes } = mosaic;
  let [left, right, top, bottom] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < ring.length; i += 2) {
    left = Math.min(left, real(ring, i) - ON_EDGE_M);
    right = Math.max(right, real(ring, i) + ON_EDGE_M);
    top = Math.min(top, real(ring, i + 1) - ON_EDGE_M);
    bottom = Math.max(bottom, real(ring, i + 1) + ON_EDGE_M);
  }
  for (let i = 0; i < extremes.length; i += 3) {
    const xM = real(extremes, i);
    const yM = real(extremes, i + 1);
    if (xM < left || xM > right || yM < top || yM > bottom) continue;
    const depth = above(xM, yM, real(extremes, i + 2));
    if (depth <= depthM) continue;
    if (!isWithinRing(ring, xM, yM) && !(distanceToRingM(ring, xM, yM) < ON_EDGE_M)) continue;
    depthM = depth;
    highestAt = { xM, yM };
  }
  return { depthM, highestAt };
}

function smallestRectangle(points: readonly Point[]): { widthM: number; lengthM: number } {
  let widthM = Number.POSITIVE_INFINITY;
  let lengthM = 0;
  for (let deg = 0; deg < 90; deg += 5) {
    const cos = Math.cos((deg * Math.PI) / 180);
    const sin = Math.sin((deg * Math.PI) / 180);
    let [u0, u1, v0, v1] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const point of points) {
      const u = point.xM * cos + point.yM * sin;
      const v = point.yM * cos - point.xM * sin;
      u0 = Math.min(u0, u);
      u1 = Math.max(u1, u);
      v0 = Math.min(v0, v);
      v1 = Math.max(v1, v);
    }
    const narrow = Math.min(u1 - u0, v1 - v0);
    if (narrow < widthM) {
      widthM = narrow;
      lengthM = Math.max(u1 - u0, v1 - v0);
    }
  }
  return { widthM: Number.isFinite(widthM) ? widthM : 0, lengthM };
}
