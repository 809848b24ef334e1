/** Rules about what the floor can carry and how it moves: weight, bounce, gaps, heating, and the product's own words. */
import type { Case, Rule } from './rule.ts';
import { once, rule } from './rule.ts';
import { DEFLECTION_SPAN_OVER } from './floor-bounce.ts';
import type { FloorFacts } from './floor-facts.ts';
import { bondClass, isWood, LAYER_WORDS } from './layer-words.ts';

const radiant = (facts: FloorFacts): 'none' | 'in-floor' | 'unknown' =>
  facts.layers.some((layer) => layer.material === 'radiant-heating' && layer.fate === 'keep')
    ? 'in-floor'
    : (facts.circumstances.radiantHeat ?? 'unknown');
const onWood = (facts: FloorFacts): boolean => facts.top !== null && isWood(facts.top.material);
const hasGypsum = (facts: FloorFacts): boolean => facts.top?.material === 'gypsum';
const isCement = (facts: FloorFacts): boolean => facts.product !== null && facts.product.kind !== 'calcium-sulfate';
const sheetNamesGypsum = (facts: FloorFacts): boolean => facts.product?.powder.bondsTo.includes('gypsum') === true;
const overAllowance = (facts: FloorFacts): boolean | null =>
  facts.addedLoadPa === null || facts.circumstances.allowedExtraLoadPa === null
    ? null
    : facts.addedLoadPa > facts.circumstances.allowedExtraLoadPa + 1e-6;
type BounceCase = Case & { readonly bounce: NonNullable<FloorFacts['bounce']> };
const bounce = (facts: FloorFacts, applies: (found: NonNullable<FloorFacts['bounce']>) => boolean): readonly BounceCase[] =>
  facts.bounce !== null && applies(facts.bounce) ? [{ testId: facts.bounce.test.id, bounce: facts.bounce }] : [];
const missingBond = (facts: FloorFacts): readonly (Case & { readonly ground: string })[] => {
  if (facts.top === null || facts.product === null || facts.product.powder.bondsTo.length === 0) return [];
  const ground = bondClass(facts.top.material);
  if (ground === null || ground === 'gypsum' || facts.product.powder.bondsTo.includes(ground)) return [];
  return [{ ground: LAYER_WORDS[facts.top.material] }];
};

/** The rows. */
export const STRUCTURE_RULES: readonly Rule[] = [
  rule({
    id: 'bounce-over',
    title: 'bouncy floor',
    reads: `joists bend by more than their span over ${DEFLECTION_SPAN_OVER} under the live load`,
    verdict: 'hold',
    when: (facts) => bounce(facts, ({ answer }) => !answer.withinLimit),
    says: ({ bounce: { answer } }, w) =>
      `It bends L/${w.number(Math.floor(answer.liveSpanOver))} under the live load; L/${DEFLECTION_SPAN_OVER} is the most. Ask a structural engineer before adding any weight.`,
    holds: ['pour'],
    lifts: 'room.tests.floor-bounce',
    source: 'IRC Table R301.7: L/360',
  }),
  rule({
    id: 'bounce-total',
    title: 'floor at its limit',
    reads: `with its own weight and the pour, joists bend by more than their span over ${DEFLECTION_SPAN_OVER}, live load alone less`,
    verdict: 'go-with-work',
    when: (facts) => bounce(facts, ({ answer }) => answer.withinLimit && !answer.totalWithinLimit),
    says: ({ bounce: { answer } }, w) =>
      `Stiff enough under live load, but with its own weight and the pour it bends L/${w.number(Math.floor(answer.totalSpanOver))}. This is no structural check: ask a structural engineer.`,
    holds: [],
    lifts: 'room.tests.floor-bounce',
    source: 'beam formula; IRC R502.3.1 assumes 10 or 20 psf of dead load',
  }),
  rule({
    id: 'bounce-within',
    title: 'boards and joists',
    reads: `joists bend by no more than their span over ${DEFLECTION_SPAN_OVER}, the pour included`,
    verdict: 'go',
    when: (facts) => bounce(facts, ({ answer }) => answer.withinLimit && answer.totalWithinLimit),
    says: ({ bounce: { answer } }, w) =>
      `Stiff: L/${w.number(Math.floor(answer.liveSpanOver))} under the live load, L/${w.number(Math.floor(answer.totalSpanOver))} with everything. Not a structural check.`,
    holds: [],
    lifts: 'room.tests.floor-bounce',
    source: 'IRC Table R301.7: L/360',
  }),
  rule({
    id: 'load-over',
    title: 'weight of the pour',
    reads: 'the pour adds more than a suspended floor may carry',
    verdict: 'hold',
    when: (facts) => once(facts.isSuspended && overAllowance(facts) === true),
    says: (_, w, facts) =>
      `The pour adds ${w.load(facts.addedLoadPa ?? 0)}; ${w.load(facts.circumstances.allowedExtraLoadPa ?? 0)} is allowed. Pour thinner, or ask a structural engineer.`,
    holds: ['pour'],
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'the allowance written for this floor',
  }),
  rule({
    id: 'load-within',
    title: 'weight of the pour',
    reads: 'the pour adds no more than a suspended floor may carry',
    verdict: 'go',
    when: (facts) => once(facts.isSuspended && overAllowance(facts) === false),
    says: (_, w, facts) =>
      `The pour adds ${w.load(facts.addedLoadPa ?? 0)} of the ${w.load(facts.circumstances.allowedExtraLoadPa ?? 0)} allowed.`,
    holds: [],
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'the allowance written for this floor',
  }),
  rule({
    id: 'load-unasked',
    title: 'what the floor may carry',
    reads: 'nobody has written what a suspended floor may carry on top',
    verdict: 'go-with-work',
    when: (facts) => once(facts.isSuspended && facts.circumstances.allowedExtraLoadPa === null),
    says: (_, w, facts) =>
      `${facts.addedLoadPa === null ? 'The pour adds weight' : `The pour adds ${w.load(facts.addedLoadPa)}`} to a suspended floor. Write how much it may carry; a structural engineer can say.`,
    holds: ['pour'],
    lifts: 'room.circumstances.allowedExtraLoadPa',
    source: 'IRC R502.3.1: joist tables assume 10 or 20 psf of dead load, second-hand',
  }),
  rule({
    id: 'wood-no-gap',
    title: 'no room to move',
    reads: 'poured on timber that has no gap at the walls',
    verdict: 'go-with-work',
    when: (facts) => once(onWood(facts) && facts.circumstances.movementGap === 'absent'),
    says: () =>
      'Timber swells and shrinks with the seasons. Cut it free of the walls, set a strip all round, and reinforce as the sheet says.',
    holds: [],
    lifts: 'room.circumstances.movementGap',
    source: 'common practice; the product’s sheet',
  }),
  rule({
    id: 'wood-gap-unknown',
    title: 'room to move',
    reads: 'poured on timber, and nobody has looked for a gap at the walls',
    verdict: 'go-with-work',
    when: (facts) => once(onWood(facts) && (facts.circumstances.movementGap === null || facts.circumstances.movementGap === 'unknown')),
    says: () => 'Lift a piece of skirting and look whether the boards stop short of the wall. Write what you see; the pour waits for it.',
    holds: ['pour'],
    lifts: 'room.circumstances.movementGap',
    source: 'common practice',
  }),
  rule({
    id: 'gypsum-under-cement',
    title: 'gypsum under cement',
    reads: 'a cement product on gypsum, and its sheet does not name gypsum',
    verdict: 'hold',
    when: (facts) => once(hasGypsum(facts) && isCement(facts) && !sheetNamesGypsum(facts)),
    says: () =>
      'Wet cement on gypsum grows crystals that lift the floor off. Choose a product whose sheet names gypsum, or take the gypsum out.',
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'common practice',
  }),
  rule({
    id: 'gypsum-named',
    title: 'gypsum below',
    reads: 'poured on gypsum with a product that is calcium sulfate, or whose sheet names gypsum',
    verdict: 'go-with-work',
    when: (facts) => once(hasGypsum(facts) && facts.product !== null && (!isCement(facts) || sheetNamesGypsum(facts))),
    says: () => 'Sand off the skin of the gypsum and prime exactly as the sheet says for gypsum. The gypsum must be dry first.',
    holds: [],
    lifts: 'jobRoom.materialId',
    source: 'the product’s sheet; common practice',
  }),
  rule({
    id: 'gypsum-no-product',
    title: 'gypsum below',
    reads: 'poured on gypsum, and no product is chosen',
    verdict: 'go-with-work',
    when: (facts) => once(hasGypsum(facts) && facts.product === null),
    says: () => 'Not every product may lie on gypsum. Choose one whose sheet names it.',
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'common practice',
  }),
  rule({
    id: 'bond-not-named',
    title: 'product and floor',
    reads: 'the product’s sheet lists what it bonds to, and this floor is not among it',
    verdict: 'hold',
    when: missingBond,
    says: (found) => `The sheet does not name ${found.ground}. Choose a product that does, or have its maker say so in writing.`,
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'the product’s sheet',
  }),
  rule({
    id: 'not-a-wearing-floor',
    title: 'left bare',
    reads: 'the floor is left bare, and the product is no wearing surface',
    verdict: 'hold',
    when: (facts) => once(facts.flooring === 'bare-sealed' && facts.product !== null && !facts.product.powder.wearsBare),
    says: () => 'This product is made to be covered and wears off under feet. Choose a topping, or a covering.',
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'the product’s sheet; EN 13813 wants a wear class for a walking surface',
  }),
  rule({
    id: 'product-weak',
    title: 'strength for the covering',
    reads: 'the product’s strength is under what the covering asks',
    verdict: 'hold',
    when: (facts) => {
      const strength = facts.product?.powder.strengthPa ?? null;
      const asked = facts.demand?.strengthPa ?? null;
      return strength !== null && asked !== null && strength.value < asked.value * (1 - 1e-9) ? [{ has: strength.value, asked }] : [];
    },
    says: (found: Case & { readonly has: number; readonly asked: { readonly value: number } }, w, facts) =>
      `The sheet gives ${w.strength(found.has)}; ${facts.demand?.name ?? 'the covering'} asks ${w.strength(found.asked.value)}. Choose a stronger product.`,
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'DIN 18560-3 (C20); ASTM F710 (3000 psi, from memory)',
  }),
  rule({
    id: 'radiant-heat',
    title: 'heating in the floor',
    reads: 'there is heating in the floor',
    verdict: 'go-with-work',
    when: (facts) => once(radiant(facts) === 'in-floor'),
    says: () =>
      'Neither drill nor grind: pipes or wires lie close. Switch it off in time for the floor to cool, and warm it again in steps as the sheet says.',
    holds: ['drill', 'grind'],
    lifts: 'room.circumstances.radiantHeat',
    source: 'common practice; the product’s sheet',
  }),
  rule({
    id: 'radiant-unknown',
    title: 'heating in the floor?',
    reads: 'nobody has written whether there is heating in the floor',
    verdict: 'go-with-work',
    when: (facts) => once(radiant(facts) === 'unknown'),
    says: () => 'Ask the owner and look for a manifold or a thermostat. Until then neither drill nor grind.',
    holds: ['drill', 'grind'],
    lifts: 'room.circumstances.radiantHeat',
    source: 'common practice',
  }),
];
