/** Names of the layers, and the kind of substrate each is for a pour. */
import type { Layer, LayerMaterial } from '../book/layer.ts';
import type { PowderSheet } from '../book/material.ts';
import { formatListAnd, formatListOr } from '../measure/list.ts';

/** A layer's name within a sentence. */
export const LAYER_WORDS: Readonly<Record<LayerMaterial, string>> = {
  'sheet-flooring': 'sheet flooring',
  'resilient-tile': 'resilient tile',
  'floating-plank': 'floating plank',
  carpet: 'carpet',
  'ceramic-tile': 'ceramic tile',
  'stone-tile': 'stone tile',
  terrazzo: 'terrazzo',
  'wood-flooring': 'wood flooring',
  'adhesive-cutback': 'cutback adhesive',
  'adhesive-other': 'old adhesive',
  'adhesive-unknown': 'unknown adhesive',
  thinset: 'thinset',
  'underlay-felt': 'felt or black paper',
  'foam-pad': 'foam pad',
  'paint-or-sealer': 'paint or sealer',
  'old-leveling': 'old underlayment',
  screed: 'mortar bed',
  gypsum: 'gypsum underlayment',
  boards: 'plank subfloor',
  plywood: 'plywood',
  particleboard: 'particleboard or hardboard',
  osb: 'OSB',
  membrane: 'membrane',
  'concrete-on-ground': 'slab on grade',
  'concrete-suspended': 'suspended slab',
  joists: 'joists',
  metal: 'metal',
  'radiant-heating': 'radiant floor heat',
  gravel: 'gravel',
  earth: 'soil',
  unknown: 'unknown layer',
};

const WOOD: readonly LayerMaterial[] = ['wood-flooring', 'boards', 'plywood', 'particleboard', 'osb', 'joists'];
const CEMENTITIOUS: readonly LayerMaterial[] = [
  'concrete-on-ground',
  'concrete-suspended',
  'screed',
  'old-leveling',
  'terrazzo',
  'thinset',
];
const CONCRETE: readonly LayerMaterial[] = ['concrete-on-ground', 'concrete-suspended'];
const SLAB: readonly LayerMaterial[] = [...CONCRETE, 'screed'];
const CARRYING: readonly LayerMaterial[] = [...CONCRETE, 'gravel', 'earth'];
const SOFT: readonly LayerMaterial[] = ['carpet', 'foam-pad', 'floating-plank'];
const NO_SURFACE: readonly LayerMaterial[] = ['gravel', 'earth', 'joists'];
const ADHESIVE: readonly LayerMaterial[] = ['adhesive-cutback', 'adhesive-other', 'adhesive-unknown'];
const DENSE: readonly LayerMaterial[] = ['ceramic-tile', 'stone-tile', 'terrazzo', 'metal'];

/** Whether a layer is wood, or panels made of it. */
export const isWood = (material: LayerMaterial): boolean => WOOD.includes(material);
/** Whether a layer is bound with cement. */
export const isCementitious = (material: LayerMaterial): boolean => CEMENTITIOUS.includes(material);
/** Whether a layer is a concrete slab, on grade or suspended. */
export const isConcrete = (material: LayerMaterial): boolean => CONCRETE.includes(material);
/** Whether a layer is a slab or mortar bed, in which moisture tests are made. */
export const isSlab = (material: LayerMaterial): boolean => SLAB.includes(material);
/** Whether a layer is concrete, a mortar bed or old underlayment, which take up water unless something closes them. */
export const isOpenConcrete = (material: LayerMaterial): boolean => isSlab(material) || material === 'old-leveling';
/** Whether metal carries the floor: nothing but joists, which are then steel, is under it. @param kept from the top down */
const isOnSteel = (kept: readonly Layer[]): boolean => kept.findLast(({ material }) => material !== 'joists')?.material === 'metal';
/** Whether the floor is a steel deck without a concrete slab on it. @param kept from the top down */
export const isSteelDeck = (kept: readonly Layer[]): boolean => isOnSteel(kept) && !kept.some(({ material }) => isConcrete(material));
/**
 * Whether the layers that stay are a floor on wood joists. Wood with no slab below is presumed suspended: most wood floors are, and
 * the safe assumption costs one question.
 */
export function isFramed(kept: readonly Layer[]): boolean {
  if (isOnSteel(kept)) return false;
  const onSlab = kept.some((layer) => isConcrete(layer.material));
  return kept.some((layer) => layer.material === 'joists') || (!onSlab && kept.some((layer) => isWood(layer.material)));
}
/** Whether the layers that stay, from the top down, hold a slab whose moisture is tested: concrete, or a mortar bed with no wood under it. */
export const hasSlab = (kept: readonly Layer[]): boolean =>
  kept.some(
    ({ material }, place) => isConcrete(material) || (isSlab(material) && !kept.slice(place + 1).some((under) => isWood(under.material))),
  );
/** Whether a layer flexes under a pour because it is soft or not bonded, so that it cannot stay, nor what lies on it. */
export const isSoft = (material: LayerMaterial): boolean => SOFT.includes(material);
/** Whether a layer cannot be poured on. */
export const isNoSurface = (material: LayerMaterial): boolean => NO_SURFACE.includes(material);
/** Whether a layer carries a floor, or tells what does: a slab, wood, joists, or the ground. */
export const isCarrying = (material: LayerMaterial): boolean => isWood(material) || CARRYING.includes(material);
/** Whether a layer is adhesive residue. */
export const isAdhesive = (material: LayerMaterial): boolean => ADHESIVE.includes(material);
/** Whether a layer is dense and smooth, and may be abraded. Resilient tile is smooth too and is never abraded. */
export const isDense = (material: LayerMaterial): boolean => DENSE.includes(material);
/** Whether cutting a layer raises no silica: wood and metal. */
export const isWithoutSilica = (material: LayerMaterial): boolean => isWood(material) || material === 'metal';
/** Whether water drops and scratches are tested on a layer: what is bound with cement, and gypsum. */
export const isDropTested = (material: LayerMaterial): boolean => isCementitious(material) || material === 'gypsum';
/** Whether a layer is never ground, sanded or abraded: resilient flooring. 29 CFR 1926.1101(l)(3), common practice for the rest. */
export const isNeverGround = (material: LayerMaterial): boolean => material === 'resilient-tile' || material === 'sheet-flooring';
/** Whether a layer is flooring that a homeowner would ask about, or may be. */
export const isOldFlooring = (material: LayerMaterial): boolean =>
  isSoft(material) || isNeverGround(material) || ['ceramic-tile', 'stone-tile', 'terrazzo', 'wood-flooring', 'unknown'].includes(material);
/** How a surface that is never ground is cleaned. Common practice, no source. */
export const STRIP_WET = 'wet with a low-abrasion pad, rinse, let it dry, and test the bond of the primer';
/** How finish comes off flooring that may contain asbestos: wet, low-abrasion pads, under 300 rpm. 29 CFR 1926.1101(l)(3). The own crew tests the bond. */
export const STRIP_SUSPECT_WET = 'wet with a low-abrasion pad under 300 rpm, rinse, and let it dry';
/** A sentence for texts about machine work where part of the surface is never ground; empty where none or all of it is. */
export function keepMachinesOff(exposed: readonly { readonly layer: { readonly material: LayerMaterial } }[]): string {
  const never = exposed.map(({ layer }) => layer.material).filter(isNeverGround);
  if (never.length === 0 || never.length === exposed.length) return '';
  return ` Use no machine on the ${formatListOr([...new Set(never)].map((material) => LAYER_WORDS[material]))}.`;
}
type Surface = readonly { readonly layer: { readonly material: LayerMaterial } }[];
/**
 * How oil and dirt come off by machine, and when it is off. A drop never soaks into metal or tile: there water is to spread in one film.
 * ASTM F22 (water break) and SSPC-SP 1 (degrease before abrading), from memory.
 * @param what `the oil`
 * @param tail said of the place and the time, `, only on the metal`
 */
export function machineOff(what: string, parts: Surface, tail = '', how: 'by machine' | 'by hand' = 'by machine'): string {
  const dense = [...new Set(parts.map(({ layer }) => layer.material).filter(isDense))];
  const wash = 'degrease, rinse and abrade until water spreads without beading';
  if (dense.length === 0) return `Remove ${what} ${how} until a water drop soaks in${tail}`;
  if (parts.every(({ layer }) => isDense(layer.material))) return `Remove ${what}: ${wash}${tail}`;
  return `Remove ${what} ${how} until a water drop soaks in${tail}. On the ${formatListAnd(dense.map((one) => LAYER_WORDS[one]))}, ${wash}`;
}
/** Whether a layer is smooth itself, or is the finish, so that no finish on it counts. */
export const isSmooth = (material: LayerMaterial): boolean =>
  isDense(material) || material === 'resilient-tile' || material === 'paint-or-sealer';

/** Whether a layer is known to take up no water: everything but wood, what is bound with cement, gypsum, and what is unknown. */
export const isNonPorous = (material: LayerMaterial): boolean =>
  !isWood(material) && !isCementitious(material) && material !== 'gypsum' && material !== 'unknown';

/** A substrate named on a data sheet. */
export type BondClass = PowderSheet['bondsTo'][number];

/** The data sheet's name for the substrate; null where data sheets have none. Plywood, OSB and planks are separate. */
export function bondClass(material: LayerMaterial): BondClass | null {
  switch (material) {
    case 'old-leveling':
    case 'gypsum':
    case 'metal':
    case 'plywood':
    case 'osb':
    case 'resilient-tile':
      return material;
    case 'boards':
    case 'wood-flooring':
      return 'planks';
    case 'ceramic-tile':
    case 'stone-tile':
    case 'terrazzo':
      return 'tile';
    default:
      if (isAdhesive(material)) return 'adhesive';
      return isCementitious(material) ? 'concrete' : null;
  }
}
