/**
 * Which parts of a floor are presumed to contain asbestos, and what a lab result changes
 * (29 CFR 1926.1101). Two years decide: the year of installation for flooring and its adhesive, the year of
 * construction for surfacing materials. Where the year of installation is unknown, flooring is as old as its house.
 */
import type { Override } from '../book/job.ts';
import type { FloorTest, Layer, LayerMaterial } from '../book/layer.ts';
import type { Room } from '../book/room.ts';
import { type LabResult, testsOf } from '../book/tests-of.ts';
import { LAYER_WORDS } from './layer-words.ts';

/** The last year that counts as old. 29 CFR 1926.1101(b) and (k)(1): “no later than 1980”. */
export const ASBESTOS_LAST_YEAR = 1980;
/** Asbestos flooring was made and installed into the 1980s, so years after the presumption up to this one are doubtful. Trade articles on vinyl asbestos tile. */
export const ASBESTOS_DOUBTFUL_TO_YEAR = 1990;

/**
 * Layers the flooring rule covers: asphalt and vinyl flooring with backing and adhesive, felt and black paper, and unknown layers.
 * Materials that may contain asbestos but are not presumed to are in {@link BESIDES}.
 */
const COVERED: readonly LayerMaterial[] = [
  'sheet-flooring',
  'resilient-tile',
  'adhesive-cutback',
  'adhesive-other',
  'adhesive-unknown',
  'underlay-felt',
  'unknown',
];

/** Whether the flooring rule covers this material. */
export function isFlooringRuleMaterial(material: LayerMaterial): boolean {
  return COVERED.includes(material);
}

/** The rule on a layer with asbestos that is to be removed. A clearance clears its finding. */
export const ABATEMENT_RULE = 'asbestos-found-out';

/** The rule on a textured coating with asbestos. A clearance clears its finding: the coating is gone. */
export const COATING_RULE = 'asbestos-coating-found';

/** Whether a lab detected asbestos in a room's textured coating, and no clearance is recorded. */
export const isCoatingLeft = ({ circumstances, tests }: Pick<Room, 'circumstances' | 'tests'>, overrides: readonly Override[]): boolean =>
  circumstances.texturedCoating === true &&
  isAsbestosDetected(tests, null) &&
  !overrides.some(({ key, document }) => document?.kind === 'clearance' && key === COATING_RULE);

/** Whether a layer is gone with its asbestos: it is to be removed, and the clearance is recorded. */
export const isClearedByDocument = ({ id, fate }: Pick<Layer, 'id' | 'fate'>, overrides: readonly Override[]): boolean =>
  fate === 'remove' && overrides.some(({ key, document }) => document?.kind === 'clearance' && key === `${ABATEMENT_RULE}:${id}`);

/** Whether a year counts as old: up to 1980, or not known. */
export function countsAsOld(year: number | null): boolean {
  return year === null || year <= ASBESTOS_LAST_YEAR;
}

/**
 * The year that decides about a layer: of its installation, else of the building, since a layer is not installed before its building.
 * Null where both are unknown. Common practice, no source.
 */
export const decidingYear = ({ yearInstalled }: Pick<Layer, 'yearInstalled'>, yearBuilt: number | null): number | null =>
  yearInstalled ?? yearBuilt;

/** Whether flooring or adhesive is presumed to contain asbestos, by its {@link decidingYear}. */
export function isFlooringPresumed(layer: Pick<Layer, 'material' | 'yearInstalled'>, yearBuilt: number | null): boolean {
  return isFlooringRuleMaterial(layer.material) && countsAsOld(decidingYear(layer, yearBuilt));
}

/** Whether a year after the presumption is still doubtful. */
export function isDoubtfulYear(year: number | null): boolean {
  return year !== null && year > ASBESTOS_LAST_YEAR && year <= ASBESTOS_DOUBTFUL_TO_YEAR;
}

/**
 * Materials in the work area that may contain asbestos though the flooring rule does not presume it, and what of them may.
 * Federal and university lists of suspect materials, common practice.
 */
export const BESIDES: Readonly<Partial<Record<LayerMaterial, string>>> = {
  'ceramic-tile': 'tile mortar',
  thinset: 'tile mortar',
  'old-leveling': 'old patch and underlayment',
  membrane: 'asphalt membrane',
  'wood-flooring': 'black paper under wood flooring',
};

/** Whether cutting the face of a layer reaches what may contain asbestos. Black paper is reached only by removing the wood over it. */
export const isSuspectAtFace = (material: LayerMaterial): boolean => material !== 'wood-flooring';

/** What of a layer may contain asbestos, within a sentence. */
export const suspectName = (material: LayerMaterial): string => BESIDES[material] ?? LAYER_WORDS[material];

/**
 * Whether a lab should test a layer before it is disturbed, though nothing presumes asbestos in it and no sample is taken.
 */
export function isLabAdvised(layer: Layer, lab: LabAnswer, yearBuilt: number | null): boolean {
  if (lab !== 'not-asked') return false;
  const year = decidingYear(layer, yearBuilt);
  if (isFlooringRuleMaterial(layer.material)) return isDoubtfulYear(year);
  return BESIDES[layer.material] !== undefined && countsAsOld(year);
}

/** Whether surfacing materials (textured coatings, sprayed or troweled) and pipe insulation are presumed, by the year of the building. */
export function isSurfacingPresumed(yearBuilt: number | null): boolean {
  return countsAsOld(yearBuilt);
}

/** A lab result: not requested, pending, incomplete, not detected, detected. */
export type LabAnswer = 'not-asked' | 'sent' | 'incomplete' | 'none-found' | 'found';

type Question = LabResult['question'];
const resultsFor = (tests: readonly FloorTest[], question: Question, layerId: string | null): readonly LabResult[] =>
  testsOf(tests, 'lab').filter((test) => test.question === question && test.layerId === layerId);
/** Whether a result has the lab, the sample number and a date up to today. */
const isWhole = (test: LabResult, today: string): boolean =>
  test.lab.trim() !== '' && test.sample.trim() !== '' && test.resultOn !== null && test.resultOn <= today;

/** Whether a lab detected asbestos in a layer, or in a coating (`layerId` null). One sample with asbestos outweighs all without. */
export const isAsbestosDetected = (tests: readonly FloorTest[], layerId: string | null): boolean =>
  resultsFor(tests, 'asbestos', layerId).some(({ state }) => state === 'found');

/**
 * The lab result for one layer, or for the trim's paint or a coating (`layerId` null).
 *
 * Only a result with lab, sample number and date counts as not detected. One sample with asbestos outweighs all
 * samples without.
 * @param today the latest day a result may be dated, `2026-05-12`
 */
export function labAnswer(tests: readonly FloorTest[], question: Question, layerId: string | null, today: string): LabAnswer {
  const asked = resultsFor(tests, question, layerId);
  if (asked.some((test) => test.state === 'found')) return 'found';
  const negatives = asked.filter((test) => test.state === 'none-found');
  if (negatives.some((test) => isWhole(test, today))) return 'none-found';
  if (negatives.length > 0) return 'incomplete';
  return asked.length > 0 ? 'sent' : 'not-asked';
}

/**
 * The last result for a layer that is pending or incomplete, to be completed by the next entry; null where there is none. A complete
 * one is of another sample and stays.
 * @param today the latest day a result may be dated, `2026-05-12`
 */
export const unfinishedLabResult = (
  tests: readonly FloorTest[],
  question: Question,
  layerId: string | null,
  today: string,
): LabResult | null => resultsFor(tests, question, layerId).findLast((test) => test.state === 'sent' || !isWhole(test, today)) ?? null;
