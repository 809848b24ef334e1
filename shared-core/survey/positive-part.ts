/**
 * The integral of the positive part of a linear function over a triangle, in closed form. Every volume is a sum of these, so
 * no sampling grid is needed.
 */

/**
 * ∫ max(0, d) over a triangle divided by its area, where d is linear and equals d1, d2, d3 at the corners.
 * Derivation: the part where d > 0 (or < 0) at one corner only is a triangle similar in barycentric coordinates, its share
 * of the area is d1² / ((d1 − d2)(d1 − d3)), and the mean of d over it is d1 / 3.
 */
export function meanPositive(d1: number, d2: number, d3: number): number {
  const positive = (d1 > 0 ? 1 : 0) + (d2 > 0 ? 1 : 0) + (d3 > 0 ? 1 : 0);
  if (positive === 3) return (d1 + d2 + d3) / 3;
  if (positive === 0) return 0;
  if (positive === 1) {
    if (d1 > 0) return (d1 * d1 * d1) / ((d1 - d2) * (d1 - d3)) / 3;
    if (d2 > 0) return (d2 * d2 * d2) / ((d2 - d1) * (d2 - d3)) / 3;
    return (d3 * d3 * d3) / ((d3 - d1) * (d3 - d2)) / 3;
  }
  const mean = (d1 + d2 + d3) / 3;
  if (d1 <= 0) return mean - (d1 * d1 * d1) / ((d1 - d2) * (d1 - d3)) / 3;
  if (d2 <= 0) return mean - (d2 * d2 * d2) / ((d2 - d1) * (d2 - d3)) / 3;
  return mean - (d3 * d3 * d3) / ((d3 - d1) * (d3 - d2)) / 3;
}

/** The share of a triangle's area where d > 0. */
export function sharePositive(d1: number, d2: number, d3: number): number {
  const positive = (d1 > 0 ? 1 : 0) + (d2 > 0 ? 1 : 0) + (d3 > 0 ? 1 : 0);
  if (positive === 3) return 1;
  if (positive === 0) return 0;
  if (positive === 1) {
    if (d1 > 0) return (d1 * d1) / ((d1 - d2) * (d1 - d3));
    if (d2 > 0) return (d2 * d2) / ((d2 - d1) * (d2 - d3));
    return (d3 * d3) / ((d3 - d1) * (d3 - d2));
  }
  if (d1 <= 0) return 1 - (d1 * d1) / ((d1 - d2) * (d1 - d3));
  if (d2 <= 0) return 1 - (d2 * d2) / ((d2 - d1) * (d2 - d3));
  return 1 - (d3 * d3) / ((d3 - d1) * (d3 - d2));
}
