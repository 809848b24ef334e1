/** The default minimum thickness: the data sheet's, or its greater one over wood. */
import type { LevelChoice } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import { exposedLayers, type LayeredRoom } from '../substrate/exposed-layers.ts';
import { isWood } from '../substrate/layer-words.ts';

/** The data sheet's minimum lift and its minimum over wood where it has one, meters; none without a data sheet. */
const minimumsOf = (material: Material | null): number[] =>
  material?.powder == null
    ? []
    : [material.powder.liftM.value.least, ...(material.powder.overWoodLeastM?.value == null ? [] : [material.powder.overWoodLeastM.value])];

/** The minimum thickness over this floor, meters; null without a data sheet. */
function minimumOf(material: Material | null, floor: LayeredRoom | null): number | null {
  const [lift = null, overWood = 0] = minimumsOf(material);
  const isOverWood = floor !== null && exposedLayers(floor).some(({ layer }) => isWood(layer.material));
  return lift !== null && isOverWood ? Math.max(lift, overWood) : lift;
}

/** Another material for a room. */
export type MaterialChange = {
  readonly before: Material | null;
  readonly after: Material | null;
  /** The room, for its layers; null while it cannot be read. */
  readonly floor: LayeredRoom | null;
};

/**
 * A level under another material: a minimum thickness that was the former data sheet's, or the typical one before any was
 * chosen, becomes the new data sheet's. One that was entered by hand stays.
 * @param typicalM the minimum thickness a level has before a material is chosen, meters
 */
export function levelForMaterial(level: LevelChoice, { before, after, floor }: MaterialChange, typicalM: number): LevelChoice {
  const minimumM = minimumOf(after, floor);
  const given = before === null ? [typicalM] : minimumsOf(before);
  const isOwn = given.every((one) => Math.abs(level.leastThicknessM - one) > 1e-9);
  return minimumM === null || isOwn ? level : { ...level, leastThicknessM: minimumM };
}
