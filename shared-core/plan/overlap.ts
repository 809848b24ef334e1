/** Calculates the overlap of two drawn areas. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { ringAreaM2, signedAreaM2 } from './polygon.ts';

type Triangle = readonly [Point, Point, Point];

/** A ring as signed triangles from its first corner, so that areas covered twice cancel out. */
function fan(ring: readonly Point[]): { readonly triangle: Triangle; readonly sign: number }[] {
  const [first, ...rest] = ring;
  if (first === undefined) return [];
  return rest.slice(1).flatMap((c, i) => {
    const b = rest[i];
    if (b === undefined) return [];
    const area = signedAreaM2([first, b, c]);
    // All triangles run the same way; the sign keeps the original direction.
    return area === 0 ? [] : [{ triangle: area > 0 ? [first, b, c] : [first, c, b], sign: Math.sign(area) }];
  });
}

/** The part of a convex ring on the positive side of the line from a to b. */
function cutBy(ring: readonly Point[], a: Point, b: Point): Point[] {
  const side = (p: Point): number => (b.xM - a.xM) * (p.yM - a.yM) - (b.yM - a.yM) * (p.xM - a.xM);
  return ring.flatMap((p, i) => {
    const q = ring[(i + 1) % ring.length] ?? p;
    const [dp, dq] = [side(p), side(q)];
    const result = dp >= 0 ? [p] : [];
    if (dp >= 0 === dq >= 0 || dp === dq) return result;
    const s = dp / (dp - dq);
    return [...result, { xM: p.xM + s * (q.xM - p.xM), yM: p.yM + s * (q.yM - p.yM) }];
  });
}

/**
 * Area shared by two simple rings of any shape and direction, m².
 * Exact: signed triangles of one are clipped to those of the other (the intersection of convex rings, Sutherland and Hodgman,
 * "Reentrant polygon clipping", Comm. ACM 17 (1974)).
 */
export function overlapM2(ringA: readonly Point[], ringB: readonly Point[]): number {
  const others = fan(ringB);
  const sum = fan(ringA).reduce(
    (total, a) =>
      others.reduce((subtotal, b) => {
        const [p, q, r] = b.triangle;
        const common = cutBy(cutBy(cutBy(a.triangle, p, q), q, r), r, p);
        return common.length < 3 ? subtotal : subtotal + a.sign * b.sign * ringAreaM2(common);
      }, total),
    0,
  );
  return Math.abs(sum);
}

/** Floor area of a drawn part, m²: inside the walls, less the cutouts. */
export function areaInRoomM2(plan: Pick<Plan, 'outline' | 'holes'>, ring: readonly Point[]): number {
  if (plan.outline.length < 3) return ringAreaM2(ring);
  return Math.max(0, overlapM2(ring, plan.outline) - plan.holes.reduce((sum, hole) => sum + overlapM2(ring, hole.corners), 0));
}
