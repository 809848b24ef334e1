/** The state of the cure in one sentence, and the action that moves the room on. */
import type { FloorRest } from '../../../shared-core/pour/floor-rest.ts';
import { dateToPromise, isCleared } from '../../../shared-core/standing/room-cure.ts';
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { repairStep } from '../../../shared-core/standing/repair-words.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { isTooCold } from '../../../shared-core/cure/cure-schedule.ts';
import { isStatedAsDay } from '../../../shared-core/cure/stated-date.ts';
import { isTestDue } from '../../../shared-core/cure/test-days.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { formatInstant, formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { clearanceWords, failedTestStep, milestoneName } from '../../../shared-core/standing/cure-words.ts';
import { type CuringRoom, type DatedRoom, laidWords, openWords, plannedRoom, promisedWords, type Saying, statedDate } from './cure-room.ts';

export type CureFoot = {
  readonly text: string;
  readonly why: string;
  /** What another room of the job needs; null for nothing. */
  readonly other: string | null;
  /** The milestone whose promised date is late and can be promised again. */
  readonly promise: DatedMilestone | null;
  readonly word: string;
};

/** Why a room is slower than planned: hours that did not count, and the assumed air. */
function whyWords(room: CuringRoom, milestone: DatedMilestone, { units, locale }: Saying): string {
  const { log, leastCureTempC } = room.schedule;
  const hours = Math.round(log.hoursStoodStill);
  const still =
    hours < 1
      ? ''
      : ` Curing paused ${formatNumber(hours, { most: 0 }, locale)} ${hours === 1 ? 'hour' : 'hours'} below ${formatTemperature(leastCureTempC, units, locale)}.`;
  const air = formatTemperature(roomAir(room.room, room.jobRoom).tempC, units, locale);
  return `For ${milestoneName(milestone)} in ${theRoom(room.room.name)}.${still} ${air} is assumed from now on.`;
}

/** What another room waits for; a late promise comes first. */
function otherWords(reading: JobReading, rooms: readonly CuringRoom[], roomId: string, say: Saying): string | null {
  const others = rooms.filter((r) => r.id !== roomId);
  const late = others.find((r) => dateToPromise(r, say.now) !== null);
  const open =
    late ?? others.find((r) => nextStep(reading.bundle, r.id, reading.whole.business, say.now)?.action?.label === 'Enter a test');
  const next = open === undefined ? null : nextStep(reading.bundle, open.id, reading.whole.business, say.now);
  if (open === undefined || next === null) return null;
  return late === undefined ? next.sentence : `${open.room.name}: ${next.sentence}`;
}

/** A late promised date and the one to promise now; null when none is owed. */
function lateFoot(room: DatedRoom, why: (milestone: DatedMilestone) => string, say: Saying): Omit<CureFoot, 'other'> | null {
  const late = dateToPromise(room, say.now);
  if (late === null) return null;
  const short = statedDate(late.milestone, say);
  const to = isStatedAsDay(late.milestone.kind) ? formatInstantDay(late.statedAt, say.zone, 'long', say.locale) : short;
  return {
    text: `${promisedWords(late.promise, say)} was promised. ${to} is the date to promise now.`,
    why: why(late.milestone),
    promise: late.milestone,
    word: `Promise ${short}`,
  };
}

/** The buttons on Pour that end what a placed floor waits for. */
const buttonWords = ({ patches, toCheckM2 }: FloorRest): string =>
  [...(patches.length > 0 ? ['“Repaired”'] : []), ...(toCheckM2 > 0 ? ['“Checked, sound”'] : [])].join(' and ');

/** The foot of the screen for a room. */
export function cureFoot(reading: JobReading, rooms: readonly CuringRoom[], roomId: string, say: Saying): CureFoot {
  const other = otherWords(reading, rooms, roomId, say);
  const cureRoom = rooms.find((r) => r.id === roomId);
  if (cureRoom === undefined) {
    const planned = plannedRoom(reading, roomId, say.now);
    const late = planned === null ? null : lateFoot(planned, (m) => `For ${milestoneName(m)}, by the pour as planned.`, say);
    return { ...(late ?? { text: 'Not poured yet.', why: '', promise: null, word: 'Go to Pour' }), other };
  }
  if (!cureRoom.whole)
    return {
      text: openWords(cureRoom),
      why: `The dates here are for the ${cureRoom.openM2 > 0 ? 'part' : 'lift'} that is placed.`,
      other,
      promise: null,
      word: 'Go to Pour',
    };
  const { cover, clearance } = cureRoom.schedule;
  const late = lateFoot(cureRoom, (m) => whyWords(cureRoom, m, say), say);
  if (late !== null) return { ...late, other };
  const go = { other, promise: null, word: 'Go to Handover' };
  const why = clearance === null ? '' : clearanceWords(clearance);
  if (cureRoom.rest !== null)
    return {
      other,
      promise: null,
      text: repairStep(cureRoom.rest, theRoom(cureRoom.room.name), cureRoom.schedule, say),
      why: `On Pour, select ${buttonWords(cureRoom.rest)} once it is done.`,
      word: 'Go to Pour',
    };
  const laid = laidWords(cureRoom, say.locale);
  if (laid !== null) return { ...go, text: laid, why: '' };
  if (isCleared(cureRoom, say.now)) return { ...go, text: cover === null ? 'Ready for use.' : 'Cleared for flooring.', why };
  if (cover === null) return { ...go, text: 'Waiting only for the data sheet’s cure time.', why: 'No flooring is chosen.' };
  if (cover.statedAt === null)
    return isTooCold(cureRoom.schedule)
      ? { ...go, text: 'Curing is paused: the room is too cold.', why: 'Warm the room, or enter its temperature.' }
      : { ...go, text: 'No date: the air is too damp for the floor to dry.', why: 'Lower the humidity, or enter it again.' };
  const text =
    failedTestStep(clearance, theRoom(cureRoom.room.name), say.zone, say.locale) ??
    (isTestDue(cureRoom.schedule, say.now) ? `Test ${theRoom(cureRoom.room.name)} before ${milestoneName(cover)}.` : null);
  if (text !== null) return { other, promise: null, text, why, word: 'Enter a test' };
  return {
    ...go,
    text: `Plan on ${formatInstantDay(cover.statedAt, say.zone, 'long', say.locale)} for ${milestoneName(cover)}.`,
    why,
  };
}

/** When the floors are handed over, and the dates promised of them, for the whole job. */
export function standingWords(rooms: readonly CuringRoom[], { whole: { job } }: JobReading, { zone, locale }: Saying): string {
  const handed = job.rooms.flatMap(({ handedOverAt }) => handedOverAt ?? []).toSorted();
  const lastAt = handed.length === job.rooms.length ? handed.at(-1) : undefined;
  const over =
    lastAt !== undefined
      ? `Handed over ${formatInstantDay(lastAt, zone, 'short', locale)}.`
      : job.handoverAt === null
        ? 'No handover date is set.'
        : `Handover planned for ${formatInstant(job.handoverAt, zone, 'weekday', locale)}.`;
  const promises = rooms.flatMap((r) => r.promises);
  const madeAt = promises
    .map((p) => p.madeAt)
    .sort()
    .at(-1);
  if (madeAt === undefined) return `${over} No dates promised yet.`;
  return `${over} ${countWords(promises.length, 'promised date', locale)}, the last made on ${formatInstantDay(madeAt, zone, 'short', locale)}.`;
}
