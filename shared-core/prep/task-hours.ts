/** Own crew's hours by kind of prep work. Typical, no source: the business's own times replace them as jobs finish. */

import type { LayerMaterial } from '../book/layer.ts';
import { isAdhesive, isWood } from '../substrate/layer-words.ts';

/** Hours one person takes per square meter, meter or piece. */
export const TYPICAL_HOURS = {
  clear: 0.04,
  baseboard: 0.1,
  dustControl: 0.5,
  liftPlank: 0.08,
  liftCarpet: 0.05,
  liftTile: 0.6,
  liftSheet: 0.15,
  liftBoards: 0.2,
  scrapeAdhesive: 0.25,
  liftOther: 0.3,
  refasten: 0.08,
  openHollow: 0.7,
  cleanContaminated: 0.8,
  grindSpot: 0.5,
  abrade: 0.12,
  fillCrack: 0.12,
  carryJoint: 0.2,
  vacuum: 0.02,
  isolationStrip: 0.03,
  dam: 0.25,
  feather: 0.15,
  sealGap: 0.1,
  reinforce: 0.08,
  moistureSystem: 0.1,
  leadContain: 2,
  leadVerify: 1,
  moistureTest: 0.5,
  readTests: 1,
  cutEdge: 0.25,
  skimPatch: 0.4,
  tapFloor: 0.05,
  primeCoat: 0.03,
  stageBag: 0.03,
} as const;

/** Hours for an amount of work; null for none, or where it is not known. */
export const timed = (work: keyof typeof TYPICAL_HOURS, amount: number | null): number | null =>
  amount === null || amount === 0 ? null : hoursFor(work, amount);

/** The work that takes a layer out. */
export function removalWork(material: LayerMaterial): keyof typeof TYPICAL_HOURS {
  if (isAdhesive(material)) return 'scrapeAdhesive';
  if (isWood(material)) return 'liftBoards';
  switch (material) {
    case 'floating-plank':
      return 'liftPlank';
    case 'carpet':
    case 'foam-pad':
      return 'liftCarpet';
    case 'ceramic-tile':
    case 'stone-tile':
    case 'terrazzo':
    case 'thinset':
      return 'liftTile';
    case 'sheet-flooring':
    case 'resilient-tile':
    case 'underlay-felt':
    case 'membrane':
      return 'liftSheet';
    case 'paint-or-sealer':
      return 'abrade';
    default:
      return 'liftOther';
  }
}

/** Hours for an amount of work, to the hundredth. */
export function hoursFor(work: keyof typeof TYPICAL_HOURS, amount: number): number {
  return Math.round(TYPICAL_HOURS[work] * amount * 100) / 100;
}
