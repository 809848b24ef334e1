/**
 * Compares grinding with filling. Grinding the highest spots lowers the whole plane: for each plane, the price of the pour,
 * of the ground area, and of the removed volume, and the cheapest of them.
 */
import type { Relief } from './relief.ts';

/** Prices in minor units of money: underlayment per cubic meter, grinding per square meter, and removal per cubic meter. */
export type GrindPrices = { readonly fillM3: number; readonly grindM2: number; readonly removeM3: number };

/** One candidate plane: its quantities and its cost in minor units (not rounded). */
export type GrindPoint = {
  /** Grinding depth at the highest spot: zero for the plane that needs no grinding. */
  readonly groundMostM: number;
  readonly fillM3: number;
  readonly grindM2: number;
  readonly removeM3: number;
  readonly cost: number;
};

export type GrindCurve = {
  /** From the deepest grinding to none, by finish elevation. */
  readonly points: readonly GrindPoint[];
  readonly cheapest: GrindPoint;
  readonly noGrinding: GrindPoint;
  /** Savings of the cheapest plane over no grinding, minor units; zero when grinding does not pay. */
  readonly saving: number;
};

/** The plane whose highest spots are ground by `groundMostM`, with the minimum thickness everywhere. */
export function grindPoint(relief: Relief, leastThicknessM: number, prices: GrindPrices, groundMostM: number): GrindPoint {
  const cutM = relief.highestM - groundMostM;
  const under = relief.below(cutM);
  const fillM3 = under.volumeM3 + leastThicknessM * relief.areaM2;
  const none = groundMostM <= 0;
  const grindM2 = none ? 0 : Math.max(0, relief.areaM2 - under.areaM2);
  const removeM3 = none ? 0 : Math.max(0, relief.momentM3 - cutM * relief.areaM2 + under.volumeM3);
  const fillCost = prices.fillM3 * fillM3;
  const grindCost = prices.grindM2 * grindM2 + prices.removeM3 * removeM3;
  return { groundMostM, fillM3, grindM2, removeM3, cost: fillCost + grindCost };
}

const STEPS = 96;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The curve from no grinding to `grindMostM` off the highest spot. The cost can have several minimums and drops in a step
 * where a flat patch stops being ground, so those heights are candidates too, and every minimum is searched to its bottom.
 */
export function grindCurve(relief: Relief, leastThicknessM: number, grindMostM: number, prices: GrindPrices): GrindCurve {
  const pointAt = (groundMostM: number): GrindPoint => grindPoint(relief, leastThicknessM, prices, groundMostM);
  const noGrinding = pointAt(0);
  const depth = Math.min(grindMostM, relief.highestM - relief.lowestM);
  if (!(depth > 0)) return { points: [noGrinding], cheapest: noGrinding, noGrinding, saving: 0 };
  const tries = new Set<number>([0, depth]);
  for (let i = 1; i < STEPS; i += 1) tries.add((depth * i) / STEPS);
  for (const plateau of relief.plateausM) {
    const ground = relief.highestM - plateau;
    // Subtracts 1e-12 m so that rounding does not include the patch itself in the grinding.
    if (ground > 1e-9 && ground < depth) tries.add(ground - 1e-12);
  }
  const points = [...tries].sort((a, b) => b - a).map(pointAt);
  let cheapest = noGrinding;
  for (const point of points) if (point.cost < cheapest.cost) cheapest = point;
  for (let i = 0; i < points.length; i += 1) {
    const point = points[i] ?? noGrinding;
    const before = points[i - 1];
    const after = points[i + 1];
    if ((before && before.cost < point.cost) || (after && after.cost < point.cost)) continue;
    for (const [from, to] of [
      [before ?? point, point],
      [point, after ?? point],
    ] as const) {
      const bottom = bottomBetween(pointAt, to.groundMostM, from.groundMostM);
      if (bottom.cost < cheapest.cost) cheapest = bottom;
    }
  }
  return { points, cheapest, noGrinding, saving: Math.max(0, noGrinding.cost - cheapest.cost) };
}

function bottomBetween(pointAt: (groundMostM: number) => GrindPoint, from: number, to: number): GrindPoint {
  let a = from;
  let b = to;
  let left = pointAt(b - GOLDEN * (b - a));
  let right = pointAt(a + GOLDEN * (b - a));
  for (let i = 0; i < 40 && b - a > 1e-9; i += 1) {
    if (left.cost <= right.cost) {
      b = right.groundMostM;
      right = left;
      left = pointAt(b - GOLDEN * (b - a));
    } else {
      a = left.groundMostM;
      left = right;
      right = pointAt(a + GOLDEN * (b - a));
    }
  }
  return left.cost <= right.cost ? left : right;
}
