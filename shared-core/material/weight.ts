/** Weight added by the pour and by new layers, less the weight removed, compared with the allowance. Not a structural check. */
import type { LayerMaterial } from '../book/layer.ts';
import { STANDARD_GRAVITY_M_S2 } from '../measure/pressure.ts';
import { LAYER_DENSITY_KG_M3, THIN_LAYER_THICKNESS_M, UNKNOWN_LAYER_DENSITY_KG_M3, UNKNOWN_LAYER_THICKNESS_M } from './typical-figures.ts';

/** A layer that comes out or is laid new: its thickness (null when it was not measured) and the area it covers. */
export type RoomLayer = { readonly material: LayerMaterial; readonly thicknessM: number | null; readonly areaM2: number };

/** The mass of a layer, kilograms, at a typical density and, where not measured, a typical thickness. */
export function layerMassKg(layer: RoomLayer): number {
  const density = LAYER_DENSITY_KG_M3[layer.material] ?? UNKNOWN_LAYER_DENSITY_KG_M3;
  const thicknessM = layer.thicknessM ?? THIN_LAYER_THICKNESS_M[layer.material] ?? UNKNOWN_LAYER_THICKNESS_M;
  return density * thicknessM * layer.areaM2;
}

/** The mass a floor is credited for removed layers, kilograms: none where the thickness was not measured, since it cannot be relied on. */
const creditedMassKg = (layers: readonly RoomLayer[]): number =>
  layers.reduce((sum, layer) => sum + (layer.thicknessM === null ? 0 : layerMassKg(layer)), 0);

/** Rounding between two calculations of one area. */
const AREA_SLACK = 1e-6;

/** Weight added over a room, wet as poured, which is when it weighs most. */
export type AddedWeight = {
  readonly meanKgM2: number;
  readonly mostKgM2: number;
  /** Removed, averaged over the room. */
  readonly removedKgM2: number;
  /** Removed at every point: with layers that come out over the whole room. */
  readonly removedAllOverKgM2: number;
  /** New layers at a point where all of them lie. */
  readonly laidKgM2: number;
  /** The deepest point and the new layers, less the weight removed at every point, pascals: the figure that is checked. */
  readonly deepestPa: number;
  /** The allowance entered, and whether the net and the deepest place stay within it. Null when none was entered. */
  readonly allowedPa: number | null;
  readonly within: boolean | null;
};

/** What a pour adds (fresh density), what new layers add, what the old floor took away, and the allowed added load; null while unknown. */
export type PourLoad = {
  readonly depths: { readonly meanM: number; readonly mostM: number };
  readonly densityKgM3: number;
  readonly areaM2: number;
  readonly removed: readonly RoomLayer[];
  readonly laid: readonly RoomLayer[];
  readonly allowedPa: number | null;
};

/**
 * The weight a pour adds.
 * @param densityKgM3 fresh
 * @param allowedPa allowed added load; null while unknown
 */
export function addedWeight({ depths, densityKgM3, areaM2, removed, laid, allowedPa }: PourLoad): AddedWeight {
  const meanKgM2 = densityKgM3 * depths.meanM;
  const mostKgM2 = densityKgM3 * depths.mostM;
  const perM2 = (layers: readonly RoomLayer[]): number => (areaM2 > 0 ? creditedMassKg(layers) / areaM2 : 0);
  const removedKgM2 = perM2(removed);
  // The deepest point may lie where a layer of a part of the room never was.
  const removedAllOverKgM2 = perM2(removed.filter((layer) => layer.areaM2 >= areaM2 * (1 - AREA_SLACK)));
  const laidKgM2 = laid.reduce((sum, layer) => sum + layerMassKg({ ...layer, areaM2: 1 }), 0);
  const deepestPa = (mostKgM2 + laidKgM2 - removedAllOverKgM2) * STANDARD_GRAVITY_M_S2;
  const within = allowedPa === null ? null : deepestPa <= allowedPa;
  return { meanKgM2, mostKgM2, removedKgM2, removedAllOverKgM2, laidKgM2, deepestPa, allowedPa, within };
}
