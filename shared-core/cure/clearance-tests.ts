/** The test a floor must pass before each covering goes on it, and whether it has. A date alone never releases a floor. */
import type { Flooring } from '../book/flooring.ts';
import type { ClearanceTest } from '../book/cure-record.ts';
import type { FlooringLimits } from '../book/job.ts';
import type { MaterialKind } from '../book/material.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { limitsInForce } from '../substrate/flooring-demands.ts';

/** What each covering is called in front of its date: `oak` would be too narrow, `wood-glued` no word. */
export const FLOORING_NAME: Readonly<Record<Flooring, string>> = {
  'bare-sealed': 'sealer',
  resilient: 'resilient flooring',
  'tile-small': 'tile',
  'tile-large': 'large tile',
  'wood-glued': 'glued wood',
  'wood-nailed': 'nailed wood',
  floating: 'floating floor',
  carpet: 'carpet',
};

export type CoverMethod = {
  readonly method: ClearanceTest['method'];
  /** Null: the maker's figure has not been entered, so no result can pass. */
  readonly limit: number | null;
  readonly unit: ClearanceTest['unit'];
  readonly how: string;
  readonly source: string;
};

export type FlooringRequirement = {
  readonly flooring: Flooring;
  /** Any of these releases the floor; the first is the usual one. */
  readonly methods: readonly CoverMethod[];
  /** A sentence naming the usual test and its limit. */
  readonly sentence: string;
};

/** Carbide method, CM-%. Source: DIN 18560-1 (cement 2.0, heated 1.8; calcium sulfate 0.5 since November 2015). */
const CARBIDE_LIMIT = { cement: 2.0, cementHeated: 1.8, calciumSulfate: 0.5 } as const;

/** Source: screedtesting.uk on BS 5353, BS 8203, BS 8201 and BS 8425. */
const HYGROMETER =
  'a hygrometer box sealed to the floor until its reading stands still (72 hours at least, floor heating off 96 hours before)';

const DISH_REFUSED =
  'A calcium chloride dish says nothing over a leveling compound or gypsum (ASTM F1869, 1.2 and 1.3): test by humidity or carbide.';

export type CoverQuestion = {
  readonly flooring: Flooring;
  readonly limits: FlooringLimits | null;
  readonly materialKind: MaterialKind;
  readonly heated: boolean;
};

/** A limit as it is read: `75 % humidity`, `2.0 CM-%`. */
export function limitText(method: CoverMethod): string {
  if (method.limit === null) return 'the limit on the covering’s own sheet';
  if (method.unit === 'share') return `${formatPercent(method.limit)} humidity`;
  return method.unit === 'lb'
    ? `${formatNumber(method.limit, { most: 1 })} lb`
    : `${formatNumber(method.limit, { least: 1, most: 1 })} CM-%`;
}

/** The test a covering needs over this pour, with the covering maker's own figure where one is entered. */
export function flooringRequirement({ flooring, limits, materialKind, heated }: CoverQuestion): FlooringRequirement {
  const humidity = limitsInForce(flooring, limits).slabHumidity;
  const methods: CoverMethod[] = [];
  if (humidity !== null)
    methods.push({ method: 'slab-humidity', limit: humidity.value, unit: 'share', how: HYGROMETER, source: humidity.source });
  if (flooring === 'bare-sealed') {
    methods.push({
      method: 'manufacturer-method',
      limit: humidity?.value ?? null,
      unit: 'share',
      how: 'the sealer maker’s own test',
      source: 'the sealer’s sheet',
    });
  } else if (humidity?.fromManufacturer !== true) {
    // A maker's humidity figure replaces the published ones: the carbide limit then no longer speaks for the covering.
    const cement = heated ? CARBIDE_LIMIT.cementHeated : CARBIDE_LIMIT.cement;
    const limit = materialKind === 'calcium-sulfate' ? CARBIDE_LIMIT.calciumSulfate : cement;
    methods.push({
      method: 'carbide',
      limit,
      unit: 'cm-percent',
      how: 'the carbide method on a sample from the full depth',
      source: 'DIN 18560-1',
    });
  }
  return {
    flooring,
    methods,
    get sentence() {
      const usual = methods[0];
      if (usual === undefined) return '';
      return `Confirm by test before covering: ${usual.how}, at most ${limitText(usual)} (${usual.source}).`;
    },
  };
}

export type Release = {
  readonly released: boolean;
  readonly sentence: string;
  /** The result that decided. */
  readonly test: ClearanceTest | null;
  readonly requirement: FlooringRequirement;
};

/** A result as it is read: `71 %`, `1.6 CM-%`. */
export function valueText(test: Pick<ClearanceTest, 'unit' | 'value'>): string {
  if (test.unit === 'share') return formatPercent(test.value);
  return `${formatNumber(test.value, { most: 2 })} ${test.unit === 'lb' ? 'lb' : 'CM-%'}`;
}

/**
 * Whether a floor is released for covering. The newest result made by an accepted method after the pour decides.
 * @param tests every test on record for the room
 * @param placedAt when the material was placed; earlier results do not speak for it
 */
export function coverRelease(question: CoverQuestion, tests: readonly ClearanceTest[], placedAt: string): Release {
  const requirement = flooringRequirement(question);
  const placedMs = Date.parse(placedAt);
  const own = tests
    .filter((t) => t.deletedAt === null && t.flooring === question.flooring && Date.parse(t.takenAt) >= placedMs)
    .sort((a, b) => Date.parse(b.takenAt) - Date.parse(a.takenAt));
  const methodOf = (t: ClearanceTest) => requirement.methods.find((m) => m.method === t.method && m.unit === t.unit);
  const test = own.find((t) => methodOf(t) !== undefined);
  const method = test === undefined ? undefined : methodOf(test);
  const not = 'Not yet released for covering';
  if (test === undefined || method === undefined) {
    const stray = own[0];
    const why =
      stray === undefined
        ? requirement.sentence
        : stray.method === 'moisture-dish'
          ? DISH_REFUSED
          : `The test on record is not one this covering takes. ${requirement.sentence}`;
    return { released: false, sentence: `${not}. ${why}`, test: null, requirement };
  }
  if (method.limit === null) {
    return {
      released: false,
      sentence: `${not}: enter the limit from the covering’s sheet, so that the result of ${valueText(test)} can be judged.`,
      test,
      requirement,
    };
  }
  const told = `${valueText(test)} on the test by ${test.by}; at most ${limitText(method)} (${method.source})`;
  return test.value <= method.limit
    ? { released: true, sentence: `Released for ${FLOORING_NAME[question.flooring]}: ${told}.`, test, requirement }
    : { released: false, sentence: `${not}: ${told}. Wait, and test again.`, test, requirement };
}
