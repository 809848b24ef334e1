/** Stones stirred into the mix to go deeper for less: what they add to a bag. */
import { WATER_KG_PER_L } from './mass-balance.ts';
import type { EffectiveSheet } from './sheet.ts';
import { AGGREGATE_PARTICLE_KG_M3 } from './typical-figures.ts';

/** A bag with its aggregate. */
export type ExtendedBag = {
  readonly aggregateKg: number;
  readonly yieldM3: number;
  /** Fresh density of powder, water and stones together. */
  readonly densityKgM3: number;
};

/**
 * A bag extended with the most aggregate its sheet allows. The stones add the volume they displace.
 * @returns null when the sheet allows none
 */
export function extendedBag(sheet: Pick<EffectiveSheet, 'bagKg' | 'yieldM3' | 'waterL' | 'aggregateShare'>): ExtendedBag | null {
  if (sheet.aggregateShare === null) return null;
  const aggregateKg = sheet.bagKg.value * sheet.aggregateShare.value;
  const yieldM3 = sheet.yieldM3.value + aggregateKg / AGGREGATE_PARTICLE_KG_M3;
  const massKg = sheet.bagKg.value + sheet.waterL.value.least * WATER_KG_PER_L + aggregateKg;
  return { aggregateKg, yieldM3, densityKgM3: massKg / yieldM3 };
}
