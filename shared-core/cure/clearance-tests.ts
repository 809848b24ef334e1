/** The moisture test a flooring requires, and whether the floor passed it. Where a test is required, a date alone never clears a floor. */
import type { Flooring } from '../book/flooring.ts';
import type { ClearanceTest } from '../book/cure-record.ts';
import type { FlooringLimits } from '../book/job.ts';
import type { MaterialKind } from '../book/material.ts';
import { limitsInForce, type LimitInForce } from '../substrate/flooring-demands.ts';

/** One test that can clear a floor for flooring. */
export type ClearanceMethod = {
  readonly method: Exclude<ClearanceTest['method'], 'vapor-emission'>;
  /** Null while the manufacturer's figure is not entered: no result can pass. */
  readonly limit: number | null;
  readonly unit: ClearanceTest['unit'];
  /** `ASTM F2170`; null where the data sheet names the test. */
  readonly standard: string | null;
  /** Where the limit is stated, apart from the standard of the test. */
  readonly limitStatedIn: string | null;
  /** A typical limit, until the flooring manufacturer's own is entered. */
  readonly typical: boolean;
  /** Hours after the pour before a result counts: the test itself takes so long on the new floor. */
  readonly hoursAfterPour: number;
};

export type FlooringRequirement = {
  readonly flooring: Flooring;
  /** Each of these can clear the floor; the first is the usual one. Empty where the data sheet's hours decide. */
  readonly methods: readonly ClearanceMethod[];
  /** The data sheet's hours alone clear the floor: no moisture test is required. */
  readonly byHours: boolean;
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

/** Tile is set by the data sheet's hours: thinset tolerates the moisture that is left. Common practice of US setters, no source. */
const BY_HOURS: ReadonlySet<string> = new Set(['tile-small', 'tile-large', 'stone-tile']);

function methodsOf({ flooring, limits, materialKind, heated, overWood, country }: CoverQuestion): ClearanceMethod[] {
  const rh = limitsInForce(flooring, limits).slabHumidity;
  if (flooring === 'bare-sealed') {
    const own: ClearanceMethod = {
      method: 'manufacturer-method',
      limit: rh?.value ?? null,
      unit: 'share',
      standard: null,
      limitStatedIn: rh?.source ?? null,
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
    standard: 'ASTM F2170',
    limitStatedIn: typical ? null : rh.source,
    typical,
    hoursAfterPour: RH_TEST_HOURS,
  };
  const meter: ClearanceMethod = {
    method: 'meter',
    limit: METER_MAX_SHARE,
    unit: 'share',
    standard: 'ASTM F2659',
    limitStatedIn: null,
    typical: true,
    hoursAfterPour: 0,
  };
  const wood: ClearanceMethod = {
    method: 'wood-moisture',
    limit: woodMoisture?.value ?? null,
    unit: 'share',
    standard: null,
    limitStatedIn: woodMoisture?.source ?? null,
    typical: woodMoisture?.fromManufacturer !== true,
    hoursAfterPour: 0,
  };
  return overWood ? [wood, meter] : [probe, meter];
}

/** The test a flooring needs over this pour, with the flooring manufacturer's own limit where one is entered. */
export function flooringRequirement(question: CoverQuestion): FlooringRequirement {
  const { flooring } = question;
  const byHours = BY_HOURS.has(flooring) && !CARBIDE_COUNTRIES.has(question.country);
  return { flooring, methods: byHours ? [] : methodsOf(question), byHours };
}

/** What the tests on record come to. */
export type ClearanceFinding =
  | { readonly kind: 'by-hours' | 'untested' | 'vapor-emission' | 'other-method' }
  | { readonly kind: 'too-soon'; readonly hours: number; readonly hoursNeeded: number }
  | { readonly kind: 'no-limit'; readonly test: ClearanceTest }
  | { readonly kind: 'over' | 'passed'; readonly test: ClearanceTest; readonly method: ClearanceMethod };

/** The verdict of the tests on record. Whether it is cleared at a moment is the schedule's `clearedFrom`. */
export type Clearance = {
  readonly passed: boolean;
  readonly finding: ClearanceFinding;
  /** The result that decided; the worst of its day. */
  readonly test: ClearanceTest | null;
  readonly requirement: FlooringRequirement;
};

const HOUR_MS = 3_600_000;
/** Results this close together are one round of tests: the holes of one floor, read on one visit. */
const ROUND_HOURS = 12;

/** Why the newest result does not count, when none counts. */
function refusal(stray: ClearanceTest | undefined, methods: readonly ClearanceMethod[], placedMs: number): ClearanceFinding {
  if (stray === undefined) return { kind: 'untested' };
  if (stray.method === 'vapor-emission') return { kind: 'vapor-emission' };
  const method = methods.find((m) => m.method === stray.method && m.unit === stray.unit);
  if (method === undefined) return { kind: 'other-method' };
  return {
    kind: 'too-soon',
    hours: Math.floor((Date.parse(stray.takenAt) - placedMs) / HOUR_MS),
    hoursNeeded: method.hoursAfterPour,
  };
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
  const found = (finding: ClearanceFinding): Clearance => ({
    passed: finding.kind === 'passed',
    finding,
    test: 'test' in finding ? finding.test : null,
    requirement,
  });
  if (requirement.byHours) return found({ kind: 'by-hours' });
  if (newest === undefined) return found(refusal(own[0], requirement.methods, placedMs));
  const roundFrom = Date.parse(newest.test.takenAt) - ROUND_HOURS * HOUR_MS;
  const round = counting.filter(({ test }) => Date.parse(test.takenAt) >= roundFrom);
  // How far a result is from its limit; one without a limit cannot pass and comes first.
  const excess = ({ test, method }: (typeof round)[number]): number => (method.limit === null ? Infinity : test.value / method.limit);
  const worst = round.reduce((a, b) => (excess(b) > excess(a) ? b : a), newest);
  const { test, method } = worst;
  if (method.limit === null) return found({ kind: 'no-limit', test });
  return found({ kind: test.value > method.limit ? 'over' : 'passed', test, method });
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
    standard: 'DIN 18560-1',
    limitStatedIn: null,
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
    standard: 'BS 8203',
    limitStatedIn: isOwn ? own.source : null,
    typical: !isOwn,
    hoursAfterPour: HOOD_HOURS,
  };
}
