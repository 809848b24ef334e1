/** What one test comes to, in a sentence or two with its arithmetic: shown while it is typed, before it is kept. */
import type { UnitSystem } from '../book/business.ts';
import type { FloorTest, Layer } from '../book/layer.ts';
import { whyTestDoesNotCount } from '../substrate/counting-tests.ts';
import { absorptionOf } from '../substrate/drop-absorption.ts';
import { bounceOf, DEFLECTION_SPAN_OVER } from '../substrate/floor-bounce.ts';
import { DISH_HOURS, emissionLb } from '../substrate/moisture-dish.ts';
import { type OddContext, questionsAboutTest } from '../substrate/odd-readings.ts';
import { PROBE_DEPTH_SHARE, probeDepthM, SETTLED_HOURS } from '../substrate/slab-humidity.ts';
import { isPhWithin, PH_WITHIN, PULL_OFF_LEAST_PA, pullOffAnswer } from '../substrate/surface-strength.ts';
import { meanMoisture } from '../substrate/wood-moisture.ts';
import { type Wording, wordingFor } from '../substrate/wording.ts';
import { dewMargin } from '../climate/dew-margin.ts';
import { evaporation } from '../climate/evaporation.ts';

/** What the arithmetic is made with. */
export type ArithmeticContext = OddContext & {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly layers: readonly Layer[];
  /** What the pour adds, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
};

/** A test worked out. */
export type TestArithmetic = {
  /** The result with how it came about; empty where the reading says all. */
  readonly says: readonly string[];
  /** Why it does not count; null when it does. */
  readonly doesNotCount: string | null;
  /** What to ask about it, as typed. */
  readonly questions: readonly string[];
};

const PULL_WORDS = {
  strong: 'Strong enough.',
  weak: 'Too weak to pour on.',
  'not-proved': 'The glue gave way first: the floor is not proved.',
} as const;

function saysOf(test: FloorTest, context: ArithmeticContext, w: Wording): readonly string[] {
  switch (test.kind) {
    case 'moisture-dish': {
      const emission = emissionLb(test);
      if (!emission.ok) return [];
      const gained = w.number(test.massAfterG - test.massBeforeG, 2);
      const net = w.area(test.domeAreaM2 - test.dishAreaM2);
      return [
        `${gained} g gained over ${net} in ${w.number(test.hours, 1)} h: ${w.emission(emission.value)}. The dish stands ${DISH_HOURS.least} to ${DISH_HOURS.most} h.`,
      ];
    }
    case 'slab-humidity':
      return test.slabThicknessM === null
        ? []
        : [
            `A slab of ${w.depth(test.slabThicknessM)} that dries from ${test.dryingSides === 1 ? 'one side' : 'two sides'} is read at ${w.share(PROBE_DEPTH_SHARE[test.dryingSides])} of its depth: ${w.depth(probeDepthM(test.slabThicknessM, test.dryingSides))}, ${SETTLED_HOURS} h after the hole was closed.`,
          ];
    case 'wood-moisture': {
      const mean = meanMoisture(test.readings);
      return mean === null
        ? []
        : [
            `${test.readings.length} ${test.readings.length === 1 ? 'reading' : 'readings'}: ${w.share(Math.max(...test.readings))} at the wettest, ${w.share(Math.min(...test.readings))} at the driest, ${w.share(Math.round(mean * 1000) / 1000)} in the mean.`,
          ];
    }
    case 'drop-absorption': {
      const answer = absorptionOf(test);
      return answer === null
        ? []
        : [answer === 'porous' ? 'The floor drinks: it is primed as porous.' : 'The floor is closed: it is primed as such.'];
    }
    case 'surface-ph':
      return [`${isPhWithin(test.ph) ? 'Within' : 'Outside'} pH ${PH_WITHIN.least} to ${PH_WITHIN.most}.`];
    case 'pull-off':
      return [`${w.strength(PULL_OFF_LEAST_PA)} is the least. ${PULL_WORDS[pullOffAnswer(test)]}`];
    case 'air': {
      if (test.surfaceTempC === null) return [];
      const margin = dewMargin(test.airTempC, test.relativeHumidity, test.surfaceTempC, context.units);
      const dries =
        test.airSpeedMPerS === null ? null : evaporation(test.surfaceTempC, test.airTempC, test.relativeHumidity, test.airSpeedMPerS);
      return [
        ...(margin === null
          ? []
          : [
              `Dew settles at ${w.closeTemp(margin.dewPointC)}. The floor is ${margin.marginC < 0 ? `${w.tempGap(-margin.marginC)} under that` : `${w.tempGap(margin.marginC)} over`}; ${w.tempGap(margin.leastC)} over is the least.`,
            ]),
        ...(dries === null
          ? []
          : [dries.condenses ? 'Water settles on the floor.' : `A fresh floor loses ${w.evaporation(dries.kgM2H)} of water.`]),
      ];
    }
    case 'floor-bounce': {
      const bounce = bounceOf(test, context.addedLoadPa ?? 0);
      const over = (value: number): string => `L/${w.number(Math.floor(value))}`;
      return [
        `Sags ${w.depth(bounce.liveM)} under the live load: ${over(bounce.liveSpanOver)}; L/${DEFLECTION_SPAN_OVER}, ${w.depth(bounce.limitM)}, is the most.`,
        `Under everything${context.addedLoadPa === null ? '' : ', the pour too'}, ${over(bounce.totalSpanOver)}. This is no structural check${bounce.withinLimit ? '' : ': ask a structural engineer'}.`,
      ];
    }
    default:
      return [];
  }
}

/** Works out one test as it was typed. */
export function testArithmetic(test: FloorTest, context: ArithmeticContext): TestArithmetic {
  const wording = wordingFor(context.units, context.locale);
  return {
    says: saysOf(test, context, wording),
    doesNotCount: whyTestDoesNotCount(test, context.layers, wording),
    questions: questionsAboutTest(test, context, wording),
  };
}
