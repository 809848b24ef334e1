/** The moisture test a flooring requires, and whether the floor passed it. Where a test is required, a date alone never clears a floor. */
import type { Flooring } from '../book/flooring.ts';
import type { ClearanceTest } from '../book/cure-record.ts';
import type { FlooringLimits } from '../book/job.ts';
import type { MaterialKind } from '../book/material.ts';
import { limitsInForce, type LimitInForce } from '../substrate/flooring-demands.ts';
import { slabTests, woodReadingCount } from '../substrate/test-counts.ts';

/** One test before flooring. */
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
  /** Whether results within the limit clear the floor. A first check can only fail it. */
  readonly clears: boolean;
  /** How many results within the limit clear the floor, over all rooms that share the count. */
  readonly wanted: number;
  /** The rooms that share the count, this one too. */
  readonly rooms: number;
};

export type FlooringRequirement = {
  readonly flooring: Flooring;
  /** The first is the usual one and can clear the floor. Empty where the data sheet's hours decide. */
  readonly methods: readonly ClearanceMethod[];
  /** The data sheet's hours alone clear the floor: no moisture test is required. */
  readonly byHours: boolean;
  readonly drilling: Drilling;
};

/**
 * Whether a test may drill into the floor: freely, only once heat that is or may be in the floor is located, or not at all: because the
 * pour covers heat or asbestos stays under it, or because a hole goes through the moisture mitigation system, under which the slab stays
 * as damp as it was.
 */
export type Drilling = 'allowed' | 'heat-located' | 'never' | 'over-system';

/** A room poured with this one, for the same flooring and over the same slab: their in-slab tests are counted together. */
export type SharingRoom = { readonly areaM2: number; readonly tests: readonly ClearanceTest[] };

export type CoverQuestion = {
  readonly flooring: Flooring;
  /** Floor area of the room; 0 without a drawing. */
  readonly areaM2: number;
  readonly sharing: readonly SharingRoom[];
  readonly limits: FlooringLimits | null;
  readonly materialKind: MaterialKind;
  /** The floor has radiant heat. */
  readonly heated: boolean;
  /** No slab under the pour: wood moisture content is tested, not in-slab RH. */
  readonly overWood: boolean;
  readonly drilling: Drilling;
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

/** Tests whose method names no number for a floor: a manufacturer's own, a hood, a carbide sample. One is the least. */
const ONE = { wanted: 1, rooms: 1 } as const;

/** A test that a manufacturer names or accepts. Only its own limit counts. */
const manufacturersTest = (
  method: 'manufacturer-method' | 'without-holes',
  limit: LimitInForce | null,
  hoursAfterPour: number,
): ClearanceMethod => ({
  method,
  limit: limit?.value ?? null,
  unit: 'share',
  standard: null,
  limitStatedIn: limit?.source ?? null,
  typical: false,
  hoursAfterPour,
  clears: true,
  ...ONE,
});

function methodsOf(question: CoverQuestion): ClearanceMethod[] {
  const { flooring, limits, materialKind, heated, country } = question;
  const rh = limitsInForce(flooring, limits).slabHumidity;
  if (flooring === 'bare-sealed') return [manufacturersTest('manufacturer-method', rh, 0)];
  const typical = rh?.fromManufacturer !== true;
  // A manufacturer's own RH limit replaces the published limits of other methods abroad.
  if (typical && CARBIDE_COUNTRIES.has(country)) return inHoles(carbideMethod(materialKind, heated), question);
  if (HOOD_COUNTRIES.has(country)) return [hoodMethod(rh)];
  return usMethods(question);
}

/**
 * A test that makes holes, and what takes its place. No US standard clears a floor without holes: ASTM F2420, the hood on the surface, was
 * withdrawn in 2014 (astm.org), and ASTM F1869 does not apply over an underlayment. So the flooring manufacturer has to name or accept the
 * test. It takes as long as a hood or a probe.
 */
function inHoles(method: ClearanceMethod, { flooring, limits, drilling }: CoverQuestion): ClearanceMethod[] {
  if (drilling === 'allowed') return [method];
  const surface = manufacturersTest('without-holes', limitsInForce(flooring, limits).withoutHoles, RH_TEST_HOURS);
  return drilling === 'heat-located' ? [method, surface] : [surface];
}

function usMethods(question: CoverQuestion): ClearanceMethod[] {
  const { slabHumidity: rh, woodMoisture } = limitsInForce(question.flooring, question.limits);
  const typical = rh?.fromManufacturer !== true;
  const probe: ClearanceMethod = {
    method: 'slab-humidity',
    limit: rh?.value ?? null,
    unit: 'share',
    standard: 'ASTM F2170',
    limitStatedIn: typical ? null : rh.source,
    typical,
    hoursAfterPour: RH_TEST_HOURS,
    clears: true,
    wanted: slabTests(
      [question, ...question.sharing].map(({ areaM2 }) => ({ areaM2, have: 0 })),
      0,
    ).wanted,
    rooms: 1 + question.sharing.length,
  };
  const meter: ClearanceMethod = {
    method: 'meter',
    limit: METER_MAX_SHARE,
    unit: 'share',
    standard: 'ASTM F2659',
    limitStatedIn: null,
    typical: true,
    hoursAfterPour: 0,
    // ASTM F2659 is a guide for a preliminary, comparative evaluation (from its title and scope, from memory).
    clears: false,
    ...ONE,
  };
  const wood: ClearanceMethod = {
    method: 'wood-moisture',
    limit: woodMoisture?.value ?? null,
    unit: 'share',
    standard: null,
    limitStatedIn: woodMoisture?.source ?? null,
    typical: woodMoisture?.fromManufacturer !== true,
    hoursAfterPour: 0,
    clears: true,
    wanted: woodReadingCount(question.areaM2),
    rooms: 1,
  };
  return question.overWood ? [wood, meter] : [...inHoles(probe, question), meter];
}

/** Whether a flooring waits for the data sheet's hours alone, without a moisture test. @param country ISO 3166 code of the business's */
export const isByHours = (flooring: Flooring, country: string): boolean => BY_HOURS.has(flooring) && !CARBIDE_COUNTRIES.has(country);

/** Order of results in a list: by time, those of one visit from the highest down. */
export const inTestOrder = (a: ClearanceTest, b: ClearanceTest): number => a.takenAt.localeCompare(b.takenAt) || b.value - a.value;

/** The test a flooring needs over this pour, with the flooring manufacturer's own limit where one is entered. */
export function flooringRequirement(question: CoverQuestion): FlooringRequirement {
  const { flooring, drilling } = question;
  const byHours = isByHours(flooring, question.country);
  return { flooring, methods: byHours ? [] : methodsOf(question), byHours, drilling };
}

/** What the tests on record come to. */
export type ClearanceFinding =
  | { readonly kind: 'by-hours' | 'untested' | 'vapor-emission' | 'other-method' }
  | { readonly kind: 'too-soon'; readonly hours: number; readonly hoursNeeded: number }
  | { readonly kind: 'no-limit' | 'first-check'; readonly test: ClearanceTest }
  | { readonly kind: 'over' | 'passed'; readonly test: ClearanceTest; readonly method: ClearanceMethod }
  /** None is over, and fewer than wanted are there: `have` within the limit, over all rooms that share the count. */
  | { readonly kind: 'few'; readonly test: ClearanceTest; readonly method: ClearanceMethod; readonly have: number };

/** The verdict of the tests on record. Whether it is cleared at a moment is the schedule's `clearedFrom`. */
export type Clearance = {
  readonly passed: boolean;
  readonly finding: ClearanceFinding;
  /** The result that decided; the worst of its day. */
  readonly test: ClearanceTest | null;
  /** When the last result that was needed was taken; null while the floor is not passed. */
  readonly passedAt: string | null;
  readonly requirement: FlooringRequirement;
};

const HOUR_MS = 3_600_000;
/** Results this close together are one round of tests: the holes of one floor, read on one visit. */
export const ROUND_HOURS = 12;

type Counted = { readonly test: ClearanceTest; readonly method: ClearanceMethod };

const hoursAfter = (test: ClearanceTest, placedMs: number): number => (Date.parse(test.takenAt) - placedMs) / HOUR_MS;

/** How far a result is from its limit; one without a limit cannot pass and is farthest. */
const excess = ({ test, method }: Counted): number => (method.limit === null ? Infinity : test.value / method.limit);

const isWithin = ({ test, method }: Counted): boolean => method.limit !== null && test.value <= method.limit;

const worstOf = <R extends Counted>(results: readonly R[]): R | undefined => results.toSorted((a, b) => excess(b) - excess(a))[0];

/**
 * The results of a room by a method that decide: its newest round where one is over the limit, else the largest since one was, so that one
 * more result within the limit takes nothing away. Results soon after the pour do not count. Newest first.
 */
function decidingRound(method: ClearanceMethod, { flooring }: CoverQuestion, tests: readonly ClearanceTest[], placedMs: number): Counted[] {
  const counting = newestFirst(tests, flooring, placedMs)
    .filter((t) => t.method === method.method && t.unit === method.unit && hoursAfter(t, placedMs) >= method.hoursAfterPour)
    .map((test) => ({ test, method }));
  const rounds = counting.map((newest, i) => {
    const fromMs = Date.parse(newest.test.takenAt) - ROUND_HOURS * HOUR_MS;
    return counting.slice(i).filter(({ test }) => Date.parse(test.takenAt) >= fromMs);
  });
  const over = rounds.findIndex((round) => !round.every(isWithin));
  const standing = rounds.slice(0, over === -1 ? rounds.length : Math.max(1, over));
  return standing.toSorted((a, b) => b.length - a.length)[0] ?? [];
}

/** The results for a flooring since the pour, newest first. */
const newestFirst = (tests: readonly ClearanceTest[], flooring: Flooring, placedMs: number): ClearanceTest[] =>
  tests
    .filter((t) => t.deletedAt === null && t.flooring === flooring && Date.parse(t.takenAt) >= placedMs)
    .toSorted((a, b) => Date.parse(b.takenAt) - Date.parse(a.takenAt));

/** When each result within the limit was taken, in the rooms that share the count; soonest first. */
function withinAt(round: readonly Counted[], question: CoverQuestion, placedMs: number): string[] {
  const method = round[0]?.method;
  const shared = method === undefined || method.rooms === 1 ? [] : question.sharing;
  return [...round, ...shared.flatMap(({ tests }) => (method === undefined ? [] : decidingRound(method, question, tests, placedMs)))]
    .filter(isWithin)
    .map(({ test }) => test.takenAt)
    .sort();
}

/** Why the newest result does not clear the floor, when none fails it. */
function refusal(stray: ClearanceTest | undefined, methods: readonly ClearanceMethod[], placedMs: number): ClearanceFinding {
  if (stray === undefined) return { kind: 'untested' };
  if (stray.method === 'vapor-emission') return { kind: 'vapor-emission' };
  const method = methods.find((m) => m.method === stray.method && m.unit === stray.unit);
  if (method === undefined) return { kind: 'other-method' };
  const hours = hoursAfter(stray, placedMs);
  if (hours >= method.hoursAfterPour) return { kind: 'first-check', test: stray };
  return { kind: 'too-soon', hours: Math.floor(hours), hoursNeeded: method.hoursAfterPour };
}

/**
 * Whether a floor has passed its test for flooring. Of each method one round of results, taken long enough after the pour, decides. The
 * floor passes when a method that can clear it has as many results within its limit as it wants, and none is over: every test hole has to
 * pass (ASTM F2170). A result over the limit is overruled only by the same method.
 * @param tests every test on record for the room
 * @param placedAt when the material was placed
 */
export function floorClearance(question: CoverQuestion, tests: readonly ClearanceTest[], placedAt: string): Clearance {
  const requirement = flooringRequirement(question);
  const placedMs = Date.parse(placedAt);
  const rounds = requirement.methods.flatMap((method) => {
    const round = decidingRound(method, question, tests, placedMs);
    const worst = worstOf(round);
    if (worst === undefined) return [];
    const within = withinAt(round, question, placedMs);
    const lastNeeded = [within[method.wanted - 1] ?? '', round.at(-1)?.test.takenAt ?? ''].sort().at(-1) ?? null;
    return [{ ...worst, have: within.length, passedAt: lastNeeded }];
  });
  const found = (finding: ClearanceFinding, passedAt: string | null = null): Clearance => ({
    passed: finding.kind === 'passed',
    finding,
    test: 'test' in finding && finding.kind !== 'first-check' ? finding.test : null,
    passedAt,
    requirement,
  });
  if (requirement.byHours) return found({ kind: 'by-hours' });
  const worst = worstOf(rounds);
  if (worst !== undefined && worst.method.limit === null) return found({ kind: 'no-limit', test: worst.test });
  if (worst !== undefined && !isWithin(worst)) return found({ kind: 'over', test: worst.test, method: worst.method });
  const clearing = rounds.filter(({ method }) => method.clears);
  const full = clearing.find(({ method, have }) => have >= method.wanted) ?? clearing[0];
  if (full === undefined) return found(refusal(newestFirst(tests, question.flooring, placedMs)[0], requirement.methods, placedMs));
  const { test, method, have, passedAt } = full;
  return have < method.wanted ? found({ kind: 'few', test, method, have }) : found({ kind: 'passed', test, method }, passedAt);
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
    clears: true,
    ...ONE,
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
    clears: true,
    ...ONE,
  };
}
