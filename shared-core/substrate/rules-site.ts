/** Rules about the room and the day: falls and drains, doors, air and temperatures, and tests still wanting. */
import type { Opening } from '../book/plan-fields.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { AirFacts, FloorFacts } from './floor-facts.ts';
import type { Case, Rule } from './rule.ts';
import { once, rule } from './rule.ts';
import type { TestNeed } from './test-needs.ts';

/** Evaporation limits, kg/m²/h: caution, and definite action. FHWA-HRT-05-038 chapter 5, after figure 1 of ACI 308. */
export const EVAPORATION_LIMIT = { cautionKgM2H: 0.5, actionKgM2H: 1 } as const;
/** Temperatures of air and floor where the product's sheet is not chosen yet. Typical: 50 to 90 °F. */
export const TYPICAL_WINDOW_C = { least: 10, most: 32 } as const;
/** A step people do not trip over: 1/4 in. ADA Standards 303.2, from memory. */
export const STEP_MOST_M = INCH_M / 4;

type OpeningCase = Case & { readonly key: string; readonly opening: Opening };
type AirCase = Case & { readonly air: AirFacts };
type NeedCase = Case & { readonly key: string; readonly need: TestNeed };

const openings = (facts: FloorFacts, applies: (opening: Opening) => boolean): readonly OpeningCase[] =>
  facts.openings.filter(applies).map((opening) => ({ key: opening.id, opening }));
const outside = (opening: Opening): boolean => opening.kind === 'exterior-door' || opening.kind === 'sliding-door';
const called = ({ opening }: OpeningCase): string => (opening.name.trim() === '' ? opening.kind.replace('-', ' ') : opening.name.trim());
const stepOver = (facts: FloorFacts, opening: Opening): number | null =>
  facts.finishedLevelM === null || opening.adjoiningM === null ? null : facts.finishedLevelM - opening.adjoiningM;
const air = (facts: FloorFacts, applies: (air: AirFacts) => boolean): readonly AirCase[] =>
  facts.air !== null && applies(facts.air) ? [{ testId: facts.air.test.id, air: facts.air }] : [];
const needs = (facts: FloorFacts, applies: (need: TestNeed) => boolean): readonly NeedCase[] =>
  facts.needs.filter(applies).map((need) => ({ key: need.id, need }));
const window = (facts: FloorFacts): { readonly least: number; readonly most: number } =>
  facts.product?.powder.roomTempC.value ?? TYPICAL_WINDOW_C;
const temps = ({ test }: AirFacts): readonly number[] =>
  test.surfaceTempC === null ? [test.airTempC] : [test.airTempC, test.surfaceTempC];

/** The rows. */
export const SITE_RULES: readonly Rule[] = [
  rule({
    id: 'fall-leveled',
    title: 'fall to a drain',
    reads: 'the floor falls to a drain, and the pour is to be level',
    verdict: 'hold',
    when: (facts) => once(facts.circumstances.slopeToDrain === true && facts.levelMode === 'level'),
    says: () => 'A level pour would leave water standing. Follow the floor or set a ramp, so that the fall stays.',
    holds: ['pour'],
    lifts: 'jobRoom.level.mode',
    source: 'common practice; plumbing codes on drains',
  }),
  rule({
    id: 'fall-kept',
    title: 'fall to a drain',
    reads: 'the floor falls to a drain, and the pour follows it or makes a ramp',
    verdict: 'go-with-work',
    when: (facts) => once(facts.circumstances.slopeToDrain === true && facts.levelMode !== 'level'),
    says: () => 'The fall stays. Dam the drain, and spread by hand: a flowing product leaves no steep fall.',
    holds: [],
    lifts: 'jobRoom.level.mode',
    source: 'common practice',
  }),
  rule({
    id: 'drain-unasked',
    title: 'drain',
    reads: 'a drain is drawn, and nobody has written whether the floor falls to it',
    verdict: 'go-with-work',
    when: (facts) =>
      once(facts.circumstances.slopeToDrain === null && (facts.hasDrain || facts.marks.some((mark) => mark.kind === 'drain'))),
    says: () => 'Pour water on the floor and see where it runs. Write whether it must go on falling to the drain.',
    holds: ['pour'],
    lifts: 'room.circumstances.slopeToDrain',
    source: 'common practice',
  }),
  rule({
    id: 'outside-door-low',
    title: called,
    reads: 'the new floor would stand higher than the sill of a door to the outside',
    verdict: 'hold',
    when: (facts) => openings(facts, (opening) => outside(opening) && (stepOver(facts, opening) ?? 0) > 1e-9),
    says: (found, w, facts) =>
      `The new floor would stand ${w.depth(stepOver(facts, found.opening) ?? 0)} over its sill: rain comes in and the door binds. Lower the level, or raise the door first.`,
    holds: ['pour'],
    lifts: 'jobRoom.level.levelM',
    source: 'common practice',
  }),
  rule({
    id: 'outside-door',
    title: called,
    reads: 'a door to the outside whose sill is not lower than the new floor, or not measured',
    verdict: 'go-with-work',
    when: (facts) => openings(facts, (opening) => outside(opening) && (stepOver(facts, opening) ?? 0) <= 1e-9),
    says: (found) =>
      found.opening.adjoiningM === null
        ? 'Measure its sill: the new floor must stay under it. See that the door still swings, and dam it.'
        : 'See that it still swings and sheds rain, and dam it tight before the pour.',
    holds: [],
    lifts: (found) => `room.plan.openings.${found.key}.adjoiningM`,
    source: 'common practice',
  }),
  rule({
    id: 'threshold-step',
    title: called,
    reads: 'the new floor would stand more than 1/4 in over or under the floor next door',
    verdict: 'go-with-work',
    when: (facts) => openings(facts, (opening) => !outside(opening) && Math.abs(stepOver(facts, opening) ?? 0) > STEP_MOST_M + 1e-9),
    says: (found, w, facts) =>
      `A step of ${w.depth(Math.abs(stepOver(facts, found.opening) ?? 0))} to the floor next door. Feather it, set a ramp strip, or choose another level; ask before the quote.`,
    holds: [],
    lifts: 'jobRoom.level.levelM',
    source: 'ADA Standards 303.2, from memory; homes by custom',
  }),
  rule({
    id: 'threshold-unmeasured',
    title: called,
    reads: 'the height of the floor next door is not measured',
    verdict: 'go-with-work',
    when: (facts) => openings(facts, (opening) => !outside(opening) && opening.adjoiningM === null),
    says: () => 'Read the height of the floor next door. Without it nobody knows the step at this opening.',
    holds: [],
    lifts: (found) => `room.plan.openings.${found.key}.adjoiningM`,
    source: 'common practice',
  }),
  rule({
    id: 'dew-close',
    title: 'dew on the floor',
    reads: 'the floor is less than 3 °C (metric) or 5 °F (US) over the dew point',
    verdict: 'hold',
    when: (facts) => air(facts, (it) => it.dewPointC !== null && it.marginC !== null && !it.marginPasses),
    says: ({ air: it }, w) =>
      `The floor is ${w.closeTemp(it.test.surfaceTempC ?? 0)}, the dew point ${w.closeTemp(it.dewPointC ?? 0)}: ${w.tempGap(it.marginLeastC)} apart is the least. Warm the floor or dry the air, and read again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'ISO 8502-4 practice (3 °C); coating practice (5 °F)',
  }),
  rule({
    id: 'dew-clear',
    title: 'dew point',
    reads: 'the floor is 3 °C (metric) or 5 °F (US) or more over the dew point',
    verdict: 'go',
    when: (facts) => air(facts, (it) => it.marginC !== null && it.marginPasses),
    says: ({ air: it }, w) => `The floor is ${w.tempGap(it.marginC ?? 0)} over the dew point; ${w.tempGap(it.marginLeastC)} is the least.`,
    holds: [],
    lifts: 'room.tests.air',
    source: 'ISO 8502-4 practice (3 °C); coating practice (5 °F)',
  }),
  rule({
    id: 'too-cold',
    title: 'too cold',
    reads: 'air or floor under the product’s window (typical 50 °F, 10 °C until a product is chosen)',
    verdict: 'hold',
    when: (facts) => air(facts, (it) => Math.min(...temps(it)) < window(facts).least - 1e-9),
    says: ({ air: it }, w, facts) =>
      `${w.closeTemp(Math.min(...temps(it)))} is under ${w.temp(window(facts).least)}, the least${facts.product === null ? ' usual' : ' on the sheet'}. Heat the room without fumes or draft, and read again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'the product’s sheet; typical until chosen',
  }),
  rule({
    id: 'too-hot',
    title: 'too hot',
    reads: 'air or floor over the product’s window (typical 90 °F, 32 °C until a product is chosen)',
    verdict: 'hold',
    when: (facts) => air(facts, (it) => Math.max(...temps(it)) > window(facts).most + 1e-9),
    says: ({ air: it }, w, facts) =>
      `${w.closeTemp(Math.max(...temps(it)))} is over ${w.temp(window(facts).most)}, the most${facts.product === null ? ' usual' : ' on the sheet'}. Shade the room, pour early, and read again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'the product’s sheet; typical until chosen',
  }),
  rule({
    id: 'dries-too-fast',
    title: 'drying wind',
    reads: 'a fresh surface would lose more than 1.0 kg/m²/h (0.2 lb/ft²/h)',
    verdict: 'hold',
    when: (facts) => air(facts, (it) => (it.evaporationKgM2H ?? 0) > EVAPORATION_LIMIT.actionKgM2H),
    says: ({ air: it }, w) =>
      `A fresh surface would lose ${w.evaporation(it.evaporationKgM2H ?? 0)}, over ${w.evaporation(EVAPORATION_LIMIT.actionKgM2H)}: it cracks. Shut doors and windows, cool or dampen the air, and read again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'FHWA-HRT-05-038 ch. 5, after ACI 308; Uno 1998',
  }),
  rule({
    id: 'dries-fast',
    title: 'drying air',
    reads: 'a fresh surface would lose more than 0.5 kg/m²/h (0.1 lb/ft²/h)',
    verdict: 'go-with-work',
    when: (facts) =>
      air(
        facts,
        (it) => (it.evaporationKgM2H ?? 0) > EVAPORATION_LIMIT.cautionKgM2H && (it.evaporationKgM2H ?? 0) <= EVAPORATION_LIMIT.actionKgM2H,
      ),
    says: ({ air: it }, w) =>
      `A fresh surface would lose ${w.evaporation(it.evaporationKgM2H ?? 0)}, and a thin pour has little water to spare. Shut doors, windows and vents.`,
    holds: [],
    lifts: 'room.tests.air',
    source: 'FHWA-HRT-05-038 ch. 5; applied to thin layers by judgment',
  }),
  rule({
    id: 'water-settles',
    title: 'water settles on the floor',
    reads: 'the air is so warm and damp that water settles on the fresh surface',
    verdict: 'hold',
    when: (facts) => air(facts, (it) => it.condenses),
    says: () => 'Warm damp air settles as water on the colder floor. Shut it out, dry the air, warm the floor, read again.',
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'Uno 1998: a rate under zero is condensation',
  }),
  rule({
    id: 'draft-unread',
    title: 'draft',
    reads: 'the air’s speed over the floor is not written',
    verdict: 'go-with-work',
    when: (facts) => air(facts, (it) => it.test.airSpeedMPerS === null),
    says: () => 'How fast a fresh surface would dry is not known. Shut doors and windows and write 0, or read the draft.',
    holds: [],
    lifts: 'room.tests.air',
    source: 'common practice',
  }),
  rule(
    {
      id: 'test-missing',
      title: ({ need }: NeedCase) => need.what,
      reads: 'a needed test is missing, or too old to go by',
      verdict: 'hold',
      when: (facts) => needs(facts, (need) => !need.onTheDay && (need.state === 'missing' || need.state === 'stale')),
      says: ({ need }, w) =>
        need.state === 'stale'
          ? 'The last reading is too old to go by. Read again.'
          : need.refused.length > 0
            ? `No reading counts yet. ${need.refused[0]?.why ?? ''}`
            : `Not tested yet: ${w.number(need.wanted)} ${need.wanted === 1 ? 'reading' : 'readings'} wanted.`,
      holds: ['pour'],
      lifts: ({ need }) => need.lifts,
      source: ({ need }) => need.source,
    },
    'the test’s own standard; age of a reading, common practice',
  ),
  rule(
    {
      id: 'test-few',
      title: ({ need }: NeedCase) => need.what,
      reads: 'fewer readings than the floor’s size asks for',
      verdict: 'go-with-work',
      when: (facts) => needs(facts, (need) => need.state === 'few'),
      says: ({ need }, w) =>
        `${w.number(need.have)} of ${w.number(need.wanted)} readings. Take the rest: the wettest or weakest place decides.`,
      holds: [],
      lifts: ({ need }) => need.lifts,
      source: ({ need }) => need.source,
    },
    'the test’s own standard',
  ),
  rule({
    id: 'air-on-the-day',
    title: 'temperatures on the day',
    reads: 'air and floor have not been read within 12 hours',
    verdict: 'go-with-work',
    when: (facts) => needs(facts, (need) => need.onTheDay && need.state !== 'enough'),
    says: () => 'Read air, floor and humidity on the day of the pour. The pour waits for it.',
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'the product’s sheet; common practice',
  }),
  rule({
    id: 'no-flooring',
    title: 'what the floor will carry',
    reads: 'no covering is chosen',
    verdict: 'go-with-work',
    when: (facts) => once(facts.flooring === null),
    says: () => 'The covering decides how flat and how dry the floor must be. Choose it.',
    holds: ['pour'],
    lifts: 'jobRoom.covering',
    source: 'common practice',
  }),
  rule({
    id: 'no-outline',
    title: 'size of the room',
    reads: 'the room is not drawn',
    verdict: 'hold',
    when: (facts) => once(facts.areaM2 === null),
    says: () => 'Without its outline nobody knows how many tests, bags or meters of strip it takes. Draw the room.',
    holds: ['pour'],
    lifts: 'room.plan.outline',
    source: 'common practice',
  }),
];
