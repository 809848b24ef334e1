/** The result of one test with its arithmetic: shown while it is entered, before it is saved. */
import type { Assessment } from './assess-room.ts';
import type { UnitSystem } from '../book/business.ts';
import type { FloorTest, Layer } from '../book/layer.ts';
import { whyTestDoesNotCount } from '../substrate/counting-tests.ts';
import { absorptionOf } from '../substrate/drop-absorption.ts';
import { deflectionOf, DEFLECTION_SPAN_OVER } from '../substrate/floor-deflection.ts';
import { DISH_HOURS, emissionLb } from '../substrate/moisture-dish.ts';
import { type OddContext, questionsAboutTest } from '../substrate/odd-readings.ts';
import { PROBE_DEPTH_SHARE, probeDepthM, SETTLED_HOURS } from '../substrate/slab-humidity.ts';
import { isPhWithin, PH_WITHIN, pullOffAnswer, pullOffLeastPa } from '../substrate/surface-strength.ts';
import { meanMoisture } from '../substrate/wood-moisture.ts';
import { type Wording, wordingFor } from '../substrate/wording.ts';
import { dewMargin } from '../climate/dew-margin.ts';
import { evaporation } from '../climate/evaporation.ts';

/** What the arithmetic needs. */
export type ArithmeticContext = OddContext & {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly layers: readonly Layer[];
  /** What the pour adds, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
  /** Minimum tensile bond of the substrate for this pour, pascals. */
  readonly pullOffLeastPa: number;
  /** Joists may deflect by no more than their span over this. */
  readonly spanOver: number;
};

/** The context of a room's tests, with the limits of its assessment. */
export function testContext(
  { facts }: Pick<Assessment, 'facts'>,
  of: Omit<ArithmeticContext, 'addedLoadPa' | 'pullOffLeastPa' | 'spanOver'>,
): ArithmeticContext {
  return {
    ...of,
    addedLoadPa: facts.addedLoadPa,
    pullOffLeastPa: pullOffLeastPa(facts.product, facts.hasMoistureSystem),
    spanOver: facts.demand?.spanOver ?? DEFLECTION_SPAN_OVER,
  };
}

/** A computed test. */
export type TestArithmetic = {
  /** The result with its arithmetic; empty where the reading is the result. */
  readonly sentences: readonly string[];
  /** Why it does not count; null when it does. */
  readonly doesNotCount: string | null;
  /** Questions about it, as entered. */
  readonly questions: readonly string[];
};

const PULL_WORDS = {
  strong: 'Strong enough.',
  weak: 'Too weak for a pour.',
  'not-proved': 'The adhesive failed first, so the substrate is not proved.',
} as const;

function sentencesOf(test: FloorTest, context: ArithmeticContext, w: Wording): readonly string[] {
  switch (test.kind) {
    case 'moisture-dish': {
      const emission = emissionLb(test);
      if (!emission.ok) return [];
      const gained = w.number(test.massAfterG - test.massBeforeG, 2);
      const net = w.area(test.domeAreaM2 - test.dishAreaM2);
      return [
        `${gained} g gained over ${net} in ${w.number(test.hours, 1)} h is ${w.emission(emission.value)}. Exposure must be ${DISH_HOURS.least} to ${DISH_HOURS.most} h.`,
      ];
    }
    case 'slab-humidity':
      return test.slabThicknessM === null
        ? []
        : [
            `A ${w.depth(test.slabThicknessM)} slab drying from ${test.dryingSides === 1 ? 'one side' : 'two sides'} is measured at ${w.share(PROBE_DEPTH_SHARE[test.dryingSides])} of its thickness, ${w.depth(probeDepthM(test.slabThicknessM, test.dryingSides))}, after ${SETTLED_HOURS} h of equilibration.`,
          ];
    case 'wood-moisture': {
      const mean = meanMoisture(test.readings);
      return mean === null
        ? []
        : [
            `${test.readings.length} ${test.readings.length === 1 ? 'reading' : 'readings'}: maximum ${w.share(Math.max(...test.readings))}, minimum ${w.share(Math.min(...test.readings))}, average ${w.share(Math.round(mean * 1000) / 1000)}.`,
          ];
    }
    case 'drop-absorption': {
      const answer = absorptionOf(test);
      return answer === null
        ? []
        : [
            answer === 'porous'
              ? 'Porous substrate. Prime at the porous rate.'
              : 'Non-porous substrate. On concrete, abrade and test again, or use a primer for non-porous substrates.',
          ];
    }
    case 'surface-ph':
      return [
        `${isPhWithin(test.ph) ? 'Within' : 'Outside'} pH ${PH_WITHIN.least} to ${PH_WITHIN.most}. Many manufacturers give 9 as the maximum.`,
      ];
    case 'pull-off':
      return [`The minimum is ${w.strength(context.pullOffLeastPa)}. ${PULL_WORDS[pullOffAnswer(test, context.pullOffLeastPa)]}`];
    case 'air': {
      if (test.surfaceTempC === null) return [];
      const margin = dewMargin(test.airTempC, test.relativeHumidity, test.surfaceTempC, context.units);
      const dries =
        test.airSpeedMPerS === null ? null : evaporation(test.surfaceTempC, test.airTempC, test.relativeHumidity, test.airSpeedMPerS);
      return [
        ...(margin === null
          ? []
          : [
              `The dew point is ${w.closeTemp(margin.dewPointC)}. The floor is ${margin.marginC < 0 ? `${w.tempGap(-margin.marginC)} below it` : `${w.tempGap(margin.marginC)} above it`}. The minimum is ${w.tempGap(margin.leastC)} above.`,
            ]),
        ...(dries === null
          ? []
          : [dries.condenses ? 'Water condenses on the floor.' : `A fresh surface loses ${w.evaporation(dries.kgM2H)} of water.`]),
      ];
    }
    case 'floor-deflection': {
      const deflection = deflectionOf(test, context.addedLoadPa ?? 0);
      const over = (value: number): string => `L/${w.number(Math.floor(value))}`;
      return [
        `Deflection under live load is ${w.depth(deflection.liveM)}, ${over(deflection.liveSpanOver)}. The limit is L/${context.spanOver}, ${w.depth(test.spanM / context.spanOver)}.`,
        `With all weight${context.addedLoadPa === null ? '' : ' and the pour'} it is ${over(deflection.totalSpanOver)}. This is not a structural check${deflection.liveSpanOver + 1e-6 >= context.spanOver ? '' : ': ask a structural engineer'}.`,
      ];
    }
    default:
      return [];
  }
}

/** Computes one test as it was entered. */
export function testArithmetic(test: FloorTest, context: ArithmeticContext): TestArithmetic {
  const wording = wordingFor(context.units, context.locale);
  return {
    sentences: sentencesOf(test, context, wording),
    doesNotCount: whyTestDoesNotCount(test, context.layers, { depth: wording.depth, pullOffLeastPa: context.pullOffLeastPa }),
    questions: questionsAboutTest(test, context, wording),
  };
}
