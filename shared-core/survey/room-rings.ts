/** The room's walls as rings of numbers: the outline in one direction, every cutout in the other. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { real } from './typed-reads.ts';

/** Rings as x, y, x, y, … in meters; the outline has a positive signed area, cutouts a negative one, so areas simply add. */
export type RoomRings = {
  readonly rings: readonly Float64Array[];
  readonly areaM2: number;
  readonly leftM: number;
  readonly topM: number;
  readonly rightM: number;
  readonly bottomM: number;
};

/** Signed area of a ring in square meters (shoelace about its first corner, to keep precision far from the origin). */
export function signedAreaM2(ring: Float64Array): number {
  const x0 = real(ring, 0);
  const y0 = real(ring, 1);
  let twice = 0;
  for (let i = 2; i + 3 < ring.length; i += 2) {
    twice += (real(ring, i) - x0) * (real(ring, i + 3) - y0) - (real(ring, i + 2) - x0) * (real(ring, i + 1) - y0);
  }
  return twice / 2;
}

/** The walls of a plan, or null when its outline has no area. `plan` decides whether a plan is valid, not this module. */
export function roomRings(plan: Pick<Plan, 'outline' | 'holes'>): RoomRings | null {
  if (plan.outline.length < 3) return null;
  const outline = oriented(plan.outline, 1);
  const outer = signedAreaM2(outline);
  if (!(outer > 1e-9)) return null;
  const rings = [outline, ...plan.holes.filter((hole) => hole.corners.length >= 3).map((hole) => oriented(hole.corners, -1))];
  let areaM2 = 0;
  for (const ring of rings) areaM2 += signedAreaM2(ring);
  if (!(areaM2 > 1e-9)) return null;
  const xs = plan.outline.map((corner) => corner.xM);
  const ys = plan.outline.map((corner) => corner.yM);
  return { rings, areaM2, leftM: Math.min(...xs), topM: Math.min(...ys), rightM: Math.max(...xs), bottomM: Math.max(...ys) };
}

function oriented(corners: readonly Point[], sign: 1 | -1): Float64Array {
  const flat = Float64Array.from(corners.flatMap((corner) => [corner.xM, corner.yM]));
  if (signedAreaM2(flat) * sign >= 0) return flat;
  return Float64Array.from([...corners].reverse().flatMap((corner) => [corner.xM, corner.yM]));
}

/** Whether a point is on the floor: inside the outline and in no cutout (even-odd rule). */
export function isOnFloor(room: RoomRings, xM: number, yM: number): boolean {
  let inside = false;
  for (const ring of room.rings) if (isWithinRing(ring, xM, yM)) inside = !inside;
  return inside;
}

/** Whether a point is inside one ring (even-odd rule). */
export function isWithinRing(ring: Float64Array, xM: number, yM: number): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const yi = real(ring, i + 1);
    const yj = real(ring, j + 1);
    if (yi > yM !== yj > yM && xM < ((real(ring, j) - real(ring, i)) * (yM - yi)) / (yj - yi) + real(ring, i)) inside = !inside;
  }
  return inside;
}

/** Distance in meters from a point to the nearest wall, cutouts included. */
export function distanceToWallM(room: RoomRings, xM: number, yM: number): number {
  return Math.min(...room.rings.map((ring) => distanceToRingM(ring, xM, yM)));
}

/** Distance in meters from a point to the nearest side of a ring. */
export function distanceToRingM(ring: Float64Array, xM: number, yM: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const ax = real(ring, j);
    const ay = real(ring, j + 1);
    const dx = real(ring, i) - ax;
    const dy = real(ring, i + 1) - ay;
    const length2 = dx * dx + dy * dy;
    const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((xM - ax) * dx + (yM - ay) * dy) / length2));
    least = Math.min(least, Math.hypot(xM - ax - t * dx, yM - ay - t * dy));
  }
  return least;
}

/**
 * The stretches of a line over the floor: pairs of distances along it from its start, as start, end, start, end, … in
 * meters. `lengthM` is the length of the line.
 */
export function stretchesOnFloor(room: RoomRings, from: Point, to: Point): number[] {
  const lengthM = Math.hypot(to.xM - from.xM, to.yM - from.yM);
  if (lengthM === 0) return [];
  const ux = (to.xM - from.xM) / lengthM;
  const uy = (to.yM - from.yM) / lengthM;
  const cuts = [0, lengthM];
  for (const ring of room.rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const va = (real(ring, j + 1) - from.yM) * ux - (real(ring, j) - from.xM) * uy;
      const vb = (real(ring, i + 1) - from.yM) * ux - (real(ring, i) - from.xM) * uy;
      if (va === vb) {
        if (va !== 0) continue;
        cuts.push((real(ring, i) - from.xM) * ux + (real(ring, i + 1) - from.yM) * uy);
        cuts.push((real(ring, j) - from.xM) * ux + (real(ring, j + 1) - from.yM) * uy);
        continue;
      }
      const s = va / (va - vb);
      if (s < 0 || s > 1) continue;
      const xM = real(ring, j) + s * (real(ring, i) - real(ring, j));
      const yM = real(ring, j + 1) + s * (real(ring, i + 1) - real(ring, j + 1));
      cuts.push((xM - from.xM) * ux + (yM - from.yM) * uy);
    }
  }
  const sorted = cuts.filter((cut) => cut >= 0 && cut <= lengthM).sort((a, b) => a - b);
  const stretches: number[] = [];
  for (let k = 0; k + 1 < sorted.length; k += 1) {
    const a = sorted[k] ?? 0;
    const b = sorted[k + 1] ?? 0;
    if (b - a < 1e-9) continue;
    const middle = (a + b) / 2;
    const xM = from.xM + middle * ux;
    const yM = from.yM + middle * uy;
    // A line along a wall counts as on the floor, because sections are taken along walls and doorways.
    if (!isOnFloor(room, xM, yM) && distanceToWallM(room, xM, yM) > 1e-9) continue;
    const last = stretches.length - 1;
    if (last >= 0 && Math.abs((stretches[last] ?? 0) - a) < 1e-9) stretches[last] = b;
    else stretches.push(a, b);
  }
  return stretches;
}

/** Angle of the longest wall of the outline, radians. */
export function longestWallAngle(room: RoomRings): number {
  const ring = room.rings[0] ?? new Float64Array(0);
  let longest = 0;
  let angle = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const dx = real(ring, i) - real(ring, j);
    const dy = real(ring, i + 1) - real(ring, j + 1);
    const length = Math.hypot(dx, dy);
    if (length > longest + 1e-9) {
      longest = length;
      angle = Math.atan2(dy, dx);
    }
  }
  return angle;
}
