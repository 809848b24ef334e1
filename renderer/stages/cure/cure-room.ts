/** The curing rooms of a job for the Cure screen: dates in their rows, and the text beside them. */
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { FloorRest } from '../../../shared-core/pour/floor-rest.ts';
import type { RoomFloor } from '../../../shared-core/pour/placed-floor.ts';
import { roomFloorOf } from '../../../shared-core/standing/read-pour.ts';
import { roomPour } from '../../../shared-core/standing/room-pour.ts';
import { type CuredPart, isCleared, owedPromises, roomCure } from '../../../shared-core/standing/room-cure.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import type { Promised } from '../../../shared-core/book/cure-record.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { type CureSchedule, isTooCold } from '../../../shared-core/cure/cure-schedule.ts';
import { isStatedAsDay, wholeHour } from '../../../shared-core/cure/stated-date.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { roomReadings } from '../../../shared-core/cure/gather-cure.ts';
import { gravest, type PromiseVerdict } from '../../../shared-core/cure/promise-verdict.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { daysBetween, formatDay } from '../../../shared-core/measure/day.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import {
  dayOfInstant,
  deadlineDay,
  formatInstant,
  formatInstantDay,
  formatInstantTime,
  isMidnight,
} from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { clearanceWords, limitText, milestoneName, promiseWords, valueText } from '../../../shared-core/standing/cure-words.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { isSealed } from '../../../shared-core/book/flooring.ts';
import { beforeCover, repairWords } from '../../../shared-core/standing/repair-words.ts';

export type CuringRoom = {
  readonly id: string;
  readonly room: Room;
  readonly jobRoom: JobRoom;
  readonly schedule: CureSchedule;
  readonly whole: boolean;
  /** Floor left to place, repair or check; null where all of it is placed and sound. */
  readonly rest: FloorRest | null;
  /** Floor by pour, where there is more than one pour or some floor is left; else empty. */
  readonly parts: readonly CuredPart[];
  /** Area still to place, m²; 0 when complete. */
  readonly openM2: number;
  /** Outlines of the placed floor; null when it is complete. */
  readonly placed: readonly (readonly Point[])[] | null;
  /** Milestones with their own row: foot traffic, light rolling loads, furniture, the chosen flooring, and any other promised one. */
  readonly rows: readonly DatedMilestone[];
  /** All promises of the room, earliest first. */
  readonly promises: readonly Promised[];
  readonly readings: readonly { readonly instant: string; readonly tempC: number }[];
  /** Over all lifts. */
  readonly depth: { readonly meanM: number; readonly deepestM: number } | null;
  /** The lift placed last, where others are still to come over it; else null. */
  readonly lift: { readonly number: number; readonly of: number } | null;
};

/** A room with dates: poured, or as its pour is planned. */
export type DatedRoom = Pick<CuringRoom, 'id' | 'room' | 'jobRoom' | 'schedule' | 'whole' | 'rest'>;

/** A room that is not poured, with the dates its planned pour gives; null without a plan, or once its pour runs or was due. */
export function plannedRoom({ bundle, whole }: JobReading, roomId: string, now: string): DatedRoom | null {
  const facts = roomsOf(bundle).find(({ room }) => room.id === roomId);
  const cure = facts === undefined ? null : roomCure(bundle, facts, whole.business);
  if (facts === undefined || cure === null || cure.poured) return null;
  if (roomPour(bundle, facts).running !== null || (facts.jobRoom.pourAt ?? '') <= now) return null;
  return { id: roomId, room: facts.room, jobRoom: facts.jobRoom, schedule: cure.schedule, whole: cure.whole, rest: cure.rest };
}

/** How dates are formatted. */
export type Saying = { readonly now: string; readonly zone: string; readonly locale: string; readonly units: UnitSystem };

const ROWS: ReadonlySet<string> = new Set(['walk-on', 'cart', 'furniture']);

/** Whether a promise is for a milestone. One without a flooring is for the chosen flooring. */
export function isFor(promise: Promised, milestone: DatedMilestone, chosen: JobRoom['flooring']): boolean {
  return promise.milestone === milestone.kind && (promise.flooring ?? (milestone.kind === 'cover' ? chosen : null)) === milestone.flooring;
}

/** The verdict on the current promise for a milestone. */
export function verdictOn(room: DatedRoom, milestone: DatedMilestone): PromiseVerdict | null {
  return room.schedule.verdicts.find((v) => isFor(v.promise, milestone, room.jobRoom.flooring)) ?? null;
}

/** Whether a date promised for a milestone is owed and late. */
export function isPromiseLate(room: DatedRoom, { key }: DatedMilestone, now: string): boolean {
  return owedPromises(room, now).some((v) => v.state === 'late' && v.milestone.key === key);
}

const placedRings = ({ lift }: RoomFloor): readonly (readonly Point[])[] =>
  lift?.regions.flatMap((r) => (r.state === 'placed' || r.state === 'suspect' ? r.floor.map((piece) => piece.outline) : [])) ?? [];

const liftBelow = ({ lift, liftsPlanned }: RoomFloor): CuringRoom['lift'] =>
  lift === null || lift.lift >= liftsPlanned ? null : { number: lift.lift, of: liftsPlanned };

/** Rooms with a finished pour, in the order of the pours. */
export function curingRooms(reading: JobReading): CuringRoom[] {
  const { whole } = reading;
  return jobReadingCures(reading)
    .sort((a, b) => a.schedule.placedAt.localeCompare(b.schedule.placedAt))
    .flatMap(({ room, schedule, depth, parts, rest, whole: isWhole }): CuringRoom[] => {
      const jobRoom = whole.job.rooms.find((r) => r.roomId === room.id);
      if (jobRoom === undefined) return [];
      const pours = new Set(whole.pours.filter((p) => p.roomIds.includes(room.id)).map((p) => p.id));
      const promises = whole.promises
        .filter((p) => p.roomId === room.id && p.deletedAt === null)
        .sort((a, b) => a.madeAt.localeCompare(b.madeAt));
      const openM2 = rest?.openM2 ?? 0;
      const isAnotherLift = !isWhole && openM2 <= 0;
      return [
        {
          id: room.id,
          room,
          jobRoom,
          schedule,
          whole: isWhole,
          rest,
          parts,
          openM2,
          placed: openM2 > 0 ? placedRings(roomFloorOf(reading, room.id)) : null,
          rows: schedule.milestones.filter(
            (m) =>
              ROWS.has(m.kind) ||
              m.key === schedule.cover?.key ||
              (m.kind === 'next-lift' && isAnotherLift) ||
              (m.kind !== 'cover' && promises.some((p) => isFor(p, m, jobRoom.flooring))),
          ),
          promises,
          readings: [
            ...roomReadings(
              room,
              whole.cureLogs,
              whole.pourEvents.filter((e) => pours.has(e.pourId)),
              schedule.placedAt,
            ),
          ].sort((a, b) => a.instant.localeCompare(b.instant)),
          depth,
          lift: liftBelow(roomFloorOf(reading, room.id)),
        },
      ];
    });
}

/** An expected date: with the hour while the floor sets, without it while it dries. */
export function when(instant: string | null, milestone: Pick<DatedMilestone, 'by'>, say: Saying): string {
  if (instant === null) return 'no date';
  if (milestone.by === 'drying') return formatInstantDay(instant, say.zone, 'short', say.locale);
  return hourWords(wholeHour(instant), say);
}

/** The stated date of a milestone: the latest, rounded to working hours or days. */
export function statedDate({ kind, statedAt }: Pick<DatedMilestone, 'kind' | 'statedAt'>, say: Saying): string {
  if (statedAt === null) return 'no date';
  return isStatedAsDay(kind) ? formatInstantDay(statedAt, say.zone, 'short', say.locale) : hourWords(statedAt, say);
}

/** The hour of a day, as a count from today. */
function hourWords(instant: string, say: Saying): string {
  const day = deadlineDay(instant, say.zone);
  const ending = isMidnight(instant, say.zone) ? 'end of ' : '';
  const days = daysBetween(dayOfInstant(say.now, say.zone), day);
  // A weekday alone means the next one.
  if (days < 0 || days > 6) return `${ending}${formatDay(day, 'short', say.locale)}`;
  const weekday = formatDay(day, 'weekday', say.locale).split(',')[0] ?? '';
  return ending === '' ? `${weekday} ${formatInstantTime(instant, say.zone, say.locale)}` : `${ending}${weekday}`;
}

/** The full date and hour, shown when a date is opened. */
export function exactly(instant: string | null, milestone: Pick<DatedMilestone, 'by'>, say: Saying): string {
  if (instant === null || milestone.by === 'drying') return when(instant, milestone, say);
  return formatInstant(wholeHour(instant), say.zone, 'short', say.locale);
}

/** A strength date whose latest value is past; of the chosen flooring, once the floor is cleared for it. */
export function isDone(room: DatedRoom, milestone: DatedMilestone, now: string): boolean {
  if (milestone.kind === 'cover') return milestone.key === room.schedule.cover?.key && isCleared(room, now);
  const isPlaced = room.schedule.milestones.some(({ key }) => key === milestone.key);
  return isPlaced && milestone.by === 'strength' && milestone.latestAt !== null && milestone.latestAt <= now;
}

/** The date to promise at first: the stated one while it is ahead. */
export const startPromise = ({ statedAt }: Pick<DatedMilestone, 'statedAt'>, now: string): string | null =>
  statedAt !== null && statedAt > now ? statedAt : null;

/** A promised date as it was stated: an hour or a day. */
export function promisedWords(promise: Promised, say: Saying): string {
  if (isStatedAsDay(promise.milestone)) return formatInstantDay(promise.promisedFor, say.zone, 'short', say.locale);
  return hourWords(promise.promisedFor, say);
}

/** What is still to place of a floor that is not complete. */
export const openWords = ({ openM2 }: Pick<CuringRoom, 'openM2'>): string =>
  openM2 > 0 ? 'Part of the floor is not placed yet.' : 'Another lift is not placed yet.';

/** Below a room's name: depth, or which lift is placed while others are to come over it, and pour date. */
export function pouredWords({ depth, lift, schedule, whole }: CuringRoom, { zone, locale, units }: Saying): string[] {
  const done = whole ? 'poured' : 'placed';
  return [
    ...(lift !== null
      ? [`lift ${lift.number} of ${lift.of}`]
      : depth === null
        ? []
        : [`${formatDepth(depth.meanM, units, locale)} average`]),
    ...(isMidnight(schedule.placedAt, zone)
      ? [`${done} by end of`, formatDay(deadlineDay(schedule.placedAt, zone), 'short', locale)]
      : [`${done} ${formatInstantDay(schedule.placedAt, zone, 'short', locale)},`, formatInstantTime(schedule.placedAt, zone, locale)]),
  ];
}

/** The log in two short lines. */
export function logWords({ schedule }: CuringRoom, { locale, units }: Saying): [string, string] {
  const { log, leastCureTempC } = schedule;
  if (log.leastC === null) return ['No readings yet', 'assumed air is used'];
  const count = `${formatNumber(log.readings, { most: 0 }, locale)} ${log.readings === 1 ? 'reading' : 'readings'}`;
  const silent = log.gaps.length === 0 ? '' : log.gaps.length === 1 ? ', 1 gap' : `, ${log.gaps.length} gaps`;
  const hours = Math.round(log.hoursStoodStill);
  if (hours < 1) return [`Never below ${formatTemperature(log.leastC, units, locale)}`, `${count}${silent}`];
  return [
    `Curing paused ${formatNumber(hours, { most: 0 }, locale)} ${hours === 1 ? 'hour' : 'hours'}`,
    `below ${formatTemperature(leastCureTempC, units, locale)}, ${count}${silent}`,
  ];
}

/** `Flooring laid Nov 30.`; null before. */
export function laidWords({ schedule: { laidOn }, jobRoom }: DatedRoom, locale: string): string | null {
  return laidOn === null ? null : `${isSealed(jobRoom.flooring) ? 'Floor sealed' : 'Flooring laid'} ${formatDay(laidOn, 'short', locale)}.`;
}

/** Today's state of a room: the verdict on its promises, and the flooring date. */
export function verdictWords(room: CuringRoom, say: Saying): { readonly verdict: string; readonly rest: string; readonly isLate: boolean } {
  const { cover, clearance } = room.schedule;
  const worst = gravest(owedPromises(room, say.now));
  const isLate = worst?.state === 'late';
  const verdict = worst === null ? '' : `${promiseWords(worst)}.`;
  const byHours = cover?.clearanceTest?.byHours === true;
  const laid = laidWords(room, say.locale);
  if (laid !== null && room.rest === null && !isLate) return { verdict: laid, rest: '', isLate };
  if (isCleared(room, say.now) && !isLate)
    return {
      verdict: 'Cleared.',
      rest:
        byHours || clearance === null ? 'The data sheet’s cure time is over.' : clearanceWords(clearance).replace(/^Cleared for /, 'For '),
      isLate,
    };
  if (!room.whole) return { verdict, rest: openWords(room), isLate };
  if (room.rest !== null)
    return { verdict, rest: `${capital(repairWords(room.rest, say))} ${beforeCover(room.jobRoom, room.schedule)}.`, isLate };
  if (cover === null) return { verdict, rest: 'No flooring is chosen.', isLate };
  const name = capital(milestoneName(cover));
  if (cover.statedAt === null)
    return { verdict, rest: isTooCold(room.schedule) ? 'Curing paused: too cold.' : 'No date: the air is too damp.', isLate };
  const promised = worst !== null && worst.promise.milestone === 'cover' ? `, promised ${promisedWords(worst.promise, say)}` : '';
  if (clearance?.finding.kind === 'over') {
    const { test, method } = clearance.finding;
    return { verdict, rest: `${name} not cleared${promised} (tested ${valueText(test)}, max ${limitText(method)}).`, isLate };
  }
  const from = cover.statedAt <= say.now ? 'now' : formatInstantDay(cover.statedAt, say.zone, 'short', say.locale);
  return { verdict, rest: `${name} ${from}${promised}${byHours ? '' : ' (moisture test required)'}.`, isLate };
}

/** Dates of each pour's part of a floor with several pours or floor left. Floor that is not placed has no dates. */
export function partWords({ parts, openM2 }: CuringRoom, say: Saying): string[] {
  const area = (m2: number): string => formatArea(m2, say.units, say.locale);
  const placed = parts.map(({ pour, areaM2, schedule }) => {
    const walk = schedule.milestones.find((m) => m.kind === 'walk-on');
    const from = walk === undefined ? '' : `, foot traffic ${statedDate(walk, say)}`;
    return `${area(areaM2)} placed ${formatInstantDay(pour.finishedAt ?? pour.changedAt, say.zone, 'short', say.locale)}${from}.`;
  });
  return openM2 > 0 ? [...placed, `${area(openM2)} not placed. No date here applies to it.`] : placed;
}
