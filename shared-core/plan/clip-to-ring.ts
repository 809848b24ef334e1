/** Cuts a region along an area drawn on the plan into the exact parts inside and outside that area. */
import type { Point } from '../book/fields.ts';
import { rightOf, splitByLine } from './bays.ts';
import { clipToHalfPlane, type HalfPlane, otherSide } from './half-plane.ts';
import { boundsOf, turned } from './polygon.ts';
import { type Region, regionAreaM2 } from './region.ts';

/** Pieces smaller than this come from rounding, m². */
const DUST_M2 = 1e-9;
/** A drawn area divides into at most as many convex parts as it has corners. */
const MOST_PARTS = 400;

const turnAt = (ring: readonly Point[], i: number): number => {
  const a = ring[(i + ring.length - 1) % ring.length];
  const b = ring[i];
  const c = ring[(i + 1) % ring.length];
  if (a === undefined || b === undefined || c === undefined) return 0;
  return (b.xM - a.xM) * (c.yM - b.yM) - (b.yM - a.yM) * (c.xM - b.xM);
};

/** Corners closer than this count as one corner, m. */
const SAME_CORNER_M = 1e-9;

/** Removes corners where a ring turns back along itself. Cutting through a cutout at the wall leaves such spurs. */
function withoutSpurs(ring: readonly Point[]): readonly Point[] {
  const corners = [...ring];
  for (let i = 0; i < corners.length && corners.length > 3; ) {
    const a = corners[(i + corners.length - 1) % corners.length];
    const b = corners[i];
    const c = corners[(i + 1) % corners.length];
    if (a === undefined || b === undefined || c === undefined) break;
    const isSame = Math.hypot(b.xM - a.xM, b.yM - a.yM) < SAME_CORNER_M;
    const isBack = Math.abs(turnAt(corners, i)) < 1e-12 && (b.xM - a.xM) * (c.xM - b.xM) + (b.yM - a.yM) * (c.yM - b.yM) < 0;
    if (isSame || isBack) {
      corners.splice(i, 1);
      i = Math.max(0, i - 2);
    } else i += 1;
  }
  return corners;
}

/** Divides a simple ring into convex rings by splitting it along a side of each reflex corner. */
function convexRings(ring: readonly Point[]): readonly (readonly Point[])[] {
  const pending: Region[] = [{ outline: ring, holes: [] }];
  const convex: (readonly Point[])[] = [];
  while (pending.length > 0 && convex.length + pending.length < MOST_PARTS) {
    const next = pending.pop();
    if (next === undefined) break;
    const corners = turned(withoutSpurs(next.outline), 'clockwise');
    const reflex = corners.findIndex((_, i) => turnAt(corners, i) < -1e-12);
    const a = corners[(reflex + corners.length - 1) % corners.length];
    const b = corners[reflex];
    const parts = reflex < 0 || a === undefined || b === undefined ? [] : splitByLine({ outline: corners, holes: [] }, a, b);
    if (parts.length < 2) convex.push(corners);
    else pending.push(...parts);
  }
  return convex;
}

/** The sides of a convex ring, each as the half-plane that contains the ring. */
function sidesOfConvex(ring: readonly Point[]): HalfPlane[] {
  return turned(ring, 'clockwise').flatMap((from, i, all) => {
    const to = all[(i + 1) % all.length];
    const half = to === undefined ? null : rightOf(from, to);
    return half === null ? [] : [half];
  });
}

/** Whether the boxes around two rings overlap. */
function mayMeet(ringA: readonly Point[], ringB: readonly Point[]): boolean {
  const [a, b] = [boundsOf(ringA), boundsOf(ringB)];
  return a !== null && b !== null && a.leftM < b.rightM && b.leftM < a.rightM && a.topM < b.bottomM && b.topM < a.bottomM;
}

const withoutDust = (pieces: readonly Region[]): Region[] => pieces.filter((piece) => regionAreaM2(piece) > DUST_M2);

/**
 * Divides a region by a drawn area.
 * @param region the floor, meters
 * @param ring corners of the drawn area in either direction; it must not cross itself
 */
export function clipToRing(
  region: Region,
  ring: readonly Point[],
): { readonly inside: readonly Region[]; readonly outside: readonly Region[] } {
  let outside: Region[] = [region];
  const inside: Region[] = [];
  for (const part of convexRings(ring)) {
    const sides = sidesOfConvex(part);
    const next: Region[] = [];
    for (const piece of outside) {
      let rest: readonly Region[] = mayMeet(piece.outline, part) ? [piece] : [];
      const cuts: Region[] = [];
      for (const half of sides) {
        if (rest.length === 0) break;
        cuts.push(...rest.flatMap((one) => clipToHalfPlane(one, otherSide(half))));
        rest = withoutDust(rest.flatMap((one) => clipToHalfPlane(one, half)));
      }
      inside.push(...rest);
      // A piece that does not reach into the part stays whole.
      next.push(...(rest.length === 0 ? [piece] : withoutDust(cuts)));
    }
    outside = next;
  }
  return { inside, outside };
}
