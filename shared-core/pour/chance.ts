/** Probabilities estimated from runs, with their confidence range, and quantiles of sorted results. */

/** Share of runs, with its 95 % confidence range. */
export type Chance = { readonly share: number; readonly low: number; readonly high: number };

/** Two-sided 95 % point of the normal distribution. */
const Z_95 = 1.959964;

/** The score interval of E. B. Wilson, Journal of the American Statistical Association 22 (1927); valid near 0 and 1. Zero runs give the range 0 to 1. */
export function chanceOf(hits: number, runs: number): Chance {
  if (runs <= 0) return { share: 0, low: 0, high: 1 };
  const share = hits / runs;
  const z2 = Z_95 * Z_95;
  const middle = (share + z2 / (2 * runs)) / (1 + z2 / runs);
  const reach = (Z_95 / (1 + z2 / runs)) * Math.sqrt((share * (1 - share)) / runs + z2 / (4 * runs * runs));
  return { share, low: hits === 0 ? 0 : Math.max(0, middle - reach), high: hits === runs ? 1 : Math.min(1, middle + reach) };
}

/** The 10th, 50th and 90th percentiles. */
export type Spread = { readonly p10: number; readonly p50: number; readonly p90: number };

/** Percentiles of a list, which is sorted in place; interpolated linearly between results (Hyndman and Fan 1996, type 7). */
export function spreadOf(values: Float32Array): Spread {
  values.sort();
  return { p10: quantile(values, 0.1), p50: quantile(values, 0.5), p90: quantile(values, 0.9) };
}

/** The quantile of a sorted list at a share; 0 for an empty list. */
export function quantile(sorted: ArrayLike<number>, share: number): number {
  if (sorted.length === 0) return 0;
  const place = Math.min(1, Math.max(0, share)) * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] ?? 0;
  return low + (place - below) * ((sorted[Math.min(below + 1, sorted.length - 1)] ?? low) - low);
}
