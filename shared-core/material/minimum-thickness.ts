/** The default minimum thickness: the data sheet's, or its greater one over wood or heat. */
import type { LevelChoice } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import { exposedLayers, type LayeredRoom } from '../substrate/exposed-layers.ts';
import { isWood } from '../substrate/layer-words.ts';
import { type HeatedRoom, isHeatInPour, roomHeat } from '../substrate/radiant.ts';
import { COVER_OVER_HEAT_M } from '../substrate/rules-product.ts';

/** What of a room decides how thick a pour over it must be. */
export type PouredRoom = LayeredRoom & HeatedRoom;

/** The data sheet's minimums: of a lift, over wood, and over heat, meters; none without a data sheet. */
function minimumsOf(material: Material | null): readonly number[] {
  if (material?.powder == null) return [];
  const { liftM, overWoodLeastM, overHeatLeastM } = material.powder;
  return [liftM.value.least, overWoodLeastM?.value ?? liftM.value.least, overHeatLeastM?.value ?? COVER_OVER_HEAT_M];
}

/** The minimum thickness over this floor, meters; null without a data sheet. */
function minimumOf(material: Material | null, floor: PouredRoom | null): number | null {
  const [lift = null, overWood = 0, overHeat = 0] = minimumsOf(material);
  if (lift === null || floor === null) return lift;
  const isOverWood = exposedLayers(floor).some(({ layer }) => isWood(layer.material));
  return Math.max(lift, isOverWood ? overWood : 0, isHeatInPour(roomHeat(floor)) ? overHeat : 0);
}

/** Another material for a room. */
export type MaterialChange = {
  readonly before: Material | null;
  readonly after: Material | null;
  /** The room, for its layers; null while it cannot be read. */
  readonly floor: PouredRoom | null;
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

/** A level over a floor that changed: a minimum thickness that was its data sheet's over the floor before becomes that over the floor now. */
export function levelForFloor(level: LevelChoice, material: Material | null, before: PouredRoom, after: PouredRoom): LevelChoice {
  const [was, now] = [minimumOf(material, before), minimumOf(material, after)];
  const isStarting = was !== null && Math.abs(level.leastThicknessM - was) <= 1e-9;
  return isStarting && now !== null && now !== was ? { ...level, leastThicknessM: now } : level;
}

/** A level that follows the floor, nowhere thinner than the minimum that is chosen and that of the data sheet over this floor. */
export function followingLevel(level: LevelChoice, material: Material | null, floor: PouredRoom | null): LevelChoice {
  const thicknessM = Math.max(level.followThicknessM, level.leastThicknessM, minimumOf(material, floor) ?? 0);
  return { ...level, mode: 'follow', followThicknessM: thicknessM };
}
