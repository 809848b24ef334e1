/** Rules about asbestos and lead: what must not be disturbed, and what clears it. */
import type { Layer } from '../book/layer.ts';
import { capital } from '../measure/first-letter.ts';
import { formatListAnd } from '../measure/list.ts';
import {
  ABATEMENT_RULE,
  ASBESTOS_DOUBTFUL_TO_YEAR,
  ASBESTOS_LAST_YEAR,
  BESIDES,
  COATING_RULE,
  countsAsOld,
  decidingYear,
  isDoubtfulYear,
  isFlooringRuleMaterial,
  isLabAdvised,
  isSuspectAtFace,
  type LabAnswer,
} from './asbestos.ts';
import { type FloorFacts, hasSlabDucts, type LayerFacts, mayHoldAsbestos } from './floor-facts.ts';
import { LAYER_WORDS } from './layer-words.ts';
import { isLeadPresumed, isMinorRepair, LEAD_BEFORE_YEAR, MINOR_REPAIR_MOST_M2 } from './lead-paint.ts';
import { type Case, DISTURBING, DISTURBING_FOUND, once, PAINT_DISTURBING, type Rule, rule } from './rule.ts';

const FLOORING = '29 CFR 1926.1101(k)(1), by year of installation';
const SURFACING = '29 CFR 1926.1101(b), by year of construction';
const LEAD = '40 CFR 745';

/** `year` is the layer's deciding one. */
type LayerCase = { readonly key: string; readonly found: LayerFacts; readonly year: number | null };

const layers = (facts: FloorFacts, applies: (match: LayerFacts) => boolean): readonly LayerCase[] =>
  facts.layerFacts
    .filter(applies)
    .map((match) => ({ key: match.layer.id, found: match, year: decidingYear(match.layer, facts.yearBuilt) }));
const named = ({ found }: LayerCase): string => LAYER_WORDS[found.layer.material];
const finish = ({ found }: LayerCase): string =>
  found.layer.material === 'paint-or-sealer' ? 'paint on the floor' : `finish on the ${LAYER_WORDS[found.layer.material]}`;
const age = ({ found, year }: LayerCase): string => {
  if (found.layer.yearInstalled !== null) return `Installed in ${found.layer.yearInstalled}`;
  if (year === null) return 'Year installed unknown, which counts as old';
  return `Year installed unknown, house built in ${year}${countsAsOld(year) ? ', which counts as old' : ''}`;
};
const houseAge = (facts: FloorFacts): string =>
  facts.yearBuilt === null ? 'Year built unknown, which counts as old' : `House built in ${facts.yearBuilt}`;
const unanswered = (lab: LabAnswer): boolean => lab === 'not-asked' || lab === 'sent';
const besides = (facts: FloorFacts): readonly (Case & { readonly what: readonly string[] })[] => {
  const isCut = (layer: Layer): boolean => isSuspectAtFace(layer.material) && facts.exposed.some((part) => part.layer === layer);
  const fromLayers = facts.layerFacts.flatMap(({ layer, lab }) =>
    (layer.fate === 'remove' || isCut(layer)) && isLabAdvised(layer, lab, facts.yearBuilt) ? (BESIDES[layer.material] ?? []) : [],
  );
  const trim = facts.circumstances.paintedTrim === 'to-be-disturbed' && countsAsOld(facts.yearBuilt) ? ['cove base and its adhesive'] : [];
  const ducts = hasSlabDucts(facts) && countsAsOld(facts.yearBuilt) ? ['ducts in the slab'] : [];
  const materials = [...new Set([...fromLayers, ...trim, ...ducts])];
  return materials.length === 0 ? [] : [{ what: materials }];
};
const trimOpen = (facts: FloorFacts): boolean =>
  facts.circumstances.paintedTrim === 'to-be-disturbed' &&
  isLeadPresumed(facts.yearBuilt) &&
  facts.paintLab !== 'none-found' &&
  facts.paintLab !== 'found';

const ASBESTOS: readonly Rule[] = [
  rule({
    id: 'asbestos-flooring',
    title: named,
    reads: `flooring, backing or adhesive installed in ${ASBESTOS_LAST_YEAR} or before, or in an unknown year unless the house is newer; no lab result`,
    verdict: 'hold',
    when: (facts) => layers(facts, (match) => match.presumed && unanswered(match.lab)),
    text: (match) =>
      `${age(match)}. It counts as asbestos until an accredited lab reports otherwise. ${
        match.found.lab === 'sent'
          ? 'The result is pending: disturb nothing.'
          : 'Disturb nothing. Have an accredited inspector or industrial hygienist take the sample.'
      }`,
    holds: [...DISTURBING, 'pour'],
    clearedBy: 'lab-result',
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: `${FLOORING}; (k)(5) on who samples`,
  }),
  rule({
    id: 'asbestos-answer-incomplete',
    title: named,
    reads: 'a lab detected none, but its name, the sample number or a date up to today is missing',
    verdict: 'hold',
    when: (facts) => layers(facts, (match) => match.presumed && match.lab === 'incomplete'),
    text: () => 'The lab result is incomplete and does not count. Enter the lab, the sample number and the date of the result.',
    holds: [...DISTURBING, 'pour'],
    clearedBy: 'lab-result',
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: FLOORING,
  }),
  rule({
    id: ABATEMENT_RULE,
    title: named,
    reads: 'a lab detected asbestos in a layer that is to be removed, and no clearance is recorded',
    verdict: 'hold',
    when: (facts) => layers(facts, (match) => match.lab === 'found' && match.layer.fate === 'remove'),
    text: () => 'Asbestos was detected. Only a licensed abatement contractor removes it. Record the clearance when it is done.',
    holds: [...DISTURBING_FOUND, 'pour'],
    clearedBy: 'clearance',
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: '29 CFR 1926.1101; state licensing',
  }),
  rule({
    id: 'asbestos-found-stays',
    title: named,
    reads: 'a lab detected asbestos in a layer that stays',
    verdict: 'hold',
    when: (facts) => layers(facts, (match) => match.lab === 'found' && match.layer.fate === 'keep'),
    text: () =>
      'Asbestos was detected and the layer stays. Cover it whole and disturb nothing. First check that local rules allow it, and tell the owner in writing.',
    holds: DISTURBING_FOUND,
    clearedBy: 'lab-result',
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: '29 CFR 1926.1101; local rules',
  }),
  rule({
    id: 'asbestos-none',
    title: named,
    reads: 'a lab, with sample number and date, detected no asbestos in a layer that was presumed',
    verdict: 'go',
    when: (facts) => layers(facts, (match) => match.presumed && match.lab === 'none-found'),
    text: () => 'The lab detected no asbestos in its sample.',
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: FLOORING,
  }),
  rule({
    id: 'asbestos-pending',
    title: named,
    reads: 'a sample of a layer that is not presumed is at a lab, or its result is incomplete',
    verdict: 'hold',
    when: (facts) => layers(facts, ({ presumed, lab }) => !presumed && (lab === 'sent' || lab === 'incomplete')),
    text: ({ found }) =>
      found.lab === 'sent'
        ? 'A sample is at the lab. Disturb nothing until the result is entered.'
        : 'The lab result is incomplete and does not count. Enter the lab, the sample number and the date of the result.',
    holds: DISTURBING,
    clearedBy: 'lab-result',
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: 'common practice; 29 CFR 1926.1101(k) on due diligence',
  }),
  rule({
    id: 'asbestos-doubtful',
    title: named,
    reads: `flooring, backing or adhesive installed from ${ASBESTOS_LAST_YEAR + 1} to ${ASBESTOS_DOUBTFUL_TO_YEAR}, or in an unknown year in a house of those years; no lab result`,
    when: (facts) => layers(facts, ({ layer, lab }) => isFlooringRuleMaterial(layer.material) && isLabAdvised(layer, lab, facts.yearBuilt)),
    text: (match) => `${age(match)}. Flooring with asbestos was still sold in the 1980s. Ask a lab before disturbing it.`,
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: `${FLOORING}; trade articles on later flooring`,
  }),
  rule({
    id: 'asbestos-later',
    title: named,
    reads: `flooring, backing or adhesive installed after ${ASBESTOS_DOUBTFUL_TO_YEAR}, or in an unknown year in a house built after it`,
    verdict: 'go',
    when: (facts) =>
      layers(
        facts,
        ({ layer, presumed, lab }) =>
          isFlooringRuleMaterial(layer.material) &&
          !presumed &&
          !isDoubtfulYear(decidingYear(layer, facts.yearBuilt)) &&
          !mayHoldAsbestos({ presumed, lab, cleared: false }),
      ),
    text: (match) =>
      `${age(match)}. Asbestos is not presumed, which is not proof${match.found.layer.yearInstalled === null ? ': old flooring can have been reused' : ''}. If in doubt, ask a lab.`,
    lifts: (match) => `room.layers.${match.key}.yearInstalled`,
    source: FLOORING,
  }),
  rule({
    id: 'asbestos-besides',
    title: 'other old materials',
    reads: `old materials the flooring rule does not presume, in a building of ${ASBESTOS_LAST_YEAR} or before, or of unknown year`,
    when: (facts) => besides(facts),
    text: (match) =>
      `${capital(formatListAnd(match.what))} of this age may contain asbestos, though the rule does not presume it. Have a sample tested before you disturb any.`,
    lifts: 'room.layers',
    source: 'common practice: federal and university lists of suspect materials; 29 CFR 1926.1101(k) on due diligence',
  }),
  rule({
    id: 'asbestos-coating',
    title: 'textured coating',
    reads: `a textured coating in a building of ${ASBESTOS_LAST_YEAR} or before, or of unknown year; no lab result`,
    when: (facts) => once(facts.coatingPresumed && facts.coatingLab !== 'none-found' && facts.coatingLab !== 'found'),
    text: (_, __, facts) =>
      `${houseAge(facts)}. The coating counts as asbestos until a lab reports otherwise. Fasten, tape and lean nothing on it, and do not shake it.`,
    clearedBy: 'lab-result',
    lifts: 'room.tests.lab',
    source: SURFACING,
  }),
  rule({
    id: COATING_RULE,
    title: 'textured coating',
    reads: 'a lab detected asbestos in the coating',
    when: (facts) => once(facts.circumstances.texturedCoating === true && facts.coatingLab === 'found'),
    text: () => 'Asbestos was detected in the coating. Do not touch it. Only a licensed abatement contractor removes it.',
    clearedBy: 'clearance',
    lifts: 'room.circumstances.texturedCoating',
    source: '29 CFR 1926.1101; state licensing',
  }),
  rule({
    id: 'coating-not-looked',
    title: 'walls and ceiling',
    reads: `textured coating not checked in a building of ${ASBESTOS_LAST_YEAR} or before, or of unknown year`,
    when: (facts) => once(facts.circumstances.texturedCoating === null && countsAsOld(facts.yearBuilt)),
    text: () => 'Check for a textured coating on walls and ceiling before anything is fastened to them. Record what you see.',
    lifts: 'room.circumstances.texturedCoating',
    source: SURFACING,
  }),
];

const LEAD_RULES: readonly Rule[] = [
  rule({
    id: 'lead-floor',
    title: finish,
    reads: `paint or varnish on the floor of a house built before ${LEAD_BEFORE_YEAR} or of unknown year; not tested`,
    verdict: 'hold',
    when: (facts) => layers(facts, ({ leadFinish, leadLab }) => leadFinish && leadLab !== 'none-found' && leadLab !== 'found'),
    text: (_, __, facts) =>
      `${houseAge(facts)}. The finish counts as lead paint. Do not sand, grind or scrape it before a certified inspector or renovator has tested it, unless an EPA-certified firm does the work.`,
    holds: PAINT_DISTURBING,
    clearedBy: 'lead-firm',
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: `${LEAD}.82, .83, .85: painted surfaces include floors`,
  }),
  rule({
    id: 'lead-floor-found',
    title: finish,
    reads: 'lead was detected in the paint or varnish on the floor',
    verdict: 'hold',
    when: (facts) => layers(facts, ({ leadLab }) => leadLab === 'found'),
    text: () => 'Lead was detected. Only an EPA-certified firm disturbs it. Otherwise leave the finish alone.',
    holds: PAINT_DISTURBING,
    clearedBy: 'lead-firm',
    lifts: (match) => `room.tests.lab.${match.key}`,
    source: `${LEAD}, subpart E`,
  }),
  rule({
    id: 'lead-paint',
    title: 'painted baseboard and trim',
    reads: `more than 6 sq ft of painted trim to be disturbed in a house built before ${LEAD_BEFORE_YEAR} or of unknown year; not tested`,
    verdict: 'hold',
    when: (facts) => once(trimOpen(facts) && !isMinorRepair(facts.baseboardAreaM2)),
    text: (_, w, facts) =>
      `${houseAge(facts)}, so the paint counts as lead. ${
        facts.baseboardAreaM2 === null
          ? 'Enter the baseboard height to compute the painted area.'
          : `Its whole length and height come to ${w.area(facts.baseboardAreaM2)}, over ${w.area(MINOR_REPAIR_MOST_M2)}.`
      } Test it, leave it, or have an EPA-certified firm do it.`,
    holds: ['disturb-paint'],
    clearedBy: 'lead-firm',
    lifts: 'room.circumstances.baseboardHeightM',
    source: `${LEAD}.103: built before 1978; .82: exemptions; .83: minor repair, whole component`,
  }),
  rule({
    id: 'lead-minor',
    title: 'painted baseboard and trim',
    reads: `6 sq ft or less of painted trim to be disturbed in a house built before ${LEAD_BEFORE_YEAR} or of unknown year; not tested`,
    when: (facts) => once(trimOpen(facts) && isMinorRepair(facts.baseboardAreaM2)),
    text: (_, w, facts) =>
      `${w.area(facts.baseboardAreaM2 ?? 0)} in 30 days is minor repair, outside the federal rule. Work wet and by hand, with no power sanding, no demolition and no window replacement. Undercut jambs add their height times width.`,
    lifts: 'room.circumstances.baseboardHeightM',
    source: `${LEAD}.83: 6 sq ft or less per room`,
  }),
  rule({
    id: 'lead-found',
    title: 'painted baseboard and trim',
    reads: 'lead was detected in trim paint that is to be disturbed',
    verdict: 'hold',
    when: (facts) => once(facts.circumstances.paintedTrim === 'to-be-disturbed' && facts.paintLab === 'found'),
    text: () => 'Lead was detected. Only an EPA-certified firm disturbs it. Otherwise leave the trim in place and cover it.',
    holds: ['disturb-paint'],
    clearedBy: 'lead-firm',
    lifts: 'room.circumstances.paintedTrim',
    source: `${LEAD}, subpart E`,
  }),
  rule({
    id: 'lead-untouched',
    title: 'painted baseboard and trim',
    reads: `painted trim stays in place in a house built before ${LEAD_BEFORE_YEAR} or of unknown year`,
    when: (facts) =>
      once(facts.circumstances.paintedTrim === 'stays-untouched' && isLeadPresumed(facts.yearBuilt) && facts.paintLab !== 'none-found'),
    text: () => 'The paint counts as lead until tested. Cover it. Do not sand or scrape it.',
    lifts: 'room.tests.lab',
    source: `${LEAD}.103`,
  }),
  rule({
    id: 'lead-not-looked',
    title: 'baseboard and trim',
    reads: `painted trim not checked in a house built before ${LEAD_BEFORE_YEAR} or of unknown year`,
    when: (facts) => once(facts.circumstances.paintedTrim === null && isLeadPresumed(facts.yearBuilt)),
    text: () => 'Check whether baseboard and trim are painted and whether the work disturbs them. Leave the paint alone until then.',
    holds: ['disturb-paint'],
    lifts: 'room.circumstances.paintedTrim',
    source: `${LEAD}.103`,
  }),
];

/** The rows, asbestos first. */
export const HAZARD_RULES: readonly Rule[] = [...ASBESTOS, ...LEAD_RULES];
