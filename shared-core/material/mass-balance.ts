/** Mixed volume of one bag: from mass and density, or by weighing. */
import type { Found } from '../measure/parsed.ts';

/** A liter of water, kilograms, at the temperatures water is mixed at. */
export const WATER_KG_PER_L = 1;

/**
 * The mixed volume of a bag from its mass, its water and the fresh density, no air counted.
 * @returns cubic meters
 */
export function yieldByMass(bagKg: number, waterL: number, densityFreshKgM3: number): number {
  return (bagKg + waterL * WATER_KG_PER_L) / densityFreshKgM3;
}

/** A bucket of known volume, filled level with mixed material and weighed. */
export type Weighing = {
  readonly bagKg: number;
  /** Water that went into that bag. */
  readonly waterL: number;
  readonly bucketVolumeM3: number;
  readonly emptyKg: number;
  readonly fullKg: number;
};

/** The result of weighing. */
export type Weighed = { readonly densityKgM3: number; readonly yieldM3: number };

/** The reading that cannot be right. */
export type WeighProblem = { readonly kind: 'not-entered' | 'no-bucket' | 'no-bag' | 'swapped' | 'too-heavy' | 'too-light' };

const wrong = (kind: WeighProblem['kind']) => ({ ok: false, problem: { kind } }) as const;

/** Mixed cement underlayments lie well inside this; outside it the scale or the bucket was misread. Common practice, no source. */
const PLAUSIBLE_DENSITY_KG_M3 = { least: 1200, most: 2600 } as const;

/**
 * A bag's yield from weighing a bucket of the mix: the bag and its water over the density found.
 * @param weighing the scale's readings, in kilograms, liters and cubic meters
 * @returns density and yield, or which reading cannot be right
 */
export function measuredYield(weighing: Weighing): Found<Weighed, WeighProblem> {
  const { bagKg, waterL, bucketVolumeM3, emptyKg, fullKg } = weighing;
  if (![bagKg, waterL, bucketVolumeM3, emptyKg, fullKg].every(Number.isFinite)) return wrong('not-entered');
  if (bucketVolumeM3 <= 0) return wrong('no-bucket');
  if (bagKg <= 0 || waterL < 0) return wrong('no-bag');
  if (fullKg <= emptyKg) return wrong('swapped');
  const densityKgM3 = (fullKg - emptyKg) / bucketVolumeM3;
  if (densityKgM3 > PLAUSIBLE_DENSITY_KG_M3.most) return wrong('too-heavy');
  if (densityKgM3 < PLAUSIBLE_DENSITY_KG_M3.least) return wrong('too-light');
  return { ok: true, value: { densityKgM3, yieldM3: (bagKg + waterL * WATER_KG_PER_L) / densityKgM3 } };
}
