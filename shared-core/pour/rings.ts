/**
 * Rings cut along straight lines. A shape is a list of rings read even-odd: a ring within a ring is a hole.
 * Cutting is exact: no grid, and a shape cut in two adds up to itself.
 */
import type { Point } from '../book/fields.ts';

export type Ring = readonly Point[];

/** Rings smaller than this are the leavings of rounding: a square micrometre. */
const CRUMB_M2 = 1e-12;

/** Signed area of one ring, m2: positive counted from x to y. */
export function ringAreaM2(ring: Ring): number {
  let twice = 0;
  let before = ring.at(-1);
  for (const at of ring) {
    if (before) twice += before.xM * at.yM - at.xM * before.yM;
    before = at;
  }
  return twice / 2;
}

/** Whether a point lies within rings read even-odd; a point on an edge may fall either way. */
export function isWithin(rings: readonly Ring[], at: Point): boolean {
  let within = false;
  for (const ring of rings) {
    let before = ring.at(-1);
    for (const corner of ring) {
      if (before && corner.yM > at.yM !== before.yM > at.yM) {
        const x = corner.xM + ((at.yM - corner.yM) / (before.yM - corner.yM)) * (before.xM - corner.xM);
        if (at.xM < x) within = !within;
      }
      before = corner;
    }
  }
  return within;
}

/** The same rings with outer ones turning one way and holes the other, so that areas add and cuts link. */
export function oriented(rings: readonly Ring[]): Ring[] {
  return rings.map((ring, index) => {
    const first = ring[0];
    const second = ring[1];
    if (!first || !second) return ring;
    // The middle of an edge: a shared corner would not tell which side it lies on.
    const probe = { xM: (first.xM + second.xM) / 2, yM: (first.yM + second.yM) / 2 };
    const others = rings.filter((_, other) => other !== index);
    const isHole = isWithin(others, probe);
    return ringAreaM2(ring) > 0 === isHole ? [...ring].reverse() : ring;
  });
}

/** Area of rings turned by `oriented`, m2. */
export function ringsAreaM2(rings: readonly Ring[]): number {
  let sum = 0;
  for (const ring of rings) sum += ringAreaM2(ring);
  return sum;
}

/** Centroid of rings turned by `oriented`; null when they have no area. */
export function ringsCentroid(rings: readonly Ring[]): Point | null {
  let area = 0;
  let x = 0;
  let y = 0;
  for (const ring of rings) {
    let before = ring.at(-1);
    for (const at of ring) {
      if (before) {
        const cross = before.xM * at.yM - at.xM * before.yM;
        area += cross;
        x += (before.xM + at.xM) * cross;
        y += (before.yM + at.yM) * cross;
      }
      before = at;
    }
  }
  return Math.abs(area) < CRUMB_M2 ? null : { xM: x / (3 * area), yM: y / (3 * area) };
}

type Chain = { readonly points: Point[]; readonly enters: number; readonly leaves: number };

/**
 * The part of oriented rings where `nx * x + ny * y >= c`, as oriented rings. A corner on the line counts as kept, which
 * keeps the number of crossings even; crossings are then paired in order along the line.
 */
export function keepSide(rings: readonly Ring[], nx: number, ny: number, c: number): Ring[] {
  const whole: Ring[] = [];
  const chains: Chain[] = [];
  const along = (p: Point) => nx * p.yM - ny * p.xM;
  for (const ring of rings) {
    const side = ring.map((p) => nx * p.xM + ny * p.yM - c);
    const kept = side.filter((d) => d >= 0).length;
    if (kept === ring.length) whole.push(ring);
    if (kept === 0 || kept === ring.length) continue;
    const crossing = (i: number, j: number): Point => {
      const a = ring[i];
      const b = ring[j];
      const da = side[i] ?? 0;
      const db = side[j] ?? 0;
      if (!a || !b) throw new Error('A ring lost a corner while it was cut.');
      const t = da / (da - db);
      return { xM: a.xM + t * (b.xM - a.xM), yM: a.yM + t * (b.yM - a.yM) };
    };
    const n = ring.length;
    for (let i = 0; i < n; i++) {
      const next = (i + 1) % n;
      if (!((side[i] ?? 0) < 0 && (side[next] ?? 0) >= 0)) continue;
      const enter = crossing(i, next);
      const points: Point[] = [enter];
      let at = next;
      while ((side[at] ?? 0) >= 0) {
        const corner = ring[at];
        if (corner) points.push(corner);
        at = (at + 1) % n;
      }
      const leave = crossing((at + n - 1) % n, at);
      points.push(leave);
      chains.push({ points, enters: along(enter), leaves: along(leave) });
    }
  }
  return [...whole, ...linked(chains)].filter((ring) => Math.abs(ringAreaM2(ring)) > CRUMB_M2);
}

function linked(chains: readonly Chain[]): Ring[] {
  const byEntry = chains.map((_, i) => i).sort((a, b) => (chains[a]?.enters ?? 0) - (chains[b]?.enters ?? 0));
  const byExit = chains.map((_, i) => i).sort((a, b) => (chains[a]?.leaves ?? 0) - (chains[b]?.leaves ?? 0));
  const follows = new Map<number, number>();
  byExit.forEach((chain, rank) => follows.set(chain, byEntry[rank] ?? chain));
  const rings: Ring[] = [];
  const used = new Set<number>();
  chains.forEach((_, start) => {
    const ring: Point[] = [];
    for (let at = start; !used.has(at); at = follows.get(at) ?? start) {
      used.add(at);
      ring.push(...(chains[at]?.points ?? []));
    }
    if (ring.length >= 3) rings.push(withoutRepeats(ring));
  });
  return rings;
}

function withoutRepeats(ring: Ring): Ring {
  return ring.filter((p, i) => {
    const before = ring[(i + ring.length - 1) % ring.length];
    return !before || Math.abs(p.xM - before.xM) > 1e-12 || Math.abs(p.yM - before.yM) > 1e-12;
  });
}

/** Axes laid along a strip: `u` runs with the strip, `v` across it. */
export type Axes = { readonly ux: number; readonly uy: number };

/** Axes whose `u` stands at an angle from x toward y, degrees. Right angles are exact. */
export function axesAt(angleDeg: number): Axes {
  const quarter = (((angleDeg % 360) + 360) % 360) / 90;
  if (Number.isInteger(quarter)) return { ux: [1, 0, -1, 0][quarter] ?? 1, uy: [0, 1, 0, -1][quarter] ?? 0 };
  const turn = (angleDeg * Math.PI) / 180;
  return { ux: Math.cos(turn), uy: Math.sin(turn) };
}

export const alongM = (axes: Axes, p: Point): number => axes.ux * p.xM + axes.uy * p.yM;
export const acrossM = (axes: Axes, p: Point): number => axes.ux * p.yM - axes.uy * p.xM;

/** The point at `u` along and `v` across. */
export const pointAt = (axes: Axes, u: number, v: number): Point => ({
  xM: axes.ux * u - axes.uy * v,
  yM: axes.uy * u + axes.ux * v,
});

/** Where the line across at `u` lies within the rings: pairs from, to in `v`, in order. */
export function spansAcross(rings: readonly Ring[], axes: Axes, u: number): number[] {
  return crossings(
    rings,
    (p) => alongM(axes, p),
    (p) => acrossM(axes, p),
    u,
  );
}

/** Where the line along at `v` lies within the rings: pairs from, to in `u`, in order. */
export function spansAlong(rings: readonly Ring[], axes: Axes, v: number): number[] {
  return crossings(
    rings,
    (p) => acrossM(axes, p),
    (p) => alongM(axes, p),
    v,
  );
}

function crossings(rings: readonly Ring[], level: (p: Point) => number, place: (p: Point) => number, at: number): number[] {
  const found: number[] = [];
  for (const ring of rings) {
    let before = ring.at(-1);
    for (const corner of ring) {
      if (before) {
        const a = level(before) - at;
        const b = level(corner) - at;
        if (a >= 0 !== b >= 0) found.push(place(before) + (a / (a - b)) * (place(corner) - place(before)));
      }
      before = corner;
    }
  }
  return found.sort((a, b) => a - b);
}
