/** What a layer is called, and what kind of ground it makes for a pour. */
import type { LayerMaterial } from '../book/layer.ts';

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
  'adhesive-cutback': 'black adhesive',
  'adhesive-other': 'old adhesive',
  'adhesive-unknown': 'adhesive of unknown kind',
  thinset: 'tile mortar',
  'underlay-felt': 'felt underlay',
  'foam-pad': 'foam pad',
  'paint-or-sealer': 'paint or sealer',
  'old-leveling': 'old leveling compound',
  screed: 'screed',
  gypsum: 'gypsum',
  boards: 'boards',
  plywood: 'plywood',
  particleboard: 'particleboard',
  osb: 'oriented strand board',
  membrane: 'membrane',
  'concrete-on-ground': 'concrete on ground',
  'concrete-suspended': 'suspended concrete',
  joists: 'joists',
  metal: 'metal',
  'radiant-heating': 'floor heating',
  gravel: 'gravel',
  earth: 'earth',
  unknown: 'a layer nobody could name',
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
const SOFT: readonly LayerMaterial[] = ['carpet', 'foam-pad', 'underlay-felt', 'floating-plank', 'sheet-flooring'];
const LOOSE_GROUND: readonly LayerMaterial[] = ['gravel', 'earth', 'joists', 'radiant-heating'];
const ADHESIVE: readonly LayerMaterial[] = ['adhesive-cutback', 'adhesive-other', 'adhesive-unknown'];
const SMOOTH: readonly LayerMaterial[] = ['ceramic-tile', 'stone-tile', 'terrazzo', 'resilient-tile', 'paint-or-sealer', 'metal'];

/** Whether a layer is timber, or panels made of it. */
export const isWood = (material: LayerMaterial): boolean => WOOD.includes(material);
/** Whether a layer is bound with cement. */
export const isCementitious = (material: LayerMaterial): boolean => CEMENTITIOUS.includes(material);
/** Whether a layer gives way under a pour: soft, or laid without bond. */
export const isSoft = (material: LayerMaterial): boolean => SOFT.includes(material);
/** Whether a layer is no surface a pour can lie on. */
export const isNoSurface = (material: LayerMaterial): boolean => LOOSE_GROUND.includes(material);
/** Whether a layer is adhesive residue. */
export const isAdhesive = (material: LayerMaterial): boolean => ADHESIVE.includes(material);
/** Whether a layer is dense and smooth, so that a pour needs a key. */
export const isSmooth = (material: LayerMaterial): boolean => SMOOTH.includes(material);

/** What a sheet calls the ground it bonds to; null where sheets have no word for it. */
export function bondClass(material: LayerMaterial): 'concrete' | 'wood' | 'tile' | 'gypsum' | 'metal' | 'old-leveling' | null {
  if (material === 'old-leveling') return 'old-leveling';
  if (material === 'gypsum') return 'gypsum';
  if (material === 'metal') return 'metal';
  if (material === 'ceramic-tile' || material === 'stone-tile' || material === 'terrazzo') return 'tile';
  if (isWood(material)) return 'wood';
  return isCementitious(material) ? 'concrete' : null;
}
