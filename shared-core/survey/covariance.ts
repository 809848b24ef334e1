/**
 * Models a floor as a random surface to estimate the error of a volume: the correlation of two places by distance, and the
 * linear algebra for it. Estimation variance as in geostatistics (G. Matheron, The theory of regionalized variables, 1971).
 */
import type { Point } from '../book/fields.ts';
import { distanceM } from '../plan/point.ts';
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

/** What every model of a floor shares, computed once. Element i, j of the readings' matrices is at i · count + j, for j ≥ i. */
export type Layout = {
  readonly count: number;
  readonly spots: readonly Point[];
  /** Distances between readings, meters. */
  readonly apartM: Float64Array;
  /** Covariance of the room's unknown height and slope, square meters. */
  readonly trendM2: Float64Array;
  readonly middle: Point;
  readonly errorM: number;
};

/** The layout of readings; the slope turns about `middle`. */
export function layoutOf(spots: readonly Point[], middle: Point, errorM: number): Layout {
  const count = spots.length;
  const apartM = new Float64Array(count * count);
  const trendM2 = new Float64Array(count * count);
  spots.forEach((a, i) => {
    for (let j = i; j < count; j += 1) {
      const b = spots[j] ?? a;
      apartM[i * count + j] = distanceM(a, b);
      trendM2[i * count + j] = trendAt(a, b, middle);
    }
  });
  return { count, spots, apartM, trendM2, middle, errorM };
}

/** Covariance of the room's unknown height and slope at two places, square meters. */
export function trendAt(a: Point, b: Point, middle: Point): number {
  return OFFSET_SD_M ** 2 + SLOPE_SD ** 2 * ((a.xM - middle.xM) * (b.xM - middle.xM) + (a.yM - middle.yM) * (b.yM - middle.yM));
}

/** Correlations of the readings for one kind of floor. */
export function correlationsOf({ count, apartM }: Layout, kind: FloorModel['kind'], lengthM: number): Float64Array {
  const correlations = new Float64Array(count * count);
  for (let i = 0; i < count; i += 1) {
    for (let k = i * count + i; k < (i + 1) * count; k += 1) correlations[k] = correlation(kind, real(apartM, k), lengthM);
  }
  return correlations;
}

/** Writes the covariances of the readings into the upper half of a matrix whose rows are `columns` long. */
export function writeCovariances(matrix: Float64Array, columns: number, layout: Layout, correlations: Float64Array, sizeM: number): void {
  const { count, trendM2, errorM } = layout;
  const size2 = sizeM ** 2;
  for (let i = 0; i < count; i += 1) {
    const row = i * columns;
    for (let j = i; j < count; j += 1) matrix[row + j] = size2 * real(correlations, i * count + j) + real(trendM2, i * count + j);
    matrix[row + i] = real(matrix, row + i) + errorM ** 2;
  }
}

/**
 * Cholesky factor L of a symmetric positive definite matrix, given by its upper half in the first `size` of `columns` columns; every
 * further column b is replaced by the solution of L x = b. Overwrites the matrix. Whole rows are subtracted, four at a time: summed
 * element by element, most of the time went into waiting for the sum before.
 * @returns the sum of the logarithms of the factor's diagonal, or null where rounding makes the matrix not positive definite
 */
export function factorize(matrix: Float64Array, size: number, columns: number): number | null {
  let logs = 0;
  for (let i = 0; i < size; i += 1) {
    const row = i * columns;
    let k = 0;
    for (; k + 3 < i; k += 4) subtractFour(matrix, k, i, columns);
    for (; k < i; k += 1) {
      const share = real(matrix, k * columns + i);
      const above = k * columns;
      for (let j = i; j < columns; j += 1) matrix[row + j] = (matrix[row + j] ?? Number.NaN) - share * (matrix[above + j] ?? Number.NaN);
    }
    const pivot = real(matrix, row + i);
    if (!(pivot > 0)) return null;
    logs += Math.log(pivot) / 2;
    const root = Math.sqrt(pivot);
    for (let j = i; j < columns; j += 1) matrix[row + j] = (matrix[row + j] ?? Number.NaN) / root;
  }
  return logs;
}

/** Subtracts rows k to k + 3 from row i, each by its share. */
function subtractFour(matrix: Float64Array, k: number, i: number, columns: number): void {
  const row = i * columns;
  const a = k * columns;
  const b = a + columns;
  const c = b + columns;
  const d = c + columns;
  const shareA = matrix[a + i] ?? Number.NaN;
  const shareB = matrix[b + i] ?? Number.NaN;
  const shareC = matrix[c + i] ?? Number.NaN;
  const shareD = matrix[d + i] ?? Number.NaN;
  for (let j = i; j < columns; j += 1) {
    matrix[row + j] =
      (matrix[row + j] ?? Number.NaN) -
      shareA * (matrix[a + j] ?? Number.NaN) -
      shareB * (matrix[b + j] ?? Number.NaN) -
      shareC * (matrix[c + j] ?? Number.NaN) -
      shareD * (matrix[d + j] ?? Number.NaN);
  }
}

/** Dot product of two columns of a matrix over its first `size` rows. */
export function dotColumns(matrix: Float64Array, size: number, columns: number, a: number, b: number): number {
  let sum = 0;
  for (let row = 0; row < size * columns; row += columns) sum += (matrix[row + a] ?? Number.NaN) * (matrix[row + b] ?? Number.NaN);
  return sum;
}

/** Dot product of two lists of the same length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += real(a, i) * real(b, i);
  return sum;
}
