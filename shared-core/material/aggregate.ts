/** Aggregate added to the mix for deeper lifts: the volume and mass it adds per bag. */
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
 * A bag with the maximum aggregate its data sheet allows. Aggregate adds the volume it displaces. @returns null when the data
 * sheet allows none
 */
export function extendedBag(sheet: Pick<EffectiveSheet, 'bagKg' | 'yieldM3' | 'waterL' | 'aggregateShare'>): ExtendedBag | null {
  if (sheet.aggregateShare === null) return null;
  const aggregateKg = sheet.bagKg.value * sheet.aggregateShare.value;
  const yieldM3 = sheet.yieldM3.value + aggregateKg / AGGREGATE_PARTICLE_KG_M3;
  const massKg = sheet.bagKg.value + sheet.waterL.value.least * WATER_KG_PER_L + aggregateKg;
  return { aggregateKg, yieldM3, densityKgM3: massKg / yieldM3 };
}
