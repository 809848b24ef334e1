/** The cure of each room of a job: after its last lift, or as planned while it is not poured yet. */
import type { Material } from '../book/material.ts';
import type { CureSchedule } from '../cure/cure-schedule.ts';
import { cureSchedule, hasFailedTest } from '../cure/cure-schedule.ts';
import type { CureInput } from '../cure/cure-input.ts';
import { gravest, isBroken, type PromiseVerdict } from '../cure/promise-verdict.ts';
import { type CureRecords, gatherCure } from '../cure/gather-cure.ts';
import { nextLiftTime, nextWorkdayAt, type WorkCalendar, workCalendar, workedUntil } from '../cure/stated-date.ts';
import { systemUnder } from '../pour/placed-floor.ts';
import { type FloorRest, floorRest } from '../pour/floor-rest.ts';
import type { LiftBreak } from '../material/lift-break.ts';
import type { Pour } from '../book/pour-record.ts';
import { roomsOnSlab } from '../substrate/test-counts.ts';
import { type AgendaBusiness, type JobBundle, type JobRoomFacts, roomsOf } from './job-bundle.ts';
import { primedFor } from '../prep/primer-clock.ts';
import { nextPourOf, pouredUntil, stepsToCome } from './next-pours.ts';
import { type RoomPour, roomPour } from './room-pour.ts';
import { minutesLater } from './time-words.ts';

export type RoomCure = {
  /** Whether a lift has been poured; false while the dates are planned. */
  readonly poured: boolean;
  /** Whether the whole floor is placed, so that the dates apply to all of it. */
  readonly whole: boolean;
  readonly schedule: CureSchedule;
  /** Floor left to place, repair or check; null before a pour, and where all of it is placed and sound. */
  readonly rest: FloorRest | null;
  /** Each pour of the last lift with the floor it placed, where more than one made it or some of it is still open; else empty. */
  readonly parts: readonly CuredPart[];
};

/** Whether a floor is cured at an instant: placed whole, and its test passed or the data sheet's hours over. */
export function isCured({ whole, schedule }: Pick<RoomCure, 'whole' | 'schedule'>, now: string): boolean {
  return whole && schedule.clearedFrom !== null && schedule.clearedFrom <= now;
}

/** Whether a floor is cleared at an instant: cured and sound. */
export function isCleared(cure: Pick<RoomCure, 'whole' | 'rest' | 'schedule'>, now: string): boolean {
  return cure.rest === null && isCured(cure, now);
}

/** Whether a floor has a date for its flooring to state: not cleared yet, and without a repair, a check or a failed test in the way. */
export function isDatedCover(cure: Pick<RoomCure, 'whole' | 'rest' | 'schedule'>, now: string): boolean {
  return cure.rest === null && !hasFailedTest(cure.schedule) && !isCleared(cure, now);
}

/**
 * The promised dates still owed at an instant. Flooring that is not cleared once its promised day is over is late, whatever was expected,
 * and on hold while a repair or check is open.
 */
export function owedPromises(
  { schedule, rest, whole }: Pick<RoomCure, 'schedule' | 'rest' | 'whole'>,
  now: string,
): readonly PromiseVerdict[] {
  return schedule.verdicts
    .filter(({ settledAt }) => settledAt === null || settledAt > now)
    .map((verdict) => {
      if (verdict.milestone.kind !== 'cover' || verdict.state === 'on-hold' || verdict.dayOverAt > now) return verdict;
      if (whole && rest !== null) return { ...verdict, state: 'on-hold', lateByMs: null };
      const lateByMs = Date.parse(now) - Date.parse(verdict.promise.promisedFor);
      return { ...verdict, state: 'late', lateByMs: Math.max(lateByMs, verdict.lateByMs ?? 0) };
    });
}

/** The promised date that is the latest of the late ones, with the date to promise now; null when there is none to promise. */
export function dateToPromise(
  cure: Pick<RoomCure, 'schedule' | 'rest' | 'whole'>,
  now: string,
): (PromiseVerdict & { statedAt: string }) | null {
  const worst = gravest(owedPromises(cure, now).filter((v) => v.state === 'late' && (v.milestone.statedAt ?? '') > now));
  const statedAt = worst?.milestone.statedAt ?? null;
  return worst === null || statedAt === null ? null : { ...worst, statedAt };
}

/** Floor placed in one pour: its own dates count from that pour. */
export type CuredPart = { readonly pour: Pour; readonly areaM2: number; readonly schedule: CureSchedule };

const materialOf = (bundle: JobBundle, id: string | null): Material | undefined => bundle.materials.find((m) => m.id === id);

/** The poured depth, else the estimated one, else the data sheet's minimum. */
function depthOf(facts: JobRoomFacts, material: Material, placed: Pour | null): { meanM: number; deepestM: number } {
  const surveyed = (placed === null ? null : pouredDepth(placed, facts.room.id)) ?? facts.summary?.depth ?? null;
  if (surveyed !== null) return surveyed;
  const least = facts.jobRoom.level.mode === 'follow' ? facts.jobRoom.level.followThicknessM : facts.jobRoom.level.leastThicknessM;
  const guessM = Math.max(least, material.powder?.liftM.value.least ?? 0, 0.003);
  return { meanM: guessM, deepestM: guessM };
}

/** A room's depth over all lifts as its pour stored it; null for a room that is not in it. */
export function pouredDepth(pour: Pour, roomId: string): { meanM: number; deepestM: number } | null {
  return pour.asPoured.rooms.find((r) => r.roomId === roomId)?.depth ?? null;
}

type Known = { readonly business: AgendaBusiness; readonly byRoom: Map<string, RoomCure | null> };
const knownOf = new WeakMap<JobBundle, Known>();

/**
 * Cure of one room; null when it is neither poured nor has a pour planned, or its material has no data sheet. Computed once per
 * bundle and shared by lists and the agenda.
 */
export function roomCure(bundle: JobBundle, facts: JobRoomFacts, business: AgendaBusiness): RoomCure | null {
  const last = knownOf.get(bundle);
  const known = last?.business === business ? last : { business, byRoom: new Map<string, RoomCure | null>() };
  knownOf.set(bundle, known);
  const roomId = facts.room.id;
  const before = known.byRoom.get(roomId);
  if (before !== undefined) return before;
  const cure = makeCure(bundle, facts, business);
  known.byRoom.set(roomId, cure);
  return cure;
}

/**
 * When the last of a room would be placed, by its next pour. Another section of a lift follows on the next working day, and a lift over it at
 * the next working time that it allows. Rooms of one pour are placed with its end, as a finished pour counts for all of its rooms.
 */
function plannedEnd(asked: CureOf, material: Material): string | null {
  const { bundle, facts, business } = asked;
  const next = nextPourOf(bundle, facts, business);
  if (next === null) return null;
  const place = workCalendar(business, bundle.property.timeZone);
  const together = next.rooms.map((r) => stepsToCome(bundle, r));
  const [first, ...later] = stepsToCome(bundle, facts);
  let placedAt = next.until;
  let lift = first?.lift ?? 1;
  for (const step of later) {
    const startAt =
      step.lift === lift ? nextWorkdayAt(placedAt, next.startAt, place) : nextLiftAfter(asked, { material, lift, placedAt }, next.rooms);
    const own = together.flatMap((steps) => steps.filter((other) => other.lift === step.lift && other.nth === step.nth));
    placedAt = pouredUntil(
      startAt,
      own.reduce((sum, { minutes }) => sum + minutes, 0),
      place,
    );
    lift = step.lift;
  }
  return placedAt;
}

/**
 * When the lift over a planned one can start: it is cured for it in the air expected, abraded, vacuumed and primed. While the room is too cold
 * to cure there is no such hour; the sheet's own hours stand in, and no date of the floor is known anyway.
 * @param rooms all that are poured together: one crew prepares them
 */
function nextLiftAfter(asked: CureOf, lift: Pick<CureRecords, 'material' | 'lift' | 'placedAt'>, rooms: readonly JobRoomFacts[]): string {
  const { material, placedAt } = lift;
  const input = gathered(asked, { ...lift, isLastLift: false, depth: depthOf(asked.facts, material, null) });
  if (input === null) return placedAt;
  const { milestones } = cureSchedule({ ...input, promises: [], tests: [] });
  const ready = milestones.find((m) => m.kind === 'next-lift')?.latestAt ?? null;
  const sheetHours = input.sheet.milestones.find((m) => m.kind === 'next-lift')?.hoursMost ?? 0;
  const readyAt = nextLiftTime(ready ?? minutesLater(placedAt, sheetHours * 60), input.place);
  const breaks = rooms.flatMap((r) => (roomPour(asked.bundle, r).liftsPlanned > lift.lift ? (r.summary?.liftBreak ?? []) : []));
  return breaks.length === 0 ? readyAt : nextLiftTime(preparedAt(readyAt, breaks, input.place), input.place);
}

/** When a lift that can be worked on from an instant is ready for the next: each room abraded and vacuumed, then coat by coat primed and dry. */
function preparedAt(readyAt: string, breaks: readonly LiftBreak[], place: WorkCalendar): string {
  const sum = (hoursOf: (one: LiftBreak) => number): number => breaks.reduce((all, one) => all + hoursOf(one), 0);
  const coats = Math.max(...breaks.map((one) => one.coats));
  const dryHours = Math.max(...breaks.map((one) => one.dryHours));
  let at = workedUntil(
    readyAt,
    sum((one) => one.surfaceHours),
    place,
  );
  for (let coat = 1; coat <= coats; coat += 1)
    at = minutesLater(
      workedUntil(
        at,
        sum((one) => (coat <= one.coats ? one.coatHours : 0)),
        place,
      ),
      dryHours * 60,
    );
  return at;
}

function makeCure(bundle: JobBundle, facts: JobRoomFacts, business: AgendaBusiness): RoomCure | null {
  const pour = roomPour(bundle, facts);
  const { part } = pour;
  // Floor that was all removed again has nothing to cure: its dates are those of the next pour.
  const last = pour.floor.extent === 'none' ? null : pour.last;
  const asked = { bundle, facts, business, pour };
  const input = inputOf(asked, last);
  if (input === null) return null;
  const pours = partsOf(asked);
  const beside = pours.filter((one) => one.pour.id !== last?.id).map((one) => one.schedule);
  const isDivided = part !== 'whole' || pours.length > 1;
  const schedule = cureSchedule(input, beside);
  const whole = part === 'whole';
  const rest = last === null ? null : floorRest(pour.floor);
  const byPours = verdictsWithRest(asked, schedule.verdicts);
  const verdicts = !whole
    ? byPours.map((verdict) => ({ ...verdict, settledAt: null }))
    : rest === null
      ? byPours
      : byPours.map(beforeRepair);
  return {
    poured: last !== null,
    whole,
    rest,
    schedule: { ...schedule, verdicts },
    parts: isDivided ? pours : [],
  };
}

/**
 * A date promised for flooring over a repair or check that is still open: never settled, and at risk at best. Where drying alone breaks it,
 * there is no date to promise until the work is done.
 */
function beforeRepair(verdict: PromiseVerdict): PromiseVerdict {
  if (verdict.milestone.kind !== 'cover') return verdict;
  const owed = { ...verdict, settledAt: null };
  if (isBroken(verdict)) return { ...owed, state: 'on-hold', lateByMs: null, byAir: false };
  return verdict.state === 'on-track' ? { ...owed, state: 'at-risk' } : owed;
}

/** The verdicts on promised dates that wait for the rest of the floor, by the pour planned for it. */
function verdictsWithRest(asked: CureOf, verdicts: readonly PromiseVerdict[]): readonly PromiseVerdict[] {
  const rest = verdicts.some(({ awaitsRest }) => awaitsRest) ? inputOf(asked, null) : null;
  if (rest === null) return verdicts;
  const planned = cureSchedule(rest).verdicts;
  return verdicts.map((own) => {
    const found = own.awaitsRest ? planned.find(({ promise }) => promise === own.promise) : undefined;
    return found === undefined ? own : { ...found, awaitsRest: true };
  });
}

type CureOf = {
  readonly bundle: JobBundle;
  readonly facts: JobRoomFacts;
  readonly business: AgendaBusiness;
  readonly pour: RoomPour;
};

/** The cure of what one pour placed, with the product stored with it; of the pours still planned where there is none. */
function inputOf(asked: CureOf, placed: Pour | null): CureInput | null {
  const { bundle, facts, pour } = asked;
  const material = placed?.asPoured.material ?? materialOf(bundle, facts.jobRoom.materialId);
  if (material === undefined) return null;
  const placedAt = placed?.finishedAt ?? plannedEnd(asked, material);
  if (placedAt === null) return null;
  return gathered(asked, {
    material,
    lift: (placed === null ? null : pour.floor.lift?.lift) ?? pour.liftsPlanned,
    isLastLift: placed === null || pour.part === 'whole',
    placedAt,
    depth: depthOf(facts, material, placed),
  });
}

/** The other rooms that share a room's in-slab tests: placed by its last pour too. */
function pouredWith({ bundle, facts: { room }, pour }: CureOf): JobRoomFacts['room'][] {
  const all = roomsOf(bundle);
  const onSlab = roomsOnSlab(room, bundle.rooms, bundle.job.rooms).filter(({ id }) => id !== room.id && pour.last !== null);
  return onSlab.filter(({ id }) => all.some((other) => other.room.id === id && roomPour(bundle, other).last?.id === pour.last?.id));
}

/** The input for one lift, with the records of its room. */
function gathered(asked: CureOf, lift: Pick<CureRecords, 'material' | 'lift' | 'isLastLift' | 'placedAt' | 'depth'>): CureInput | null {
  const { bundle, facts, business, pour } = asked;
  const { jobRoom, room } = facts;
  return gatherCure({
    ...lift,
    business,
    jobRoom,
    room,
    timeZone: bundle.property.timeZone,
    yearBuilt: bundle.property.yearBuilt,
    wetBelowM: 0,
    sharing: pouredWith(asked),
    overSystem: pour.floor.extent === 'none' ? (jobRoom.moistureSystemId ?? null) !== null : systemUnder(pour.floor) !== null,
    logs: bundle.cureLogs,
    pourEvents: bundle.pourEvents.filter((e) => pour.floor.pours.some((p) => p.id === e.pourId)),
    promises: bundle.promises,
    tests: bundle.clearanceTests,
  });
}

/** The floor of the last lift by pour. */
function partsOf(asked: CureOf): readonly CuredPart[] {
  const { pours, lift } = asked.pour.floor;
  return pours.flatMap((pour): CuredPart[] => {
    const placed = (lift?.regions ?? []).filter((r) => r.pourId === pour.id && (r.state === 'placed' || r.state === 'suspect'));
    const input = placed.length === 0 ? null : inputOf(asked, pour);
    return input === null ? [] : [{ pour, areaM2: placed.reduce((sum, r) => sum + r.areaM2, 0), schedule: cureSchedule(input) }];
  });
}

export type PrimerWindow = { readonly fromAt: string; readonly untilAt: string };

/**
 * When a primed room may be poured; null when nothing is primed for its next pour or the primer has no sheet. Of several uses on the
 * sheet the longest drying and the shortest life count: so that the window is safe for any of them.
 */
export function primerWindow(bundle: JobBundle, facts: JobRoomFacts): PrimerWindow | null {
  const { primedAt } = primedFor(facts.jobRoom, roomPour(bundle, facts).last?.finishedAt ?? null);
  const uses = materialOf(bundle, facts.jobRoom.primerId)?.primer ?? [];
  if (primedAt === null || uses.length === 0) return null;
  return {
    fromAt: minutesLater(primedAt, Math.max(...uses.map((u) => u.dryHoursLeast)) * 60),
    untilAt: minutesLater(primedAt, Math.min(...uses.map((u) => u.dryHoursMost)) * 60),
  };
}
