/** The message to a customer whose promised date has moved. It is never sent automatically. */
import { isSealed } from '../book/flooring.ts';
import type { JobRoom } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import type { CureSchedule } from '../cure/cure-schedule.ts';
import type { PromiseVerdict } from '../cure/promise-verdict.ts';
import type { WorkCalendar } from '../cure/stated-date.ts';
import { roomFloor } from '../pour/placed-floor.ts';
import { standingQuote } from '../standing/job-bundle.ts';
import { statedDateWords } from '../standing/time-words.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import { capital } from '../measure/first-letter.ts';
import { theRoom } from '../standing/names.ts';
import { FLOORING_NAME, milestoneName } from '../standing/cure-words.ts';

/** When the first pour of the floor started, or is planned to start, and the pour date the quote was made for. */
export type PourTimes = { readonly at: string; readonly poured: boolean; readonly quotedFor: string | null };

/** The first pour of a room: a quote's date is that of the first lift too. */
export function pourTimes(
  whole: WholeJob,
  { jobRoom, schedule }: { readonly jobRoom: JobRoom; readonly schedule: Pick<CureSchedule, 'placedAt'> },
): PourTimes {
  const { roomId } = jobRoom;
  const [first] = roomFloor(whole.pours, whole.pourEvents, roomId).pours;
  return {
    at: first?.startedAt ?? jobRoom.pourAt ?? schedule.placedAt,
    poured: first !== undefined,
    quotedFor: standingQuote(whole)?.frozen.job.rooms.find((r) => r.roomId === roomId)?.pourAt ?? null,
  };
}

export type MessageFacts = {
  readonly verdict: PromiseVerdict;
  /** The new date to promise; null while there is none. */
  readonly promisedFor: string | null;
  readonly pour: PourTimes;
  readonly customerName: string;
  readonly roomName: string;
  readonly ownerName: string;
  /** How to keep the room while its floor dries, in sentences; none before the pour. */
  readonly care: readonly string[];
  readonly place: WorkCalendar;
  readonly locale: string;
};

export type ReadyMessage = { readonly subject: string; readonly body: string };

/** Why the date moved, as far as the records say. */
function reasonWords({ verdict, pour, place, locale }: MessageFacts): string {
  const day = formatInstantDay(pour.at, place.zone, 'long', locale);
  if (verdict.awaitsRest) return 'Part of the floor is still to be placed.';
  if (!pour.poured) return `The pour is now planned for ${day}.`;
  if (verdict.byAir) return 'The room has been colder or more humid than planned, so the floor needs more time.';
  const isLater = pour.quotedFor !== null && dayOfInstant(pour.at, place.zone) > dayOfInstant(pour.quotedFor, place.zone);
  return isLater && verdict.promise.madeAt < pour.at ? `We poured on ${day}, later than planned.` : 'The floor needs more time.';
}

/** The new date, or why there is none yet. */
function newDateWords({ verdict, promisedFor, place, locale }: MessageFacts): string {
  const { awaitsRest, milestone } = verdict;
  const { kind, statedAt } = milestone;
  if (promisedFor !== null) return `The new date is ${statedDateWords(kind, promisedFor, place, 'long', locale)}.`;
  return statedAt === null && !awaitsRest
    ? 'The room is too cold or too damp for the floor to dry. I will give you a date as soon as that changes.'
    : 'I will give you the new date as soon as I can.';
}

/** States the change, the reason in one line, and the new date. */
export function promiseMessage(facts: MessageFacts): ReadyMessage {
  const { verdict, place, locale } = facts;
  const { milestone } = verdict;
  const room = theRoom(facts.roomName);
  const covering = milestone.flooring === null ? milestoneName(milestone) : FLOORING_NAME[milestone.flooring];
  const promisedDay = statedDateWords(milestone.kind, verdict.promise.promisedFor, place, 'short', locale);
  const hasTest = milestone.clearanceTest !== null && !milestone.clearanceTest.byHours;
  const goes = isSealed(milestone.flooring) ? 'The sealer goes on' : 'Flooring goes down';
  const test = hasTest ? ` ${goes} only after the floor passes its moisture test.` : '';
  return {
    subject: `${capital(facts.roomName)}: new date for ${covering}`,
    body: [
      `Dear ${facts.customerName},`,
      `On ${formatInstantDay(verdict.promise.madeAt, place.zone, 'short', locale)}, I gave you ${promisedDay} as the date for ${covering} in ${room}. ${reasonWords(facts)} ${newDateWords(facts)}${test}`,
      ...(facts.care.length === 0 ? [] : [facts.care.join(' ')]),
      facts.ownerName,
    ].join('\n\n'),
  };
}
