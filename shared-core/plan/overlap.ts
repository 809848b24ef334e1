/** How much of one drawn area lies within another. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { ringAreaM2, signedAreaM2 } from './polygon.ts';

type Triangle = readonly [Point, Point, Point];

/** A ring as signed triangles from its first corner: what they cover more than once cancels out. */
function fan(ring: readonly Point[]): { readonly triangle: Triangle; readonly sign: number }[] {
  const [first, ...rest] = ring;
  if (first === undefined) return [];
  return rest.slice(1).flatMap((c, i) => {
    const b = rest[i];
    if (b === undefined) return [];
    const area = signedAreaM2([first, b, c]);
    // Every triangle one way round; the sign says which way it lay.
    return area === 0 ? [] : [{ triangle: area > 0 ? [first, b, c] : [first, c, b], sign: Math.sign(area) }];
  });
}

/** The part of a convex ring on the inner side of a line from a to b, of a triangle that lies to its positive side. */
function cutBy(ring: readonly Point[], a: Point, b: Point): Point[] {
  const side = (p: Point): number => (b.xM - a.xM) * (p.yM - a.yM) - (b.yM - a.yM) * (p.xM - a.xM);
  return ring.flatMap((p, i) => {
    const q = ring[(i + 1) % ring.length] ?? p;
    const [dp, dq] = [side(p), side(q)];
    const kept = dp >= 0 ? [p] : [];
    if (dp >= 0 === dq >= 0 || dp === dq) return kept;
    const s = dp / (dp - dq);
    return [...kept, { xM: p.xM + s * (q.xM - p.xM), yM: p.yM + s * (q.yM - p.yM) }];
  });
}

/**
 * Area that two simple rings have in common, square meters; either may be drawn either way round and be of any shape.
 * Exact: signed triangles of the one, cut to those of the other (the intersection of convex rings, Sutherland and Hodgman,
 * "Reentrant polygon clipping", Comm. ACM 17 (1974)).
 */
export function overlapM2(one: readonly Point[], other: readonly Point[]): number {
  const others = fan(other);
  const sum = fan(one).reduce(
    (total, a) =>
      others.reduce((so, b) => {
        const [p, q, r] = b.triangle;
        const common = cutBy(cutBy(cutBy(a.triangle, p, q), q, r), r, p);
        return common.length < 3 ? so : so + a.sign * b.sign * ringAreaM2(common);
      }, total),
    0,
  );
  return Math.abs(sum);
}

/** What a drawn part takes of a room's floor, square meters: within the walls, without the cut-outs. */
export function areaInRoomM2(plan: Pick<Plan, 'outline' | 'holes'>, ring: readonly Point[]): number {
  if (plan.outline.length < 3) return ringAreaM2(ring);
  return Math.max(0, overlapM2(ring, plan.outline) - plan.holes.reduce((sum, hole) => sum + overlapM2(ring, hole.corners), 0));
}
