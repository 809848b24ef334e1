/** The normal distribution functions that the volume and bag counts need. */

/** The 90th percentile of the standard normal: a least-to-most range counts as the 10th to the 90th. */
export const Z_90 = 1.2815515655446004;

/**
 * The share of a standard normal at or below `z`.
 *
 * Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17; error below 7.5e-8.
 */
export function normalShareBelow(z: number): number {
  if (z === Number.POSITIVE_INFINITY) return 1;
  if (z === Number.NEGATIVE_INFINITY) return 0;
  if (z < 0) return 1 - normalShareBelow(-z);
  const t = 1 / (1 + 0.2316419 * z);
  const tail = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return 1 - (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * tail;
}
