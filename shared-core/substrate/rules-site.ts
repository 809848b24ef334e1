/** Rules about the site and the day: slopes and drains, doors and stairs, and missing tests, with the ambient conditions of their own file. */
import type { Opening } from '../book/plan-fields.ts';
import { INCH_M } from '../measure/length-units.ts';
import { isExterior, openingName } from '../plan/openings.ts';
import { BEVEL_MOST_M, STEP_MOST_M, STEP_SOURCE, stepNeed } from './door-step.ts';
import { type FloorFacts, hasDrain, hasSlabDucts } from './floor-facts.ts';
import { AIR_RULES } from './rules-air.ts';
import { mayHitHeat } from './radiant.ts';
import type { Case, Rule } from './rule.ts';
import { once, rule } from './rule.ts';
import { isVehicleDoor, type SlopeToDrain, slopeToDrain } from './slope-to-drain.ts';
import type { TestNeed } from './test-needs.ts';
import type { Wording } from './wording.ts';

/** Maximum difference between risers of one flight: 3/8 in. IBC and IRC R311.7.5.1, second-hand. */
export const RISER_DIFFERENCE_M = 0.375 * INCH_M;

type OpeningCase = Case & { readonly key: string; readonly opening: Opening };
type NeedCase = Case & { readonly key: string; readonly need: TestNeed };

const openings = (facts: FloorFacts, applies: (opening: Opening) => boolean): readonly OpeningCase[] =>
  facts.openings.filter(applies).map((opening) => ({ key: opening.id, opening }));
const called = ({ opening }: OpeningCase): string => openingName(opening);
const stepOver = (facts: FloorFacts, opening: Opening): number | null =>
  opening.adjoiningM === null ? null : (facts.doorSteps[opening.id] ?? null);
const needs = (facts: FloorFacts, applies: (need: TestNeed) => boolean): readonly NeedCase[] =>
  facts.needs.filter(applies).map((need) => ({ key: need.id, need }));
/** Where a number of tests is counted over several rooms: ` over the 2 rooms on this slab, 1 more in this room`; empty where it is not. */
const onSlab = (need: TestNeed, w: Wording): string =>
  need.rooms === 1 ? '' : ` over the ${w.number(need.rooms)} rooms on this slab, ${w.number(need.toMake)} more in this room`;

/** Whether slab moisture is still to be tested, in holes or on a ground patch. */
const needsHoles = (facts: FloorFacts): boolean => facts.needs.some((need) => need.id === 'slab-moisture' && need.state !== 'enough');

/** What is wrong with a finish that does not run to the drain, and what to do. */
const STANDING_WATER: Readonly<Partial<Record<SlopeToDrain, string>>> = {
  level:
    'A level floor would hold water. Follow the floor or use a ramp to keep the slope to the drain or the vehicle door, as local code asks.',
  'ramp-level':
    'The ramp has no slope, so the floor would hold water. Enter an elevation at both ends, the lower one at the drain or the vehicle door.',
  'ramp-past': 'The low end of the ramp is not at the drain, so water would pool there. Put the low end at the drain, or follow the floor.',
};
/** What a finish that runs to the drain does with the slope. */
const KEPT: Readonly<Partial<Record<SlopeToDrain, string>>> = {
  follow: 'The slope stays.',
  'ramp-to': 'The ramp makes a new slope to the drain. Check that it is as steep as the local plumbing code asks.',
  'ramp-drain-not-drawn':
    'The ramp makes a new slope. Its low end must be at the vehicle door, or at the drain, which is not drawn on the plan. Check that it is as steep as local code asks.',
};
type SlopeCase = Case & { readonly slope: SlopeToDrain };
const slopes = (facts: FloorFacts, words: Readonly<Partial<Record<SlopeToDrain, string>>>): readonly SlopeCase[] => {
  const slope = slopeToDrain(facts);
  return facts.circumstances.slopeToDrain === true && words[slope] !== undefined ? [{ slope }] : [];
};

const SLOPE_AND_EDGES: readonly Rule[] = [
  rule({
    id: 'fall-leveled',
    title: 'slope to drain',
    reads:
      'the floor slopes to a drain or a vehicle door, and the pour is to be level, or a ramp without a slope or with its low end away from the drain',
    verdict: 'hold',
    when: (facts) => slopes(facts, STANDING_WATER),
    text: ({ slope }) => STANDING_WATER[slope] ?? '',
    holds: ['pour'],
    lifts: 'jobRoom.level.mode',
    source: 'common practice; plumbing codes on drains; IRC R309.1 on garages' /* from memory */,
  }),
  rule({
    id: 'fall-kept',
    title: 'slope to drain',
    reads: 'the floor slopes to a drain or a vehicle door, and the pour follows it or makes a ramp to it',
    when: (facts) => slopes(facts, KEPT),
    text: ({ slope }) => `${KEPT[slope] ?? ''} Dam the drain and place the mix by hand: a flowing product does not hold a steep slope.`,
    lifts: 'jobRoom.level.mode',
    source: 'common practice',
  }),
  rule({
    id: 'drain-unasked',
    title: 'slope to drain not checked',
    reads: 'a drain is drawn or recorded as a fixture, or a door is wide enough for vehicles; slope to it not recorded',
    when: (facts) => once(facts.circumstances.slopeToDrain === null && (hasDrain(facts) || facts.openings.some(isVehicleDoor))),
    text: () =>
      'Check the slope with a level or a ball, not with water. Record whether the floor must keep its slope to the drain or the vehicle door.',
    holds: ['pour'],
    lifts: 'room.circumstances.slopeToDrain',
    source: 'common practice',
  }),
  rule({
    id: 'vehicle-door',
    title: called,
    reads: 'an exterior door 7 ft wide or wider',
    when: (facts) => openings(facts, isVehicleDoor),
    text: () =>
      'If vehicles park here, local code may ask for a slope to this door or a drain. They go on the new floor only if its data sheet allows vehicles.',
    lifts: 'room.circumstances.slopeToDrain',
    source: 'IRC R309.1; local code; the data sheet' /* from memory */,
  }),
  rule({
    id: 'outside-door-low',
    title: called,
    reads: 'the new floor, its flooring included, would be higher than the sill of an exterior door',
    verdict: 'hold',
    when: (facts) => openings(facts, (opening) => isExterior(opening) && (stepOver(facts, opening) ?? 0) > 1e-9),
    text: (match, w, facts) =>
      `The new floor would be ${w.depth(stepOver(facts, match.opening) ?? 0)} above the sill. Rain could come in, and the door could bind. Make the new floor lower, or raise the door first.`,
    holds: ['pour'],
    lifts: 'jobRoom.level.levelM',
    source: 'common practice',
  }),
  rule({
    id: 'outside-door',
    title: called,
    reads: 'an exterior door whose sill is not lower than the new floor, or not measured',
    when: (facts) => openings(facts, (opening) => isExterior(opening) && (stepOver(facts, opening) ?? 0) <= 1e-9),
    text: (match) =>
      match.opening.adjoiningM === null
        ? 'Measure the sill. The new floor must stay below it. Check door swing and weatherstrip, and dam the door.'
        : 'Check door swing, weatherstrip and the step at the threshold, then dam the door before the pour.',
    lifts: (match) => `room.plan.openings.${match.key}.adjoiningM`,
    source: 'common practice; IRC R311.3.1: threshold up to 1-1/2 in.' /* second-hand */,
  }),
  rule({
    id: 'threshold-step',
    title: called,
    reads: 'the new floor, its flooring included, would be more than 1/4 in. above or below the adjoining floor',
    when: (facts) => openings(facts, (opening) => !isExterior(opening) && stepNeed(stepOver(facts, opening) ?? 0) !== 'none'),
    text: (match, w, facts) => {
      const stepM = Math.abs(stepOver(facts, match.opening) ?? 0);
      const need = stepNeed(stepM);
      return need === 'reducer' || need === 'ramp'
        ? `The step to the adjoining floor is ${w.depthOver(stepM, BEVEL_MOST_M)}, too high for a transition. Plan a ramp, ${need === 'ramp' ? 'a step that local code allows,' : 'a threshold reducer,'} or another finish elevation. On a public route only a ramp will do, no steeper than 1:12. Agree on it before the quote.`
        : `The step to the adjoining floor is ${w.depthOver(stepM, STEP_MOST_M)}. Use a transition, a patch feathered by hand, or another finish elevation. Agree on it before the quote.`;
    },
    lifts: 'jobRoom.level.levelM',
    source: STEP_SOURCE,
  }),
  rule({
    id: 'threshold-unmeasured',
    title: called,
    reads: 'the height of the adjoining floor is not measured',
    when: (facts) => openings(facts, (opening) => !isExterior(opening) && opening.adjoiningM === null),
    text: () => 'Measure the height of the adjoining floor. The step at this doorway is unknown.',
    lifts: (match) => `room.plan.openings.${match.key}.adjoiningM`,
    source: 'common practice',
  }),
  rule({
    id: 'stair-riser',
    title: 'stair riser',
    reads: 'a stair begins or ends in the room',
    when: (facts) => once(facts.hasStair),
    text: (_, w, facts) =>
      `${
        facts.depth === null
          ? 'The pour changes the riser at this floor'
          : `The pour changes the riser at this floor by up to ${w.depth(facts.depth.mostM)}`
      }. Risers of one flight may differ by ${w.depth(RISER_DIFFERENCE_M)}. Measure them all, flooring included, before the quote.`,
    lifts: 'room.plan.holes',
    source: 'IRC R311.7.5.1; local code' /* second-hand */,
  }),
  rule({
    id: 'slab-ducts',
    title: 'ducts in the slab',
    reads: 'a floor register in a slab on grade',
    when: (facts) => once(hasSlabDucts(facts)),
    text: () =>
      'Air ducts run in this slab. Locate them before any drilling, look inside for water, and dam every register before the pour.',
    lifts: 'room.circumstances.fixtures',
    source: 'common practice',
  }),
  rule({
    id: 'gas-appliance',
    title: 'gas appliance',
    reads: 'a pilot light, an unvented heater, or a gas appliance on the floor',
    when: (facts) => once(facts.circumstances.gasAppliance === true),
    text: () =>
      'Have pilots and unvented heaters shut off before dust or primer. Equipment on the floor is moved or dammed around. A licensed trade does the gas work.',
    lifts: 'room.circumstances.gasAppliance',
    source: 'common practice; local fuel gas code',
  }),
  rule({
    id: 'gas-not-looked',
    title: 'gas appliances not checked',
    reads: 'pilot lights, unvented heaters and gas appliances on the floor not checked',
    when: (facts) => once(facts.circumstances.gasAppliance === null),
    text: () => 'Check for pilot lights, unvented heaters and gas appliances on the floor before dust or primer. Record what you see.',
    holds: ['pour'],
    lifts: 'room.circumstances.gasAppliance',
    source: 'common practice; local fuel gas code',
  }),
];

const MISSING: readonly Rule[] = [
  rule({
    id: 'air-on-the-day',
    title: 'ambient conditions on the day',
    reads: 'air and floor not measured within 12 hours',
    when: (facts) => needs(facts, (need) => need.onTheDay && need.state !== 'enough'),
    text: () => 'Measure air temperature, floor temperature and humidity on the day of the pour.',
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'the data sheet; common practice',
  }),
  rule(
    {
      id: 'test-missing',
      title: ({ need }: NeedCase) => need.what,
      reads: 'a needed test is missing or stale',
      verdict: 'hold',
      when: (facts) => needs(facts, (need) => !need.onTheDay && (need.state === 'missing' || need.state === 'stale')),
      text: ({ need }, w) =>
        need.state === 'stale'
          ? 'The last test is too old. Test again.'
          : need.refused.length > 0
            ? `No test counts yet. ${need.refused[0]?.why ?? ''}`
            : `Not tested yet. ${need.wanted === 1 ? 'One test is needed.' : `${w.number(need.wanted)} readings are needed${onSlab(need, w)}.`}`,
      holds: ['pour'],
      lifts: ({ need }) => need.lifts,
      source: ({ need }) => need.source,
    },
    'the test’s own standard; age of a test, common practice',
  ),
  rule(
    {
      id: 'moisture-few',
      title: ({ need }: NeedCase) => need.what,
      reads: 'fewer slab moisture tests by one method than it needs: three in the first 1,000 sq ft',
      verdict: 'hold',
      when: (facts) => needs(facts, (need) => need.state === 'few' && need.id === 'slab-moisture'),
      text: ({ need }, w) =>
        `${w.number(need.have)} of ${w.number(need.wanted)} tests done by one method${onSlab(need, w)}. Each method requires the full number. Do the rest.`,
      holds: ['pour'],
      lifts: ({ need }) => need.lifts,
      source: ({ need }) => need.source,
    },
    'ASTM F2170 and F1869: three in the first 1,000 sq ft',
  ),
  rule(
    {
      id: 'test-few',
      title: ({ need }: NeedCase) => need.what,
      reads: 'fewer readings than the size of the floor needs',
      when: (facts) => needs(facts, (need) => need.state === 'few' && need.id !== 'slab-moisture'),
      text: ({ need }, w) =>
        `${w.number(need.have)} of ${w.number(need.wanted)} readings taken. Take the rest: the wettest or weakest place decides.`,
      lifts: ({ need }) => need.lifts,
      source: ({ need }) => need.source,
    },
    'the test’s own standard',
  ),
  rule({
    id: 'holes-in-hazard',
    title: 'test holes in this slab',
    reads: 'slab moisture needs holes or grinding, while asbestos or lead in the floor holds grinding',
    when: (facts, hazards) =>
      once(needsHoles(facts) && hazards.some(({ verdict, holds }) => verdict === 'hold' && holds.includes('grind'))),
    text: () =>
      'Moisture tests need holes or a ground patch. Clear the asbestos or lead hold first, then drill with a shroud and a HEPA vacuum.',
    holds: ['drill', 'grind'],
    lifts: 'room.tests.lab',
    source: 'ASTM F2170 clause 7.1; 29 CFR 1926.1153 Table 1 (vii)',
  }),
  rule({
    id: 'holes-over-heat',
    title: 'test holes over radiant heat',
    reads: 'slab moisture needs holes, and there is radiant heat in or on the slab, or it is not recorded',
    when: (facts) => once(needsHoles(facts) && mayHitHeat(facts)),
    text: () =>
      'Tubes or cables may be where a moisture test needs a hole. Locate them with a thermal camera and mark them before any hole.',
    holds: ['drill', 'grind'],
    lifts: 'room.circumstances.radiantHeat',
    source: 'common practice',
  }),
  rule({
    id: 'no-flooring',
    title: 'flooring',
    reads: 'no flooring is chosen',
    when: (facts) => once(facts.flooring === null),
    text: () => 'The flooring decides how flat and how dry the floor must be. Choose it.',
    holds: ['pour'],
    lifts: 'jobRoom.flooring',
    source: 'common practice',
  }),
  rule({
    id: 'no-outline',
    title: 'size of the room',
    reads: 'the room is not drawn',
    verdict: 'hold',
    when: (facts) => once(facts.areaM2 === null),
    text: () => 'Draw the room. Tests, bags and isolation strip depend on its size.',
    holds: ['pour'],
    lifts: 'room.plan.outline',
    source: 'common practice',
  }),
];

/** The rows. */
export const SITE_RULES: readonly Rule[] = [...SLOPE_AND_EDGES, ...AIR_RULES, ...MISSING];
