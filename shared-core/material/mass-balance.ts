/** Mixed volume of one bag: from mass and density, or by weighing. */
import type { Parsed } from '../measure/parsed.ts';

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

/** Mixed cement underlayments lie well inside this; outside it the scale or the bucket was misread. Common practice, no source. */
const PLAUSIBLE_DENSITY_KG_M3 = { least: 1200, most: 2600 } as const;

/**
 * A bag's yield from weighing a bucket of the mix: the bag and its water over the density found.
 * @param weighing the scale's readings, in kilograms, liters and cubic meters
 * @returns density and yield, or which reading cannot be right
 */
export function measuredYield(weighing: Weighing): Parsed<Weighed> {
  const { bagKg, waterL, bucketVolumeM3, emptyKg, fullKg } = weighing;
  if (![bagKg, waterL, bucketVolumeM3, emptyKg, fullKg].every(Number.isFinite)) return { ok: false, message: 'Enter all 4 values.' };
  if (bucketVolumeM3 <= 0) return { ok: false, message: 'Enter the bucket volume. Fill it with water to the same line and weigh it.' };
  if (bagKg <= 0 || waterL < 0) return { ok: false, message: 'Enter the bag weight and the mix water.' };
  if (fullKg <= emptyKg) return { ok: false, message: 'The full bucket weighs no more than the empty one. Are the two swapped?' };
  const densityKgM3 = (fullKg - emptyKg) / bucketVolumeM3;
  if (densityKgM3 < PLAUSIBLE_DENSITY_KG_M3.least || densityKgM3 > PLAUSIBLE_DENSITY_KG_M3.most) {
    const heavier = densityKgM3 > PLAUSIBLE_DENSITY_KG_M3.most ? 'heavier than wet cement' : 'lighter than wet cement';
    return { ok: false, message: `The mix is ${heavier}. Check the unit of the scale and the bucket volume.` };
  }
  return { ok: true, value: { densityKgM3, yieldM3: (bagKg + waterL * WATER_KG_PER_L) / densityKgM3 } };
}
