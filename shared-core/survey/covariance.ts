/**
 * Models a floor as a random surface to estimate the error of a volume: the correlation of two places by distance, and the
 * linear algebra for it. Estimation variance as in geostatistics (G. Matheron, The theory of regionalized variables, 1971).
 */
import { real } from './typed-reads.ts';

/**
 * How a floor varies: `rough` changes at every step (exponential), `smooth` bends gently (Gaussian). Lengths and sizes in
 * meters.
 */
export type FloorModel = { readonly kind: 'rough' | 'smooth'; readonly lengthM: number; readonly sizeM: number };

/**
 * The prior set of floors before any reading: bumps from a hand's width to a room long, 1 mm to 32 mm high, a smooth floor
 * more likely than a rough one. Common practice, no source; chosen with the floors of `range-calibration.test.ts`.
 */
export const FLOOR_KINDS: readonly (Omit<FloorModel, 'sizeM'> & { readonly prior: number })[] = [
  { kind: 'rough', lengthM: 0.3, prior: 0.35 },
  { kind: 'rough', lengthM: 0.7, prior: 0.35 },
  { kind: 'rough', lengthM: 1.5, prior: 0.25 },
  { kind: 'rough', lengthM: 4, prior: 0.25 },
  { kind: 'smooth', lengthM: 0.6, prior: 1 },
  { kind: 'smooth', lengthM: 1.2, prior: 1 },
  { kind: 'smooth', lengthM: 3, prior: 1 },
  { kind: 'smooth', lengthM: 8, prior: 1 },
];
export const FLOOR_SIZES_M: readonly number[] = [0.001, 0.002, 0.004, 0.008, 0.016, 0.032];

/** One standard deviation of a room's slope, meters per meter, and of its height above the average reading, meters. */
export const SLOPE_SD = 0.005;
export const OFFSET_SD_M = 0.02;

/** Correlation of heights at two places `distanceM` apart, 0 to 1. */
export function correlation(kind: FloorModel['kind'], distanceM: number, lengthM: number): number {
  if (kind === 'rough') return Math.exp(-distanceM / lengthM);
  return Math.exp(-((distanceM / lengthM) ** 2) / 2);
}

/**
 * Cholesky factor of a symmetric positive definite matrix, row by row in its lower half; the matrix is overwritten.
 * @returns the sum of the logarithms of its diagonal, or null where rounding makes the matrix not positive definite
 */
export function factorize(matrix: Float64Array, size: number): number | null {
  let logs = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = real(matrix, i * size + j);
      for (let k = 0; k < j; k += 1) sum -= real(matrix, i * size + k) * real(matrix, j * size + k);
      if (i === j) {
        if (!(sum > 0)) return null;
        matrix[i * size + i] = Math.sqrt(sum);
        logs += Math.log(sum) / 2;
      } else matrix[i * size + j] = sum / real(matrix, j * size + j);
    }
  }
  return logs;
}

/** Solves L x = b for the lower factor, in place. */
export function solveLower(factor: Float64Array, size: number, b: Float64Array): Float64Array {
  for (let i = 0; i < size; i += 1) {
    let sum = real(b, i);
    for (let k = 0; k < i; k += 1) sum -= real(factor, i * size + k) * real(b, k);
    b[i] = sum / real(factor, i * size + i);
  }
  return b;
}

/** Dot product of two lists of the same length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += real(a, i) * real(b, i);
  return sum;
}
