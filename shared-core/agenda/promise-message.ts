/** The message to a customer whose promised date has moved. It is never sent automatically. */
import type { PromiseVerdict } from '../cure/promise-verdict.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import type { WorkCalendar } from '../cure/stated-date.ts';
import { statedDateWords } from '../standing/time-words.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { capital, roomWords } from '../standing/names.ts';
import { FLOORING_NAME, milestoneName } from '../standing/cure-words.ts';

export type MessageFacts = {
  readonly verdict: PromiseVerdict;
  readonly milestone: DatedMilestone;
  readonly customerName: string;
  readonly roomName: string;
  readonly ownerName: string;
  readonly place: WorkCalendar;
  readonly locale: string;
};

export type ReadyMessage = { readonly subject: string; readonly body: string };

/** States the change, the reason in one line, and the new date. */
export function promiseMessage(facts: MessageFacts): ReadyMessage {
  const { verdict, milestone, place, locale } = facts;
  const room = roomWords(facts.roomName);
  const covering = milestone.flooring === null ? milestoneName(milestone) : FLOORING_NAME[milestone.flooring];
  const promisedDay = statedDateWords(milestone.kind, verdict.promise.promisedFor, place, 'long', locale);
  const now =
    milestone.statedAt === null
      ? 'The room is too cold or too damp for the floor to dry. I will give you a date as soon as that changes.'
      : `The new date is ${statedDateWords(milestone.kind, milestone.statedAt, place, 'long', locale)}.`;
  const hasTest = milestone.clearanceTest !== null && !milestone.clearanceTest.byHours;
  const test = hasTest ? ' I will test the floor before any flooring goes down.' : '';
  return {
    subject: `${capital(facts.roomName)}: new date for ${covering}`,
    body: [
      `Dear ${facts.customerName},`,
      `On ${formatInstantDay(verdict.promise.madeAt, place.zone, 'long', locale)} I told you ${promisedDay} for ${covering} in the ${room}. The room has been colder or more humid than planned, so the floor needs more time. ${now}${test}`,
      'Please keep the heat steady and the windows as we agreed.',
      facts.ownerName,
    ].join('\n\n'),
  };
}
