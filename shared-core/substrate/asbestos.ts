/**
 * Which parts of a floor are presumed to hold asbestos, and what a laboratory's answer changes
 * (29 CFR 1926.1101). Two dates decide: the day flooring was laid for flooring and its adhesive, the day the
 * building was put up for surfacing materials.
 */
import type { FloorTest, Layer, LayerMaterial } from '../book/layer.ts';
import { testsOf } from './tests-of.ts';

/** The last year that counts as old. 29 CFR 1926.1101(b) and (k)(1): “no later than 1980”. */
export const ASBESTOS_LAST_YEAR = 1980;

/** Layers the flooring rule covers: asphalt and vinyl flooring with backing and adhesive, and what nobody can name. */
const COVERED: readonly LayerMaterial[] = [
  'sheet-flooring',
  'resilient-tile',
  'adhesive-cutback',
  'adhesive-other',
  'adhesive-unknown',
  'underlay-felt',
  'unknown',
];

/** Whether the flooring rule speaks of this material at all. */
export function isFlooringRuleMaterial(material: LayerMaterial): boolean {
  return COVERED.includes(material);
}

/** Whether a year counts as old: up to 1980, or not known. */
export function countsAsOld(year: number | null): boolean {
  return year === null || year <= ASBESTOS_LAST_YEAR;
}

/** Whether flooring or adhesive is presumed to hold asbestos, by the year it was laid. */
export function isFlooringPresumed(layer: Pick<Layer, 'material' | 'yearInstalled'>): boolean {
  return isFlooringRuleMaterial(layer.material) && countsAsOld(layer.yearInstalled);
}

/** Whether surfacing materials (textured coatings, sprayed or troweled) and pipe insulation are presumed, by the year of the building. */
export function isSurfacingPresumed(yearBuilt: number | null): boolean {
  return countsAsOld(yearBuilt);
}

/** What a laboratory has said: nothing yet, sent away, an answer with something left out, none found, found. */
export type LabAnswer = 'not-asked' | 'sent' | 'incomplete' | 'none-found' | 'found';

/**
 * What the laboratory has answered about one layer, or about paint or coatings (`layerId` null).
 *
 * Only an answer with laboratory, sample and date counts as none found. One sample with asbestos outweighs any
 * number without.
 * @param today the day an answer may be of at the latest, `2026-05-12`
 */
export function labAnswer(
  tests: readonly FloorTest[],
  question: 'asbestos' | 'lead-paint',
  layerId: string | null,
  today: string,
): LabAnswer {
  const asked = testsOf(tests, 'laboratory').filter((test) => test.question === question && test.layerId === layerId);
  if (asked.some((test) => test.state === 'found')) return 'found';
  const none = asked.filter((test) => test.state === 'none-found');
  const whole = none.filter(
    (test) => test.laboratory.trim() !== '' && test.sample.trim() !== '' && test.resultOn !== null && test.resultOn <= today,
  );
  if (whole.length > 0) return 'none-found';
  if (none.length > 0) return 'incomplete';
  return asked.length > 0 ? 'sent' : 'not-asked';
}
