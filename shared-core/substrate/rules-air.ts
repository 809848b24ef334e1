/** Rules about the air and the floor on the day: temperature, dew point, drafts and evaporation. */
import { type AirFacts, type FloorFacts } from './floor-facts.ts';
import type { Case, Rule } from './rule.ts';
import { rule } from './rule.ts';
import { whose } from './whose-figure.ts';

/** Evaporation limits, kg/m²/h: caution, and definite action. FHWA-HRT-05-038 chapter 5, after figure 1 of ACI 308. */
const EVAPORATION_LIMIT = { cautionKgM2H: 0.5, actionKgM2H: 1 } as const;
/** Air and floor temperatures while no product is selected. Typical: 50 to 90 °F. */
const TYPICAL_WINDOW_C = { least: 10, most: 32 } as const;

type AirCase = Case & { readonly air: AirFacts };

const air = (facts: FloorFacts, applies: (air: AirFacts) => boolean): readonly AirCase[] =>
  facts.air !== null && applies(facts.air) ? [{ testId: facts.air.test.id, air: facts.air }] : [];
const window = (facts: FloorFacts): { readonly least: number; readonly most: number } =>
  facts.product?.powder.roomTempC.value ?? TYPICAL_WINDOW_C;
const temps = ({ test }: AirFacts): readonly number[] =>
  test.surfaceTempC === null ? [test.airTempC] : [test.airTempC, test.surfaceTempC];

/** Ambient conditions. */
export const AIR_RULES: readonly Rule[] = [
  rule({
    id: 'dew-close',
    title: 'dew point',
    reads: 'the floor is less than 5 °F (US) or 3 °C (metric) above the dew point',
    verdict: 'hold',
    when: (facts) => air(facts, (reading) => reading.dewPointC !== null && reading.marginC !== null && !reading.marginPasses),
    text: ({ air: reading }, w) =>
      `The floor is ${w.closeTemp(reading.test.surfaceTempC ?? 0)} and the dew point ${w.closeTemp(reading.dewPointC ?? 0)}. The minimum margin is ${w.tempGap(reading.marginLeastC)}. Warm the floor or dry the air, and measure again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'coating practice (5 °F); ISO 8502-4 practice (3 °C)',
  }),
  rule({
    id: 'dew-clear',
    title: 'dew point',
    reads: 'the floor is 5 °F (US) or 3 °C (metric) or more above the dew point',
    verdict: 'go',
    when: (facts) => air(facts, (reading) => reading.marginC !== null && reading.marginPasses),
    text: ({ air: reading }, w) =>
      `The floor is ${w.tempGap(reading.marginC ?? 0)} above the dew point. The minimum margin is ${w.tempGap(reading.marginLeastC)}.`,
    lifts: 'room.tests.air',
    source: 'coating practice (5 °F); ISO 8502-4 practice (3 °C)',
  }),
  rule({
    id: 'too-cold',
    title: 'too cold',
    reads: 'air or floor below the product’s range (typical 50 °F, 10 °C until a product is chosen)',
    verdict: 'hold',
    when: (facts) => air(facts, (reading) => Math.min(...temps(reading)) < window(facts).least - 1e-9),
    text: ({ air: reading }, w, facts) =>
      `It is ${w.closeTemp(Math.min(...temps(reading)))}. The ${whose(facts.product?.powder.roomTempC)} minimum is ${w.temp(window(facts).least)}. Heat the room with vented heat and no draft: a heater without a vent gives off carbon monoxide and softens the surface. Measure again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'the data sheet; typical until its figure is entered',
  }),
  rule({
    id: 'too-hot',
    title: 'too hot',
    reads: 'air or floor above the product’s range (typical 90 °F, 32 °C until a product is chosen)',
    verdict: 'hold',
    when: (facts) => air(facts, (reading) => Math.max(...temps(reading)) > window(facts).most + 1e-9),
    text: ({ air: reading }, w, facts) =>
      `It is ${w.closeTemp(Math.max(...temps(reading)))}. The ${whose(facts.product?.powder.roomTempC)} maximum is ${w.temp(window(facts).most)}. Shade the room, pour early, and measure again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'the data sheet; typical until its figure is entered',
  }),
  rule({
    id: 'dries-too-fast',
    title: 'fast drying air',
    reads: 'a fresh surface would lose more than 0.2 lb/sq ft/h (1.0 kg/m²/h)',
    verdict: 'hold',
    when: (facts) => air(facts, (reading) => (reading.evaporationKgM2H ?? 0) > EVAPORATION_LIMIT.actionKgM2H),
    text: ({ air: reading }, w) =>
      `A fresh surface would lose ${w.evaporation(reading.evaporationKgM2H ?? 0)}, over ${w.evaporation(EVAPORATION_LIMIT.actionKgM2H)}, and can crack. Close doors and windows, keep the sun off, cool the air, and measure again.`,
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'FHWA-HRT-05-038 ch. 5, after ACI 308, for concrete, about ±40%; applied to thin layers by judgment',
  }),
  rule({
    id: 'dries-fast',
    title: 'drying air',
    reads: 'a fresh surface would lose more than 0.1 lb/sq ft/h (0.5 kg/m²/h)',
    when: (facts) =>
      air(
        facts,
        (reading) =>
          (reading.evaporationKgM2H ?? 0) > EVAPORATION_LIMIT.cautionKgM2H &&
          (reading.evaporationKgM2H ?? 0) <= EVAPORATION_LIMIT.actionKgM2H,
      ),
    text: ({ air: reading }, w) =>
      `A fresh surface would lose ${w.evaporation(reading.evaporationKgM2H ?? 0)}, and a thin pour has little water to spare. Close doors, windows and registers, and keep the sun off.`,
    lifts: 'room.tests.air',
    source: 'FHWA-HRT-05-038 ch. 5; applied to thin layers by judgment',
  }),
  rule({
    id: 'water-settles',
    title: 'condensation',
    reads: 'the air is so warm and humid that water condenses on the fresh surface',
    verdict: 'hold',
    when: (facts) => air(facts, (reading) => reading.condenses),
    text: () => 'Warm humid air condenses on the colder floor. Keep it out, dry the air, warm the floor, and measure again.',
    holds: ['pour'],
    lifts: 'room.tests.air',
    source: 'Uno 1998: a rate below zero is condensation',
  }),
  rule({
    id: 'draft-unread',
    title: 'air speed',
    reads: 'the air speed over the floor is not recorded',
    when: (facts) => air(facts, (reading) => reading.test.airSpeedMPerS === null),
    text: () => 'The drying rate is unknown. Close doors and windows and enter 0, or measure the air speed.',
    lifts: 'room.tests.air',
    source: 'common practice',
  }),
];
