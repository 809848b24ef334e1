/** The default minimum thickness: the data sheet's, or its greater one over wood or radiant heat. */
import type { LevelChoice } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { Room } from '../book/room.ts';
import { exposedLayers, type LayeredRoom } from '../substrate/exposed-layers.ts';
import { isWood } from '../substrate/layer-words.ts';
import { heatDepth, roomHeat } from '../substrate/radiant.ts';

/** What of a room decides how thick a pour over it must be. */
export type PouredRoom = LayeredRoom & Pick<Room, 'circumstances'>;

/** The data sheet's minimum lift, and its minimums over wood and over the floor's heat where there are any, meters. */
type Minimums = { readonly lift: number; readonly overWood: number | null; readonly overHeat: number | null };

function minimumsOf(material: Material | null, floor: PouredRoom | null): Minimums | null {
  if (material?.powder == null) return null;
  const { liftM, overWoodLeastM } = material.powder;
  const overHeat = floor === null ? null : heatDepth({ heat: roomHeat(floor), layers: floor.layers }, material.powder);
  return { lift: liftM.value.least, overWood: overWoodLeastM?.value ?? null, overHeat: overHeat?.leastM ?? null };
}

/** The minimum thickness over this floor, meters; null without a data sheet. */
function minimumOf(material: Material | null, floor: PouredRoom | null): number | null {
  const minimums = minimumsOf(material, floor);
  if (minimums === null) return null;
  const isOverWood = floor !== null && exposedLayers(floor).some(({ layer }) => isWood(layer.material));
  return Math.max(minimums.lift, isOverWood ? (minimums.overWood ?? 0) : 0, minimums.overHeat ?? 0);
}

/** A level with another minimum thickness. One that follows the floor is nowhere thinner. */
function withMinimum(level: LevelChoice, leastThicknessM: number): LevelChoice {
  const followThicknessM = level.mode === 'follow' ? Math.max(level.followThicknessM, leastThicknessM) : level.followThicknessM;
  return { ...level, leastThicknessM, followThicknessM };
}

/** Another material for a room. */
export type MaterialChange = {
  readonly before: Material | null;
  readonly after: Material | null;
  /** The room, for its layers and its heat; null while it cannot be read. */
  readonly floor: PouredRoom | null;
};

/**
 * A level under another material: a minimum thickness that was the former data sheet's, or the typical one before any was
 * chosen, becomes the new data sheet's. One that was entered by hand stays.
 * @param typicalM the minimum thickness a level has before a material is chosen, meters
 */
export function levelForMaterial(level: LevelChoice, { before, after, floor }: MaterialChange, typicalM: number): LevelChoice {
  const minimumM = minimumOf(after, floor);
  const given = before === null ? [typicalM] : Object.values(minimumsOf(before, floor) ?? {});
  const isOwn = given.every((one) => one === null || Math.abs(level.leastThicknessM - one) > 1e-9);
  return minimumM === null || isOwn ? level : withMinimum(level, minimumM);
}

/** A level over a floor that changed: a minimum thickness that was its data sheet's over the floor before becomes that over the floor now. */
export function levelForFloor(level: LevelChoice, material: Material | null, before: PouredRoom, after: PouredRoom): LevelChoice {
  const [was, now] = [minimumOf(material, before), minimumOf(material, after)];
  const isStarting = was !== null && Math.abs(level.leastThicknessM - was) <= 1e-9;
  return isStarting && now !== null && now !== was ? withMinimum(level, now) : level;
}

/** A level that follows the floor, nowhere thinner than the minimum that is chosen and that of the data sheet over this floor. */
export function followingLevel(level: LevelChoice, material: Material | null, floor: PouredRoom | null): LevelChoice {
  const thicknessM = Math.max(level.followThicknessM, level.leastThicknessM, minimumOf(material, floor) ?? 0);
  return { ...level, mode: 'follow', followThicknessM: thicknessM };
}
