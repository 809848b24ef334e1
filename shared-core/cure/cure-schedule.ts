/** One room's cure after one lift: dates, reasons, the log, promised dates, clearance. */
import type { Flooring } from '../book/flooring.ts';
import type { Promised } from '../book/cure-record.ts';
import type { Milestone, MilestoneKind } from '../book/material.ts';
import { type Clearance, type CoverQuestion, floorClearance, type FlooringRequirement, flooringRequirement } from './clearance-tests.ts';
import type { CureInput, DatedMilestone, Dates, Histories } from './cure-input.ts';
import { dayOfInstant, startOfDay } from '../measure/moment.ts';
import { dryingDates } from './drying-dates.ts';
import { heatHasRunAt, waitsForHeat } from './heat-back.ts';
import { type LogSummary, summarizeLog } from './log-summary.ts';
import { isBroken, judgePromise, type PromiseVerdict, standingPromises } from './promise-verdict.ts';
import { firstTestDay, startOfWork, type WorkCalendar, statedFor } from './stated-date.ts';
import { strengthDates } from './strength-dates.ts';
import { type Assumed, temperatureHistory } from './temperature-history.ts';

export type CureSchedule = {
  readonly lift: number;
  readonly placedAt: string;
  readonly milestones: readonly DatedMilestone[];
  /** The milestone of the job's flooring; null when none is chosen. */
  readonly cover: DatedMilestone | null;
  readonly log: LogSummary;
  readonly leastCureTempC: number;
  readonly verdicts: readonly PromiseVerdict[];
  /** Null when no flooring is chosen, or another lift is still to be placed. */
  readonly clearance: Clearance | null;
  /**
   * From when the floor is cleared for flooring, or for use where no flooring is chosen; null while only a test can say. Flooring that is
   * down waits for nothing.
   */
  readonly clearedFrom: string | null;
  /** The day its flooring went down, in the property's zone; null before, and where the floor was poured again since. */
  readonly laidOn: string | null;
};

/** Milestones a lift has while another is still to be placed on it. */
const BETWEEN_LIFTS: ReadonlySet<MilestoneKind> = new Set(['walk-on', 'next-lift']);

/** Whether a date is missing because the cure is paused in the cold; in warm, damp air a floor hardens and only drying has no date. */
export const isTooCold = ({ milestones }: Pick<CureSchedule, 'milestones'>): boolean =>
  milestones.some((m) => m.by === 'strength' && m.latestAt === null);

/** When the test for the flooring was taken that is over its limit; null where the newest is not, and once the flooring is down. */
export const failedTestAt = ({ clearance, laidOn }: Pick<CureSchedule, 'clearance' | 'laidOn'>): string | null =>
  clearance?.finding.kind === 'over' && laidOn === null ? clearance.finding.test.takenAt : null;

/** Whether the newest tests for the flooring are over its limit, so that no date counts until a new one passes. */
export const hasFailedTest = (cure: Pick<CureSchedule, 'clearance' | 'laidOn'>): boolean => failedTestAt(cure) !== null;

export const milestoneKey = (kind: MilestoneKind, flooring: Flooring | null): string =>
  kind === 'cover' ? `cover:${flooring ?? 'any'}` : kind;

function histories(input: CureInput): Histories {
  const build = (assumed: Assumed) =>
    temperatureHistory({ startMs: Date.parse(input.placedAt), readings: input.readings, assumed, gaps: input.gaps });
  const historyAt = (tempC: number) => build({ tempC, humidity: input.assumedHumidity });
  return {
    likely: historyAt(input.assumedTempC),
    warm: historyAt(input.assumedTempC + input.assumedSpreadC),
    cold: historyAt(input.assumedTempC - input.assumedSpreadC),
  };
}

function floorings(input: CureInput): readonly Flooring[] {
  const listed = input.sheet.milestones.flatMap((m) => (m.kind === 'cover' && m.flooring !== null ? [m.flooring] : []));
  return [...new Set(input.flooring === null ? listed : [...listed, input.flooring])];
}

/** A milestone from its dates. */
function milestoneOf(
  dates: Dates,
  { kind, flooring, by, clearanceTest }: Pick<DatedMilestone, 'kind' | 'flooring' | 'by' | 'clearanceTest'>,
  place: WorkCalendar,
): DatedMilestone {
  return {
    key: milestoneKey(kind, flooring),
    kind,
    flooring,
    by,
    ...dates,
    statedAt: dates.latestAt === null ? null : statedFor(kind, dates.latestAt, place),
    clearanceTest,
  };
}

function questionOf(flooring: Flooring, input: CureInput): CoverQuestion {
  const { materialKind, heated, overWood, drilling, areaM2, sharing } = input;
  // The limits entered on the job are those of the flooring chosen there.
  const limits = flooring === input.flooring ? input.flooringLimits : null;
  return { flooring, limits, materialKind, heated, overWood, drilling, areaM2, sharing, country: input.place.week.country };
}

/** The soonest that the usual test can be read; null where none is required. */
function testReadAt({ methods }: FlooringRequirement, input: CureInput, all: Histories, log: LogSummary): string | null {
  const [usual] = methods;
  if (usual === undefined) return null;
  const walkOn = input.sheet.milestones.find((m) => m.kind === 'walk-on');
  const walkOnAt = walkOn === undefined ? null : strengthDates(walkOn, input, all, log).latestAt;
  const startAt = startOfWork(firstTestDay(input.placedAt, walkOnAt, input.place), input.place);
  return new Date(Date.parse(startAt) + usual.hoursAfterPour * 3_600_000).toISOString();
}

/** Dates of which none is before an instant. */
function noSooner(dates: Dates, instant: string): Dates {
  const held = (date: string | null): string | null => (date !== null && date < instant ? instant : date);
  return { ...dates, earliestAt: held(dates.earliestAt), likelyAt: held(dates.likelyAt), latestAt: held(dates.latestAt) };
}

function coverMilestone(flooring: Flooring, input: CureInput, all: Histories, log: LogSummary): DatedMilestone {
  const own = input.sheet.milestones.filter((m) => m.kind === 'cover' && m.flooring === flooring);
  const drying = own.filter((m) => m.by === 'drying');
  const strength = drying.length === 0 ? own.find((m) => m.by === 'strength') : undefined;
  const requirement = flooringRequirement(questionOf(flooring, input));
  const dates = strength === undefined ? dryingDates(drying, input, all, log) : strengthDates(strength, input, all, log);
  const afterHeat = input.heated && waitsForHeat(flooring);
  const heatAt = afterHeat ? heatHasRunAt(input.placedAt, input.materialKind, input.place.zone) : null;
  const soonest = [testReadAt(requirement, input, all, log), heatAt].flatMap((instant) => instant ?? []);
  const cover = milestoneOf(
    soonest.reduce(noSooner, dates),
    { kind: 'cover', flooring, by: strength === undefined ? 'drying' : 'strength', clearanceTest: requirement },
    input.place,
  );
  return afterHeat ? { ...cover, afterHeat: true } : cover;
}

function strengthMilestone(m: Milestone, input: CureInput, all: Histories, log: LogSummary): DatedMilestone {
  const of = { kind: m.kind, flooring: m.flooring, by: 'strength', clearanceTest: null } as const;
  return milestoneOf(strengthDates(m, input, all, log), of, input.place);
}

/** A milestone that has no date while a lift or a part of the floor is still to be placed; null where the data sheet has none. */
function openMilestone({ milestone: kind, flooring }: Promised, input: CureInput, all: Histories, log: LogSummary): DatedMilestone | null {
  const own = input.sheet.milestones.find((m) => m.kind === kind && kind !== 'cover');
  const covers = flooring ?? input.flooring;
  const strength = own === undefined ? null : strengthMilestone(own, input, all, log);
  const dated = kind === 'cover' && covers !== null ? coverMilestone(covers, input, all, log) : strength;
  return dated === null ? null : { ...dated, earliestAt: null, likelyAt: null, latestAt: null, statedAt: null };
}

const latest = (moments: readonly (string | null)[]): string | null =>
  moments.includes(null) ? null : (moments.toSorted().at(-1) ?? null);

/** The day the chosen flooring went down on this pour of the floor. */
function laidSince({ isLastLift, flooring, laidOn = null, placedAt, place: { zone } }: CureInput): string | null {
  return isLastLift && flooring !== null && laidOn !== null && laidOn >= dayOfInstant(placedAt, zone) ? laidOn : null;
}

/** Without flooring the floor is cleared for use at the last of its strength dates. The dates are the stated ones. */
function clearedFrom(
  input: CureInput,
  milestones: readonly DatedMilestone[],
  cover: DatedMilestone | null,
  clearance: Clearance | null,
): string | null {
  if (!input.isLastLift) return null;
  if (clearance?.requirement.byHours === true) return cover?.statedAt ?? null;
  if (input.flooring !== null) return clearance?.passedAt ?? null;
  return latest(milestones.filter((m) => m.kind !== 'cover').map((m) => m.statedAt));
}

/** A milestone over all pours of a floor: reached once each has reached it. No date where one has none. */
function overAll(own: DatedMilestone, others: readonly (DatedMilestone | undefined)[]): DatedMilestone[] {
  const all = [own, ...others].flatMap((m) => m ?? []);
  // A pour whose product gives no hours for it leaves the floor without a date.
  if (all.length <= others.length) return [];
  const statedAt = latest(all.map((m) => m.statedAt));
  const slowest = all.find((m) => m.statedAt === statedAt) ?? own;
  return [
    {
      ...slowest,
      statedAt,
      earliestAt: latest(all.map((m) => m.earliestAt)),
      likelyAt: latest(all.map((m) => m.likelyAt)),
      latestAt: latest(all.map((m) => m.latestAt)),
    },
  ];
}

/**
 * The cure of one room after one lift. It depends only on its input, so the same records give the same dates on any day.
 * @param beside those of the other pours that placed a part of the same lift; the floor is ready once each of them is
 */
export function cureSchedule(input: CureInput, beside: readonly CureSchedule[] = []): CureSchedule {
  const all = histories(input);
  const startMs = Date.parse(input.placedAt);
  const count = input.readings.filter((r) => Date.parse(r.instant) >= startMs).length;
  const leastCureTempC = input.sheet.leastCureTempC.value;
  const log = summarizeLog(all.likely, count, leastCureTempC);
  const own = [
    ...input.sheet.milestones
      .filter((m) => m.kind !== 'cover' && (input.isLastLift || BETWEEN_LIFTS.has(m.kind)))
      .map((m) => strengthMilestone(m, input, all, log)),
    ...(input.isLastLift ? floorings(input).map((c) => coverMilestone(c, input, all, log)) : []),
  ];
  const milestones = own.flatMap((m) =>
    overAll(
      m,
      beside.map((other) => other.milestones.find((one) => one.key === m.key)),
    ),
  );
  const cover = milestones.find((m) => m.kind === 'cover' && m.flooring === input.flooring) ?? null;
  const { flooring } = input;
  const tested = flooring === null || !input.isLastLift ? null : floorClearance(questionOf(flooring, input), input.tests, input.placedAt);
  // Each product has its own limit, and each part has to pass.
  const clearance = [tested, ...beside.map((other) => other.clearance)].find((one) => one?.passed === false) ?? tested;
  const laidOn = laidSince(input);
  const cleared = [clearedFrom(input, milestones, cover, clearance), laidOn === null ? null : startOfDay(laidOn, input.place.zone)]
    .flatMap((instant) => instant ?? [])
    .toSorted()[0];
  const failedAt = failedTestAt({ clearance, laidOn });
  const judged = standingPromises(input.promises).flatMap((promise) => {
    // A date promised for other flooring no longer counts.
    if (promise.milestone === 'cover' && promise.flooring !== null && promise.flooring !== flooring) return [];
    const placed = milestones.find((m) => m.key === milestoneKey(promise.milestone, promise.flooring ?? flooring));
    const awaitsRest = placed === undefined && !input.isLastLift;
    const milestone = awaitsRest ? openMilestone(promise, input, all, log) : placed;
    if (milestone == null) return [];
    const settledAt = milestone.kind === 'cover' ? (cleared ?? null) : milestone.latestAt;
    return [{ promise, milestone, settledAt, awaitsRest, ...judgePromise(promise, milestone, { zone: input.place.zone, failedAt }) }];
  });
  const asAssumed = input.readings.length > 0 && judged.some(isBroken) ? cureSchedule({ ...input, readings: [] }, beside).verdicts : [];
  const verdicts = judged.map((one) => ({
    ...one,
    byAir: isBroken(one) && asAssumed.some((other) => other.promise === one.promise && !isBroken(other)),
  }));
  return {
    lift: input.lift,
    placedAt: input.placedAt,
    milestones,
    cover,
    log,
    leastCureTempC,
    verdicts,
    clearance,
    clearedFrom: cleared ?? null,
    laidOn,
  };
}
