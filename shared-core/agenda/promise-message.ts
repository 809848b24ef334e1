/** What to write to a customer whose date has moved: ready to send, never sent by itself. */
import { FLOORING_NAME } from '../cure/clearance-tests.ts';
import type { PromiseVerdict } from '../cure/promise-verdict.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { formatInstant, formatInstantDay } from '../measure/moment.ts';
import { capital, roomWords } from '../standing/names.ts';

export type MessageFacts = {
  readonly verdict: PromiseVerdict;
  readonly milestone: DatedMilestone;
  readonly customerName: string;
  readonly roomName: string;
  readonly ownerName: string;
  readonly timeZone: string;
  readonly locale: string;
};

export type ReadyMessage = { readonly subject: string; readonly body: string };

/** A short message that owns up to the change, says why in one line, and gives the new date with its range. */
export function promiseMessage(facts: MessageFacts): ReadyMessage {
  const { verdict, milestone, timeZone, locale } = facts;
  const day = (at: string | null) => (at === null ? null : formatInstantDay(at, timeZone, 'long', locale));
  // A covering is promised for a day, anything sooner for a time.
  const told =
    milestone.kind === 'cover' ? day(verdict.promise.promisedFor) : formatInstant(verdict.promise.promisedFor, timeZone, 'long', locale);
  const what = milestone.flooring === null ? milestone.name : FLOORING_NAME[milestone.flooring];
  const [likely, latest] = [day(milestone.likelyAt), day(milestone.latestAt)];
  const now =
    likely === null
      ? 'The floor is too cold to go on curing; as soon as the room is warm again I will give you a date.'
      : `I now expect ${likely}${latest === null || latest === likely ? '' : `, at the latest ${latest}`}.`;
  const test = milestone.clearanceTest === null ? '' : ' I will test the floor before anything goes on it.';
  return {
    subject: `${capital(facts.roomName)}: a new date for ${what}`,
    body: [
      `Dear ${facts.customerName},`,
      `On ${day(verdict.promise.madeAt) ?? ''} I told you ${told ?? ''} for ${what} in the ${roomWords(facts.roomName)}. The room has been colder or damper than we reckoned with, and the floor needs longer. ${now}${test}`,
      'A warm, aired room helps: please keep the heating steady and the windows as we agreed.',
      facts.ownerName,
    ].join('\n\n'),
  };
}
