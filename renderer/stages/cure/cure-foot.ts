/** The state of the cure in one sentence, and the action that moves the room on. */
import { isCleared } from '../../../shared-core/standing/room-cure.ts';
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { roomWords } from '../../../shared-core/standing/names.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { isTooCold } from '../../../shared-core/cure/cure-schedule.ts';
import { isStatedAsDay } from '../../../shared-core/cure/stated-date.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { clearanceWords, milestoneName } from '../../../shared-core/standing/cure-words.ts';
import { type CuringRoom, isFor, openWords, promisedWords, type Saying, statedDate, verdictOn } from './cure-room.ts';

export type CureFoot = {
  readonly text: string;
  readonly why: string;
  /** What another room of the job needs; null for nothing. */
  readonly other: string | null;
  /** The milestone whose promised date is late. */
  readonly promise: DatedMilestone | null;
  readonly word: string;
};

/** The latest promised date that is late. */
function broken(room: CuringRoom): DatedMilestone | null {
  const { gravest } = room.schedule;
  if (gravest?.state !== 'late') return null;
  return room.schedule.milestones.find((m) => isFor(gravest.promise, m, room.jobRoom.flooring)) ?? null;
}

/** Why a room is slower than planned: hours that did not count, and the assumed air. */
function whyWords(room: CuringRoom, milestone: DatedMilestone, { units, locale }: Saying): string {
  const { log, leastCureTempC } = room.schedule;
  const hours = Math.round(log.hoursStoodStill);
  const still =
    hours < 1
      ? ''
      : ` Curing paused ${formatNumber(hours, { most: 0 }, locale)} ${hours === 1 ? 'hour' : 'hours'} below ${formatTemperature(leastCureTempC, units, locale)}.`;
  const air = formatTemperature(roomAir(room.room, room.jobRoom).tempC, units, locale);
  return `For ${milestoneName(milestone)} in the ${roomWords(room.room.name)}.${still} ${air} is assumed from now on.`;
}

/** What another room waits for; a late promise comes first. */
function otherWords(reading: JobReading, rooms: readonly CuringRoom[], roomId: string, say: Saying): string | null {
  const others = rooms.filter((r) => r.id !== roomId);
  const late = others.find((r) => broken(r) !== null);
  const open =
    late ?? others.find((r) => nextStep(reading.bundle, r.id, reading.whole.business, say.now)?.action?.label === 'Enter a test');
  const next = open === undefined ? null : nextStep(reading.bundle, open.id, reading.whole.business, say.now);
  if (open === undefined || next === null) return null;
  return late === undefined ? next.sentence : `${open.room.name}: ${next.sentence}`;
}

/** The foot of the screen for a room. */
export function cureFoot(reading: JobReading, rooms: readonly CuringRoom[], roomId: string, say: Saying): CureFoot {
  const other = otherWords(reading, rooms, roomId, say);
  const cureRoom = rooms.find((r) => r.id === roomId);
  if (cureRoom === undefined) return { text: 'Not poured yet.', why: '', other, promise: null, word: 'Go to Pour' };
  if (!cureRoom.whole)
    return {
      text: openWords(cureRoom),
      why: `The dates here are for the ${cureRoom.openM2 > 0 ? 'part' : 'lift'} that is placed.`,
      other,
      promise: null,
      word: 'Go to Pour',
    };
  const { cover, clearance } = cureRoom.schedule;
  const late = broken(cureRoom);
  const verdict = late === null ? null : verdictOn(cureRoom, late);
  if (late !== null && late.statedAt !== null && verdict !== null) {
    const isDay = isStatedAsDay(late.kind);
    const to = isDay ? formatInstantDay(late.statedAt, say.zone, 'long', say.locale) : statedDate(late, say);
    const short = statedDate(late, say);
    return {
      text: `${promisedWords(verdict.promise, say)} was promised. ${to} is the date to promise now.`,
      why: whyWords(cureRoom, late, say),
      other,
      promise: late,
      word: `Promise ${short}`,
    };
  }
  const go = { other, promise: null, word: 'Go to Handover' };
  const why = clearance === null ? '' : clearanceWords(clearance);
  if (isCleared(cureRoom, say.now)) return { ...go, text: cover === null ? 'Ready for use.' : 'Cleared for flooring.', why };
  if (cover === null) return { ...go, text: 'Waiting only for the data sheet’s cure time.', why: 'No flooring is chosen.' };
  if (cover.statedAt === null)
    return isTooCold(cureRoom.schedule)
      ? { ...go, text: 'Curing is paused: the room is too cold.', why: 'Warm the room, or enter its temperature.' }
      : { ...go, text: 'No date: the air is too damp for the floor to dry.', why: 'Lower the humidity, or enter it again.' };
  const byHours = clearance?.requirement.byHours === true;
  if (!byHours && cover.earliestAt !== null && cover.earliestAt <= say.now)
    return {
      other,
      promise: null,
      text: `Test the ${roomWords(cureRoom.room.name)} before ${milestoneName(cover)}.`,
      why,
      word: 'Enter a test',
    };
  return {
    ...go,
    text: `Plan on ${formatInstantDay(cover.statedAt, say.zone, 'long', say.locale)} for ${milestoneName(cover)}.`,
    why,
  };
}
