/** The default minimum thickness: the data sheet's. */
import type { LevelChoice } from '../book/job.ts';
import type { Material } from '../book/material.ts';

/** The data sheet's minimum lift, meters; null without one. */
const minimumOf = (material: Material | null): number | null => material?.powder?.liftM.value.least ?? null;

/**
 * A level under another material: a minimum thickness that was the former data sheet's, or the typical one before any was
 * chosen, becomes the new data sheet's. One that was entered by hand stays.
 * @param typicalM the minimum thickness a level has before a material is chosen, meters
 */
export function levelForMaterial(level: LevelChoice, before: Material | null, after: Material | null, typicalM: number): LevelChoice {
  const minimumM = minimumOf(after);
  const isOwn = Math.abs(level.leastThicknessM - (minimumOf(before) ?? typicalM)) > 1e-9;
  return minimumM === null || isOwn ? level : { ...level, leastThicknessM: minimumM };
}
