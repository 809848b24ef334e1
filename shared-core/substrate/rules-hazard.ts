/** Rules about asbestos and lead: what may not be disturbed, and what lifts that. */
import { ASBESTOS_LAST_YEAR, isFlooringRuleMaterial, type LabAnswer } from './asbestos.ts';
import type { FloorFacts, LayerFacts } from './floor-facts.ts';
import { LAYER_WORDS } from './layer-words.ts';
import { isLeadPresumed, isMinorRepair, LEAD_BEFORE_YEAR } from './lead-paint.ts';
import { DISTURBING, once, type Rule, rule } from './rule.ts';

const FLOORING = '29 CFR 1926.1101(k)(1), by the year it was laid';
const SURFACING = '29 CFR 1926.1101(b), by the year of the building';
const LEAD = '40 CFR 745';

type LayerCase = { readonly key: string; readonly found: LayerFacts };

const layers = (facts: FloorFacts, applies: (found: LayerFacts) => boolean): readonly LayerCase[] =>
  facts.layerFacts.filter(applies).map((found) => ({ key: found.layer.id, found }));
const named = ({ found }: LayerCase): string => LAYER_WORDS[found.layer.material];
const age = ({ found }: LayerCase): string =>
  found.layer.yearInstalled === null ? 'Nobody knows when it was laid, which counts as old' : `It was laid in ${found.layer.yearInstalled}`;
const unanswered = (lab: LabAnswer): boolean => lab === 'not-asked' || lab === 'sent';
const paintOpen = (facts: FloorFacts): boolean =>
  facts.circumstances.paintedTrim === 'to-be-disturbed' &&
  isLeadPresumed(facts.yearBuilt) &&
  facts.paintLab !== 'none-found' &&
  facts.paintLab !== 'found';

/** The rows, asbestos first. */
export const HAZARD_RULES: readonly Rule[] = [
  rule({
    id: 'asbestos-flooring',
    title: named,
    reads: `flooring, backing or adhesive laid in ${ASBESTOS_LAST_YEAR} or before, or nobody knows when; no laboratory answer`,
    verdict: 'hold',
    when: (facts) => layers(facts, (found) => found.presumed && unanswered(found.lab)),
    says: (found) =>
      `${age(found)}: it counts as asbestos until an accredited laboratory has answered. ${
        found.found.lab === 'sent'
          ? 'The sample is away; disturb nothing meanwhile.'
          : 'Disturb nothing; local rules say who may take the sample.'
      }`,
    holds: [...DISTURBING, 'pour'],
    lifts: (found) => `room.tests.laboratory.${found.key}`,
    source: FLOORING,
  }),
  rule({
    id: 'asbestos-answer-incomplete',
    title: named,
    reads: 'a laboratory found none, but its name, the sample or a date up to today is missing',
    verdict: 'hold',
    when: (facts) => layers(facts, (found) => found.presumed && found.lab === 'incomplete'),
    says: () => 'The answer does not count yet. Write the laboratory, the sample’s number and the date of the answer.',
    holds: [...DISTURBING, 'pour'],
    lifts: (found) => `room.tests.laboratory.${found.key}`,
    source: FLOORING,
  }),
  rule({
    id: 'asbestos-found-out',
    title: named,
    reads: 'a laboratory found asbestos in a layer that is to come out',
    verdict: 'hold',
    when: (facts) => layers(facts, (found) => found.lab === 'found' && found.layer.fate === 'remove'),
    says: () => 'Asbestos was found. Only licensed removers take it out, by local rules; the pour waits for their clearance.',
    holds: DISTURBING,
    lifts: (found) => `room.layers.${found.key}.fate`,
    source: '29 CFR 1926.1101; local licensing',
  }),
  rule({
    id: 'asbestos-found-stays',
    title: named,
    reads: 'a laboratory found asbestos in a layer that stays',
    verdict: 'hold',
    when: (facts) => layers(facts, (found) => found.lab === 'found' && found.layer.fate === 'keep'),
    says: () =>
      'Asbestos was found, and it stays: cover it whole, disturb nothing. Ask first whether local rules allow it, and tell the owner in writing.',
    holds: DISTURBING,
    lifts: (found) => `room.layers.${found.key}.fate`,
    source: '29 CFR 1926.1101; local rules',
  }),
  rule({
    id: 'asbestos-none',
    title: named,
    reads: 'a laboratory, named with sample and date, found no asbestos in a layer that was presumed',
    verdict: 'go',
    when: (facts) => layers(facts, (found) => found.presumed && found.lab === 'none-found'),
    says: () => 'The laboratory found no asbestos in its sample.',
    holds: [],
    lifts: (found) => `room.tests.laboratory.${found.key}`,
    source: FLOORING,
  }),
  rule({
    id: 'asbestos-later',
    title: named,
    reads: `flooring, backing or adhesive laid after ${ASBESTOS_LAST_YEAR}`,
    verdict: 'go',
    when: (facts) => layers(facts, (found) => isFlooringRuleMaterial(found.layer.material) && !found.presumed && found.lab !== 'found'),
    says: ({ found }) =>
      `Laid in ${found.layer.yearInstalled ?? ''}: not presumed to hold asbestos, which is no proof that it does not. In doubt, ask a laboratory.`,
    holds: [],
    lifts: (found) => `room.layers.${found.key}.yearInstalled`,
    source: FLOORING,
  }),
  rule({
    id: 'asbestos-coating',
    title: 'textured coating',
    reads: `a textured coating in a building of ${ASBESTOS_LAST_YEAR} or before, or of unknown year; no laboratory answer`,
    verdict: 'hold',
    when: (facts) => once(facts.coatingPresumed && facts.coatingLab !== 'none-found' && facts.coatingLab !== 'found'),
    says: (_, __, facts) =>
      `${facts.yearBuilt === null ? 'The year of the house is not known, which counts as old' : `The house is of ${facts.yearBuilt}`}: the coating counts as asbestos until a laboratory has answered. Leave it untouched.`,
    holds: ['scrape', 'sand', 'drill'],
    lifts: 'room.tests.laboratory',
    source: SURFACING,
  }),
  rule({
    id: 'asbestos-coating-found',
    title: 'textured coating',
    reads: 'a laboratory found asbestos in the coating',
    verdict: 'hold',
    when: (facts) => once(facts.circumstances.texturedCoating === true && facts.coatingLab === 'found'),
    says: () => 'Asbestos was found in the coating. Leave it untouched; only licensed removers take it off, by local rules.',
    holds: ['scrape', 'sand', 'drill'],
    lifts: 'room.circumstances.texturedCoating',
    source: '29 CFR 1926.1101; local licensing',
  }),
  rule({
    id: 'coating-not-looked',
    title: 'walls and ceiling',
    reads: `nobody has looked for a textured coating in a building of ${ASBESTOS_LAST_YEAR} or before, or of unknown year`,
    verdict: 'go-with-work',
    when: (facts) =>
      once(facts.circumstances.texturedCoating === null && (facts.yearBuilt === null || facts.yearBuilt <= ASBESTOS_LAST_YEAR)),
    says: () => 'Look whether there is a textured coating before anything is fixed to the walls. Write what you see.',
    holds: ['drill'],
    lifts: 'room.circumstances.texturedCoating',
    source: SURFACING,
  }),
  rule({
    id: 'lead-paint',
    title: 'paint on skirting and trim',
    reads: `more than 6 ft² of paint to be disturbed in a house built before ${LEAD_BEFORE_YEAR} or of unknown year; not tested`,
    verdict: 'hold',
    when: (facts) => once(paintOpen(facts) && !isMinorRepair(facts.circumstances.paintDisturbedM2)),
    says: (_, __, facts) =>
      `${facts.yearBuilt === null ? 'The year of the house is not known' : `The house is of ${facts.yearBuilt}`}: its paint counts as lead until tested. Leave it, or have it tested; certified renovators do the rest.`,
    holds: ['disturb-paint'],
    lifts: 'room.tests.laboratory',
    source: `${LEAD}.103: built before 1978; .83: minor repair`,
  }),
  rule({
    id: 'lead-minor',
    title: 'paint on skirting and trim',
    reads: `6 ft² of paint or less to be disturbed in a house built before ${LEAD_BEFORE_YEAR} or of unknown year; not tested`,
    verdict: 'go-with-work',
    when: (facts) => once(paintOpen(facts) && isMinorRepair(facts.circumstances.paintDisturbedM2)),
    says: (_, w, facts) =>
      `${w.area(facts.circumstances.paintDisturbedM2 ?? 0)} is minor repair: by hand, wet, no flame, no dry power sanding. Local rules may be stricter; keep children away.`,
    holds: [],
    lifts: 'room.circumstances.paintDisturbedM2',
    source: `${LEAD}.83: 6 ft² or less a room`,
  }),
  rule({
    id: 'lead-found',
    title: 'paint on skirting and trim',
    reads: 'lead was found in paint that is to be disturbed',
    verdict: 'hold',
    when: (facts) => once(facts.circumstances.paintedTrim === 'to-be-disturbed' && facts.paintLab === 'found'),
    says: () => 'Lead was found. Certified renovators do what disturbs it; otherwise leave it and cover it.',
    holds: ['disturb-paint'],
    lifts: 'room.circumstances.paintedTrim',
    source: `${LEAD}, subpart E`,
  }),
  rule({
    id: 'lead-untouched',
    title: 'paint on skirting and trim',
    reads: `painted trim stays untouched in a house built before ${LEAD_BEFORE_YEAR} or of unknown year`,
    verdict: 'go-with-work',
    when: (facts) =>
      once(facts.circumstances.paintedTrim === 'stays-untouched' && isLeadPresumed(facts.yearBuilt) && facts.paintLab !== 'none-found'),
    says: () => 'The paint counts as lead until tested. Cover it, and neither sand nor scrape it.',
    holds: ['disturb-paint'],
    lifts: 'room.tests.laboratory',
    source: `${LEAD}.103`,
  }),
  rule({
    id: 'lead-not-looked',
    title: 'skirting and trim',
    reads: `nobody has written whether painted trim is disturbed, in a house built before ${LEAD_BEFORE_YEAR} or of unknown year`,
    verdict: 'go-with-work',
    when: (facts) => once(facts.circumstances.paintedTrim === null && isLeadPresumed(facts.yearBuilt)),
    says: () => 'Look whether skirting and trim are painted, and whether the work will touch them. Until then leave the paint alone.',
    holds: ['disturb-paint'],
    lifts: 'room.circumstances.paintedTrim',
    source: `${LEAD}.103`,
  }),
];
