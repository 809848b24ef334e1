/** Rules about the structure: stiffness, weight, and signs of trouble. None is a structural check. */
import type { StructureSign } from '../book/layer.ts';
import type { FloorFacts } from './floor-facts.ts';
import { DEFLECTION_SPAN_OVER } from './floor-deflection.ts';
import { isSteelDeck } from './layer-words.ts';
import { PRODUCT_RULES } from './rules-product.ts';
import { type Case, once, type Rule, rule } from './rule.ts';
import type { Wording } from './wording.ts';

/** Dead load assumed by the joist tables of the IRC: 10 psf. IRC R502.3.1, second-hand. */
export const TABLE_DEAD_LOAD_PA = 478.8;

/** Names of the signs, within a sentence. */
export const SIGN_WORDS: Readonly<Record<StructureSign, string>> = {
  'cut-joist': 'a notched or bored joist',
  rot: 'rot or insect damage',
  sag: 'a sag over 1/2 in. in 8 ft',
  'stepped-crack': 'a crack over 1/8 in. wide or with a step',
  heave: 'slab heave or a void under the slab',
  'heavy-fixture': 'a heavy tub, island or tank above',
};

/** The load that the pour adds at its deepest, as the start of a sentence. A guess is told from readings. */
const addsWords = ({ addedLoadPa, depth }: FloorFacts, w: Wording): string =>
  `${depth?.isBallpark === true ? 'By the ballpark, at' : 'At'} its deepest the pour adds ${w.load(addedLoadPa ?? 0)}`;

/** A sentence on the load that the pour adds to a suspended floor. Removed layers are deducted where they were measured. */
function addedWords(facts: FloorFacts, w: Wording): string {
  const { addedLoadPa } = facts;
  if (addedLoadPa === null) return 'The pour adds weight to a suspended floor.';
  if (addedLoadPa <= 0) return 'At typical densities the pour weighs no more than what is removed.';
  return `${addsWords(facts, w)} to a suspended floor.`;
}

const overAllowance = (facts: FloorFacts): boolean | null =>
  facts.addedLoadPa === null || facts.circumstances.allowedExtraLoadPa === null
    ? null
    : facts.addedLoadPa > facts.circumstances.allowedExtraLoadPa + 1e-6;
const isNamed = (facts: FloorFacts): boolean => facts.circumstances.loadStatedBy.trim() !== '';
const spanOver = (facts: FloorFacts): number => facts.demand?.spanOver ?? DEFLECTION_SPAN_OVER;
type SignCase = Case & { readonly sign: StructureSign };
type DeflectionCase = Case & { readonly deflection: NonNullable<FloorFacts['deflection']>; readonly over: number };
const deflection = (facts: FloorFacts, applies: (live: number, total: number, over: number) => boolean): readonly DeflectionCase[] => {
  const over = spanOver(facts);
  const match = facts.deflection;
  return match !== null && applies(match.answer.liveSpanOver + 1e-6, match.answer.totalSpanOver + 1e-6, over)
    ? [{ testId: match.test.id, deflection: match, over }]
    : [];
};

const STIFFNESS: readonly Rule[] = [
  rule({
    id: 'deflection-over',
    title: 'joist deflection',
    reads: 'joists deflect more than the limit for the flooring under live load: L/360, L/720 for stone',
    verdict: 'hold',
    // With the limit in the key, a letter for one flooring clears nothing under a stricter one.
    when: (facts) => deflection(facts, (live, _, over) => live < over).map((match) => ({ ...match, key: `L/${match.over}` })),
    text: ({ deflection: { answer }, over }, w, facts) =>
      `Deflection is L/${w.number(Math.floor(answer.liveSpanOver))} under live load. The limit for ${facts.demand?.name ?? 'flooring'} is L/${over}. ${
        answer.liveSpanOver < DEFLECTION_SPAN_OVER
          ? 'Ask a structural engineer before adding any weight.'
          : 'Choose other flooring, or have a structural engineer say how to stiffen the floor.'
      }`,
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.tests.floor-deflection',
    source: 'IRC Table R301.7: L/360; stone L/720 by trade practice',
  }),
  rule({
    id: 'deflection-total',
    title: 'joist deflection with the pour',
    reads: 'joists within the limit under live load, but over it with their own weight and the pour',
    when: (facts) => deflection(facts, (live, total, over) => live >= over && total < over),
    text: ({ deflection: { answer }, over }, w) =>
      `Deflection is within L/${over} under live load, and L/${w.number(Math.floor(answer.totalSpanOver))} with all weight. The code limit is for live load. Ask a structural engineer if in doubt.`,
    lifts: 'room.tests.floor-deflection',
    source: 'beam formula; IRC R301.7 limits live load only',
  }),
  rule({
    id: 'deflection-within',
    title: 'joist deflection',
    reads: 'joists within the limit, the pour included',
    verdict: 'go',
    when: (facts) => deflection(facts, (live, total, over) => live >= over && total >= over),
    text: ({ deflection: { answer } }, w) =>
      `Computed deflection is L/${w.number(Math.floor(answer.liveSpanOver))} under live load, L/${w.number(Math.floor(answer.totalSpanOver))} with all weight. This is not a structural check: the subfloor between joists counts too.`,
    lifts: 'room.tests.floor-deflection',
    source: 'IRC Table R301.7: L/360; beam formula from the figures entered',
  }),
];

const LOAD: readonly Rule[] = [
  rule({
    id: 'steel-deck',
    title: 'steel deck',
    reads: 'a steel deck carries the floor, alone or on steel framing, with no concrete on it',
    verdict: 'hold',
    when: (facts) => once(isSteelDeck(facts.kept)),
    text: (_, w, facts) =>
      `A steel deck bends between its supports, and its stiffness is not computed here. Have a structural engineer say from the structural drawings whether it meets L/${w.number(spanOver(facts))} with the pour on it, and record the letter.`,
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.layers',
    source: 'common practice',
  }),
  rule({
    id: 'load-over',
    title: 'weight of the pour',
    reads: 'the pour at its deepest adds more than a suspended floor may carry',
    verdict: 'hold',
    when: (facts) => once(facts.isSuspended && overAllowance(facts) === true),
    text: (_, w, facts) =>
      `${addsWords(facts, w)}. The allowance is ${w.load(facts.circumstances.allowedExtraLoadPa ?? 0)}. Pour thinner, or record a structural engineer’s letter.`,
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'the allowance entered for this floor',
  }),
  rule({
    id: 'load-within',
    title: 'weight of the pour',
    reads: 'the pour adds no more than a suspended floor may carry, and the source of the allowance is recorded',
    verdict: 'go',
    when: (facts) => once(facts.isSuspended && overAllowance(facts) === false && isNamed(facts)),
    text: (_, w, facts) =>
      `${addsWords(facts, w)} of ${w.load(facts.circumstances.allowedExtraLoadPa ?? 0)} allowed by ${facts.circumstances.loadStatedBy.trim().slice(0, 60)}.`,
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'the allowance entered for this floor',
  }),
  rule({
    id: 'load-unnamed',
    title: 'who stated the load allowance',
    reads: 'an allowance is entered without who stated it',
    when: (facts) =>
      once(facts.isSuspended && facts.circumstances.allowedExtraLoadPa !== null && overAllowance(facts) !== true && !isNamed(facts)),
    text: () =>
      'A load allowance counts only with its source. Enter who stated it and in which document: an engineer’s letter, or the plans.',
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.circumstances.loadStatedBy',
    source: 'common practice',
  }),
  rule({
    id: 'load-unasked',
    title: 'load allowance',
    reads: 'no load allowance entered for a suspended floor, wood without a slab included; the pour adds up to 10 psf',
    when: (facts) =>
      once(facts.isSuspended && facts.circumstances.allowedExtraLoadPa === null && (facts.addedLoadPa ?? 0) <= TABLE_DEAD_LOAD_PA),
    text: (_, w, facts) => `${addedWords(facts, w)} Enter its allowance and who stated it. A structural engineer can tell you.`,
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'IRC R502.3.1: joist tables assume 10 or 20 psf of dead load' /* second-hand */,
  }),
  rule({
    id: 'load-heavy',
    title: 'weight of the pour',
    reads: 'no load allowance entered for a suspended floor, and the pour adds more than 10 psf at its deepest',
    verdict: 'hold',
    when: (facts) =>
      once(facts.isSuspended && facts.circumstances.allowedExtraLoadPa === null && (facts.addedLoadPa ?? 0) > TABLE_DEAD_LOAD_PA),
    text: (_, w, facts) =>
      `${addsWords(facts, w)}. ${
        facts.isWoodFramed
          ? `Joist tables assume ${w.load(TABLE_DEAD_LOAD_PA)} in total.`
          : `What this ${isSteelDeck(facts.kept) ? 'deck' : 'slab'} may carry is unknown.`
      } Ask a structural engineer and record the letter.`,
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'IRC R502.3.1: joist tables assume 10 or 20 psf of dead load' /* second-hand */,
  }),
  rule({
    id: 'structure-sign',
    title: ({ sign }: SignCase) => SIGN_WORDS[sign],
    reads: 'a notched or rotten joist, a sag, a stepped crack, heave, or a heavy fixture is recorded',
    verdict: 'hold',
    when: (facts) => (facts.circumstances.structureSigns ?? []).map((sign) => ({ key: sign, sign })),
    text: () => 'This is a sign of structural trouble. Ask a structural engineer before the pour and record the letter.',
    holds: ['pour'],
    clearedBy: 'engineer-letter',
    lifts: 'room.circumstances.structureSigns',
    source: 'common practice; IRC R502.8 on notches and holes',
  }),
  rule({
    id: 'structure-unchecked',
    title: 'structure not checked',
    reads: 'a suspended floor whose structure was not checked for signs of trouble',
    when: (facts) => once(facts.isSuspended && facts.circumstances.structureSigns === null),
    text: () => 'Look for notched or rotten joists, sags, and heavy fixtures, from below where you can. Record what you see.',
    holds: ['pour'],
    lifts: 'room.circumstances.structureSigns',
    source: 'common practice',
  }),
];

/** The rows. */
export const STRUCTURE_RULES: readonly Rule[] = [...STIFFNESS, ...LOAD, ...PRODUCT_RULES];
