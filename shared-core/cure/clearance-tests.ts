/** The moisture test a flooring requires, and whether the floor passed it. Where a test is required, a date alone never clears a floor. */
import type { Flooring } from '../book/flooring.ts';
import type { ClearanceTest } from '../book/cure-record.ts';
import type { FlooringLimits } from '../book/job.ts';
import type { MaterialKind } from '../book/material.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import type { ClearanceMethod } from './clearance-method.ts';
import { limitsInForce, type LimitInForce } from '../substrate/flooring-demands.ts';

/** Name of each flooring in sentences and lists. */
export const FLOORING_NAME: Readonly<Record<Flooring, string>> = {
  'bare-sealed': 'sealer',
  resilient: 'resilient flooring',
  'tile-small': 'tile',
  'tile-large': 'large tile',
  'stone-tile': 'stone tile',
  'wood-glued': 'glued wood',
  'wood-nailed': 'nailed wood',
  floating: 'floating floor',
  carpet: 'carpet',
};

export type FlooringRequirement = {
  readonly flooring: Flooring;
  /** Each of these can clear the floor; the first is the usual one. Empty where the data sheet's hours decide. */
  readonly methods: readonly ClearanceMethod[];
  /** The data sheet's hours alone clear the floor: no moisture test is required. */
  readonly byHours: boolean;
  /** One sentence naming the usual test and its limit, or the data sheet's hours. */
  readonly sentence: string;
};

export type CoverQuestion = {
  readonly flooring: Flooring;
  readonly limits: FlooringLimits | null;
  readonly materialKind: MaterialKind;
  /** The floor has radiant heat. */
  readonly heated: boolean;
  /** No slab under the pour: wood moisture content is tested, not in-slab RH. */
  readonly overWood: boolean;
  /** ISO 3166 code of the business's country. */
  readonly country: string;
};

/**
 * Hours an in-slab RH probe needs in a hole drilled after the pour. ASTM F2170 asked 72 h; its editions since 2018 ask 24 h
 * (both from memory). Plans use the longer time.
 */
export const RH_TEST_HOURS = 72;

/** Moisture content by a meter in concrete mode that a dry underlayment stays under. Typical of flooring data sheets, from memory. */
const METER_MAX_SHARE = 0.05;

const MVER_REFUSED =
  'A calcium chloride test does not apply over an underlayment or gypsum (ASTM F1869). Use an in-slab RH probe (ASTM F2170) or a moisture meter (ASTM F2659).';

/** Tile is set by the data sheet's hours: thinset tolerates the moisture that is left. Common practice of US setters, no source. */
const BY_HOURS: ReadonlySet<string> = new Set(['tile-small', 'tile-large', 'stone-tile']);

/** A limit as shown: `75% RH`, `3 lb`, `2.0 CM-%`. */
export function limitText({ limit, unit, method }: Pick<ClearanceMethod, 'limit' | 'unit' | 'method'>): string {
  if (limit === null) return 'the limit on the flooring data sheet';
  if (unit === 'share') return `${formatPercent(limit)}${method === 'slab-humidity' || method === 'humidity-hood' ? ' RH' : ' MC'}`;
  return unit === 'lb' ? `${formatNumber(limit, { most: 1 })} lb` : `${formatNumber(limit, { least: 1, most: 1 })} CM-%`;
}

function methodsOf({ flooring, limits, materialKind, heated, overWood, country }: CoverQuestion): ClearanceMethod[] {
  const rh = limitsInForce(flooring, limits).slabHumidity;
  if (flooring === 'bare-sealed') {
    const own: ClearanceMethod = {
      method: 'manufacturer-method',
      limit: rh?.value ?? null,
      unit: 'share',
      name: 'test named on the sealer data sheet',
      source: rh?.source ?? 'the sealer data sheet',
      typical: false,
      hoursAfterPour: 0,
    };
    return [own];
  }
  const typical = rh?.fromManufacturer !== true;
  // A manufacturer's own RH limit replaces the published limits of other methods abroad.
  if (typical && CARBIDE_COUNTRIES.has(country)) return [carbideMethod(materialKind, heated)];
  if (HOOD_COUNTRIES.has(country)) return [hoodMethod(rh)];
  return usMethods(flooring, limits, overWood);
}

function usMethods(flooring: Flooring, limits: FlooringLimits | null, overWood: boolean): ClearanceMethod[] {
  const { slabHumidity: rh, woodMoisture } = limitsInForce(flooring, limits);
  const typical = rh?.fromManufacturer !== true;
  const probe: ClearanceMethod = {
    method: 'slab-humidity',
    limit: rh?.value ?? null,
    unit: 'share',
    name: 'in-slab relative humidity (RH) test',
    source: typical ? 'ASTM F2170' : `ASTM F2170; limit: ${rh.source}`,
    typical,
    hoursAfterPour: RH_TEST_HOURS,
  };
  const meter: ClearanceMethod = {
    method: 'meter',
    limit: METER_MAX_SHARE,
    unit: 'share',
    name: 'moisture meter test',
    source: 'ASTM F2659',
    typical: true,
    hoursAfterPour: 0,
  };
  const wood: ClearanceMethod = {
    method: 'wood-moisture',
    limit: woodMoisture?.value ?? null,
    unit: 'share',
    name: 'wood moisture content (MC) test',
    source: woodMoisture?.source ?? 'the flooring data sheet',
    typical: woodMoisture?.fromManufacturer !== true,
    hoursAfterPour: 0,
  };
  return overWood ? [wood, meter] : [probe, meter];
}

/** The test a flooring needs over this pour, with the flooring manufacturer's own limit where one is entered. */
export function flooringRequirement(question: CoverQuestion): FlooringRequirement {
  const { flooring } = question;
  const byHours = BY_HOURS.has(flooring) && !CARBIDE_COUNTRIES.has(question.country);
  const methods = byHours ? [] : methodsOf(question);
  return {
    flooring,
    methods,
    byHours,
    get sentence() {
      const usual = methods[0];
      const name = FLOORING_NAME[flooring];
      if (usual === undefined) return `No moisture test is required for ${name}. The data sheet’s hours decide.`;
      const limit = `Max ${limitText(usual)}${usual.typical ? ', typical: the flooring manufacturer’s limit applies' : ''}`;
      return `Required before ${name}: ${usual.name}, ${usual.source}. ${limit}.`;
    },
  };
}

/** The verdict of the tests on record. Whether it is cleared at a moment is the schedule's `clearedFrom`. */
export type Clearance = {
  readonly passed: boolean;
  readonly sentence: string;
  /** The result that decided; the worst of its day. */
  readonly test: ClearanceTest | null;
  readonly requirement: FlooringRequirement;
};

/** A result as shown: `71%`, `1.6 CM-%`. */
export function valueText(test: Pick<ClearanceTest, 'unit' | 'value'>): string {
  if (test.unit === 'share') return formatPercent(test.value);
  return `${formatNumber(test.value, { most: 2 })} ${test.unit === 'lb' ? 'lb' : 'CM-%'}`;
}

const HOUR_MS = 3_600_000;
/** Results this close together are one round of tests: the holes of one floor, read on one visit. */
const ROUND_HOURS = 12;

const NOT_CLEARED = 'Not cleared for flooring.';

/** Why the newest result does not count, when none counts. */
function refusal(stray: ClearanceTest | undefined, requirement: FlooringRequirement, placedMs: number): string {
  if (stray === undefined) return requirement.sentence;
  if (stray.method === 'vapor-emission') return MVER_REFUSED;
  const method = requirement.methods.find((m) => m.method === stray.method && m.unit === stray.unit);
  if (method === undefined) return `The test on record is not one this flooring takes. ${requirement.sentence}`;
  const hours = Math.floor((Date.parse(stray.takenAt) - placedMs) / HOUR_MS);
  return `The test was taken ${formatNumber(hours, { most: 0 })} hours after the pour. It counts from ${method.hoursAfterPour} hours on.`;
}

/**
 * Whether a floor has passed its test for flooring. The newest round of results by accepted methods, taken long enough after the
 * pour, decides; within a round the worst result does, for every test hole has to pass (ASTM F2170).
 * @param tests every test on record for the room
 * @param placedAt when the material was placed
 */
export function floorClearance(question: CoverQuestion, tests: readonly ClearanceTest[], placedAt: string): Clearance {
  const requirement = flooringRequirement(question);
  const placedMs = Date.parse(placedAt);
  const own = tests
    .filter((t) => t.deletedAt === null && t.flooring === question.flooring && Date.parse(t.takenAt) >= placedMs)
    .sort((a, b) => Date.parse(b.takenAt) - Date.parse(a.takenAt));
  const methodOf = (t: ClearanceTest) => requirement.methods.find((m) => m.method === t.method && m.unit === t.unit);
  const counting = own.flatMap((t) => {
    const method = methodOf(t);
    return method !== undefined && Date.parse(t.takenAt) - placedMs >= method.hoursAfterPour * HOUR_MS ? [{ test: t, method }] : [];
  });
  const newest = counting[0];
  const refused = (why: string, test: ClearanceTest | null): Clearance => ({
    passed: false,
    sentence: `${NOT_CLEARED} ${why}`,
    test,
    requirement,
  });
  if (requirement.byHours) return { passed: false, sentence: requirement.sentence, test: null, requirement };
  if (newest === undefined) return refused(refusal(own[0], requirement, placedMs), null);
  const roundFrom = Date.parse(newest.test.takenAt) - ROUND_HOURS * HOUR_MS;
  const round = counting.filter(({ test }) => Date.parse(test.takenAt) >= roundFrom);
  // How far a result is from its limit; one without a limit cannot pass and comes first.
  const excess = ({ test, method }: (typeof round)[number]): number => (method.limit === null ? Infinity : test.value / method.limit);
  const worst = round.reduce((a, b) => (excess(b) > excess(a) ? b : a), newest);
  const { test, method } = worst;
  if (method.limit === null)
    return refused(`Enter the limit from the flooring data sheet to judge the result of ${valueText(test)}.`, test);
  const result = `${valueText(test)} by ${test.by}. Max ${limitText(method)}, ${method.source}.`;
  if (test.value > method.limit) return refused(`${result} Wait and test again.`, test);
  return { passed: true, sentence: `Cleared for ${FLOORING_NAME[question.flooring]}: ${result}`, test, requirement };
}

const CARBIDE_COUNTRIES: ReadonlySet<string> = new Set(['DE', 'AT', 'CH']);
const HOOD_COUNTRIES: ReadonlySet<string> = new Set(['GB', 'IE']);

/** Carbide method, CM-%. Source: DIN 18560-1 (cement 2.0, heated 1.8; calcium sulfate 0.5 since November 2015). */
const CARBIDE_MAX = { cement: 2.0, cementHeated: 1.8, gypsum: 0.5 } as const;

/** A hood is sealed to the floor for 72 hours at least. Source: screedtesting.uk on BS 5353, BS 8203, BS 8201 and BS 8425. */
const HOOD_HOURS = 72;
/** 75 % by BS 8201 and BS 8203. */
const HOOD_MAX = 0.75;

/** The carbide test of DIN 18560-1. Sealed flooring is laid at or below the limit, in CM-%. */
function carbideMethod(kind: MaterialKind, heated: boolean): ClearanceMethod {
  const cement = heated ? CARBIDE_MAX.cementHeated : CARBIDE_MAX.cement;
  return {
    method: 'carbide',
    limit: kind === 'calcium-sulfate' ? CARBIDE_MAX.gypsum : cement,
    unit: 'cm-percent',
    name: 'carbide test on a sample from the full depth',
    source: 'DIN 18560-1',
    typical: false,
    hoursAfterPour: 0,
  };
}

/**
 * The humidity hood of BS 8203, as a share of relative humidity.
 * @param own the flooring manufacturer's RH limit where one is entered
 */
function hoodMethod(own: LimitInForce | null): ClearanceMethod {
  const isOwn = own?.fromManufacturer === true;
  return {
    method: 'humidity-hood',
    limit: isOwn ? own.value : HOOD_MAX,
    unit: 'share',
    name: 'surface humidity hood, sealed until the reading is stable',
    source: isOwn ? `BS 8203; limit: ${own.source}` : 'BS 8203',
    typical: !isOwn,
    hoursAfterPour: HOOD_HOURS,
  };
}
