/** Weight added by the pour, less the weight removed, compared with the allowance. Not a structural check. */
import type { LayerMaterial } from '../book/layer.ts';
import { STANDARD_GRAVITY_M_S2 } from '../measure/pressure.ts';
import { LAYER_DENSITY_KG_M3, UNKNOWN_LAYER_DENSITY_KG_M3, UNKNOWN_LAYER_THICKNESS_M } from './typical-figures.ts';

/** A layer that comes out: its thickness (null when it was not measured) and the area it covers. */
export type RemovedLayer = { readonly material: LayerMaterial; readonly thicknessM: number | null; readonly areaM2: number };

/** The mass removed with a layer for disposal, kilograms, at a typical density and, where not measured, a typical thickness. */
export function layerMassKg(layer: RemovedLayer): number {
  const density = LAYER_DENSITY_KG_M3[layer.material] ?? UNKNOWN_LAYER_DENSITY_KG_M3;
  return density * (layer.thicknessM ?? UNKNOWN_LAYER_THICKNESS_M) * layer.areaM2;
}

/** The mass a floor is credited for a removed layer, kilograms: 0 where the thickness was not measured, since it cannot be relied on. */
export function creditedMassKg(layer: RemovedLayer): number {
  return layer.thicknessM === null ? 0 : layerMassKg(layer);
}

/** Weight added over a room, wet as poured, which is when it weighs most. */
export type AddedWeight = {
  readonly meanKgM2: number;
  readonly mostKgM2: number;
  readonly removedKgM2: number;
  /** The deepest point less the weight removed, pascals: the figure that is checked. */
  readonly deepestPa: number;
  /** The allowance entered, and whether the net and the deepest place stay within it. Null when none was entered. */
  readonly allowedPa: number | null;
  readonly within: boolean | null;
};

/** What a pour adds (fresh density), what the old floor took away, and the allowed added load; null while unknown. */
export type PourLoad = {
  readonly depths: { readonly meanM: number; readonly mostM: number };
  readonly densityKgM3: number;
  readonly removed: { readonly massKg: number; readonly areaM2: number };
  readonly allowedPa: number | null;
};

/**
 * The weight a pour adds.
 * @param densityKgM3 fresh
 * @param allowedPa allowed added load; null while unknown
 */
export function addedWeight({ depths, densityKgM3, removed, allowedPa }: PourLoad): AddedWeight {
  const meanKgM2 = densityKgM3 * depths.meanM;
  const mostKgM2 = densityKgM3 * depths.mostM;
  const removedKgM2 = removed.areaM2 > 0 ? removed.massKg / removed.areaM2 : 0;
  const deepestPa = (mostKgM2 - removedKgM2) * STANDARD_GRAVITY_M_S2;
  const within = allowedPa === null ? null : deepestPa <= allowedPa;
  return { meanKgM2, mostKgM2, removedKgM2, deepestPa, allowedPa, within };
}
