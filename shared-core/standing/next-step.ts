/** The next step of a room, from its status. */
import { isTooCold } from '../cure/cure-schedule.ts';
import { workCalendar } from '../cure/stated-date.ts';
import { isTestDue } from '../cure/test-days.ts';
import { statedDateWords } from './time-words.ts';
import { formatDay } from '../measure/day.ts';
import { deadlineDay, formatInstant, formatInstantDay, formatInstantTime } from '../measure/moment.ts';
import { DEFAULT_LOCALE, formatNumber } from '../measure/number.ts';
import { type AgendaBusiness, type JobBundle, type JobRoomFacts, roomsOf, standingQuote } from './job-bundle.ts';
import { capital } from '../measure/first-letter.ts';
import { theRoom } from './names.ts';
import { DEPOSIT_HOLD, ORDER_HOLD } from '../prep/pour-held.ts';
import { dateToPromise, primerWindow, roomCure } from './room-cure.ts';
import { nextPourAt, roomPour } from './room-pour.ts';
import { jobMoney } from './job-money.ts';
import { type AssessGap, type RoomQuote, type RoomStanding, roomStanding } from './room-standing.ts';
import type { Stage } from './stage.ts';
import { failedTestStep, milestoneName } from './cure-words.ts';
import { isSealed } from '../book/flooring.ts';
import { coverWait, repairStep } from './repair-words.ts';

export type NextStep = {
  readonly standing: RoomStanding;
  /** The room's status, in one or two sentences. */
  readonly sentence: string;
  /** The one action and the stage it opens. Null when there is nothing to do but wait. */
  readonly action: { readonly label: string; readonly opens: Exclude<Stage, 'done'> } | null;
};

type Asked = {
  readonly bundle: JobBundle;
  readonly facts: JobRoomFacts;
  readonly standing: RoomStanding;
  readonly business: AgendaBusiness;
  readonly now: string;
};
type Step = Pick<NextStep, 'sentence' | 'action'>;

const go = (sentence: string, label: string, opens: Exclude<Stage, 'done'>): Step => ({ sentence, action: { label, opens } });
const wait = (sentence: string): Step => ({ sentence, action: null });

const ASSESS_STEP: Readonly<Record<AssessGap, (room: string) => Step>> = {
  outline: (room) => go(`${capital(room)} is not drawn yet.`, 'Draw the room', 'assess'),
  readings: (room) => go(`${capital(room)} is drawn. Its floor needs at least three readings.`, 'Add readings', 'assess'),
  layers: () => go('The floor assembly is not recorded yet.', 'Describe the floor', 'assess'),
  flooring: () => go('No flooring is chosen. It sets the limits for the floor.', 'Choose the flooring', 'assess'),
  tests: () => go('The floor still needs tests.', 'Enter a test', 'assess'),
};

function assess({ facts, standing }: Asked): Step {
  const gap = standing.assessGaps[0];
  return gap === undefined ? go('The floor is assessed.', 'Go to Prep', 'prep') : ASSESS_STEP[gap](theRoom(facts.room.name));
}

/** `6 of 8 prep lines not signed.` */
export const linesOpen = (open: number, total: number): string => `${open} of ${total} prep ${total === 1 ? 'line' : 'lines'} not signed.`;

function prep({ standing }: Asked): Step {
  const { total, open, next } = standing.prep;
  return go(`${linesOpen(open, total)}${next === null ? '' : ` Next: ${next}.`}`, 'Sign the next line', 'prep');
}

function estimate({ facts, standing }: Asked): Step {
  if (standing.unsettled === 'doubt')
    return go('A reading is in doubt. Confirm or delete it under Readings.', 'Go to Estimate', 'estimate');
  if (facts.jobRoom.materialId === null) return go('No material is chosen.', 'Choose the material', 'estimate');
  return standing.bags !== null
    ? go('The estimate is not complete. Its notes say what is missing.', 'Go to Estimate', 'estimate')
    : go('Bags cannot be counted yet. A reading, the finish elevation, or a data sheet is missing.', 'Go to Estimate', 'estimate');
}

function quote({ bundle, facts, business, standing }: Asked): Step {
  const locale = business.locale || DEFAULT_LOCALE;
  const until = standingQuote(bundle)?.validUntil ?? '';
  const day = until === '' ? '' : formatDay(until, 'long', locale);
  const bags = standing.bags ?? 0;
  const steps: Readonly<Record<RoomQuote, Step>> = {
    none:
      standingQuote(bundle)?.state === 'accepted'
        ? go(`${capital(theRoom(facts.room.name))} is not in the contract yet.`, 'Write a change order', 'quote')
        : go(
            `${formatNumber(bags, { most: 0 }, locale)} ${bags === 1 ? 'bag' : 'bags'}. No quote is issued yet.`,
            'Issue the quote',
            'quote',
          ),
    issued: go(`The quote is with the customer. It is valid until ${day}.`, 'Record the decision', 'quote'),
    expired: go(`The quote expired after ${day}.`, 'Issue a revision', 'quote'),
    declined: go('The customer declined the quote.', 'Issue a revision', 'quote'),
    canceled: go('The contract was canceled.', 'Issue a revision', 'quote'),
    accepted: go('The customer accepted the quote.', 'Plan the pour', 'pour'),
  };
  return steps[standing.quoted];
}

function pour(asked: Asked): Step {
  const { bundle, facts, business, standing, now } = asked;
  const { jobRoom } = facts;
  const locale = business.locale || DEFAULT_LOCALE;
  const zone = bundle.property.timeZone;
  if (standing.poured === 'running') return go('The pour is under way.', 'Go to Pour', 'pour');
  const lift = standing.poured === 'part' ? liftSentence(standing) : '';
  const pourAt = nextPourAt(jobRoom, roomPour(bundle, facts).last, zone);
  if (pourAt === null) return go(`${lift}No pour date is set.`, 'Set the pour date', 'pour');
  const window = primerWindow(bundle, facts);
  if (window !== null && now > window.untilAt) return go(`${lift}The primer is past its limit.`, 'Prime again', 'prep');
  if (window !== null && now < window.fromAt) return wait(`${lift}The primer is dry at ${formatInstantTime(window.fromAt, zone, locale)}.`);
  return go(`${lift}Pour planned for ${formatInstant(pourAt, zone, 'long', locale)}.`, 'Go to Pour', 'pour');
}

const liftSentence = ({ lifts }: RoomStanding): string =>
  lifts.placed > 0 && lifts.placed < lifts.planned
    ? `Lift ${lifts.placed} of ${lifts.planned} is placed. `
    : 'Part of the floor is not placed yet. ';

function cure(asked: Asked): Step {
  const { bundle, facts, business, standing, now } = asked;
  const locale = business.locale || DEFAULT_LOCALE;
  const zone = bundle.property.timeZone;
  const curing = roomCure(bundle, facts, business);
  if (curing === null) return go('The poured material has no data sheet, so there are no dates.', 'Go to Pour', 'pour');
  const { schedule } = curing;
  const { cover } = schedule;
  const late = dateToPromise(curing, now);
  const place = workCalendar(business, zone);
  if (late !== null) {
    const words = (style: 'long' | 'short'): string => statedDateWords(late.milestone.kind, late.statedAt, place, style, locale);
    const promisedDay = formatDay(deadlineDay(late.promise.promisedFor, zone), 'short', locale);
    return go(`${promisedDay} was promised. ${words('long')} is the date to promise now.`, `Promise ${words('short')}`, 'cure');
  }
  if (curing.rest !== null)
    return go(
      repairStep(curing.rest, theRoom(facts.room.name), schedule, {
        units: business.units,
        locale,
      }),
      'Go to Pour',
      'pour',
    );
  if (cover === null)
    return standing.clearedFrom === null
      ? wait('Curing is paused because the room is too cold. Warm it, or record its temperature.')
      : go('Waiting only for the data sheet’s cure time.', 'Go to Handover', 'handover');
  if (cover.statedAt === null)
    return wait(
      isTooCold(schedule)
        ? 'Curing is paused because the room is too cold. Warm it, or record its temperature.'
        : 'The air is too damp for the floor to dry. Lower the humidity, or record it again.',
    );
  const failed = failedTestStep(schedule.clearance, theRoom(facts.room.name), zone, locale);
  if (failed !== null) return go(failed, 'Enter a test', 'cure');
  const byHours = cover.clearanceTest?.byHours === true;
  if (isTestDue(schedule, now)) return go(`Test ${theRoom(facts.room.name)} before ${milestoneName(cover)}.`, 'Enter a test', 'cure');
  return go(
    `Plan on ${formatInstantDay(cover.statedAt, zone, 'long', locale)} for ${milestoneName(cover)}${byHours ? '' : ', after its test'}.`,
    'Enter a reading',
    'cure',
  );
}

function handover({ bundle, business }: Asked): Step {
  const instant = bundle.job.handoverAt;
  const sentence =
    instant === null
      ? 'No handover date is set.'
      : `Handover planned for ${formatInstantDay(instant, bundle.property.timeZone, 'long', business.locale || DEFAULT_LOCALE)}.`;
  return go(sentence, 'Go to Handover', 'handover');
}

/** Empty where no quote was accepted. */
function paidWords({ bundle, business, now }: Asked): string {
  const { contract, isPaid, account } = jobMoney({ ...bundle, business }, now);
  if (contract === null) return '';
  if (!isPaid) return ' Not paid in full yet.';
  return account.writtenOffMinor === 0 ? ' Paid in full.' : ' Nothing is left to collect.';
}

function done(asked: Asked): Step {
  const { bundle, facts, business } = asked;
  const paid = paidWords(asked);
  const curing = roomCure(bundle, facts, business);
  return curing === null || curing.rest === null
    ? wait(
        `Handed over${(curing?.schedule.laidOn ?? null) === null ? ' and cleared' : `, and ${isSealed(facts.jobRoom.flooring) ? 'sealed' : 'the flooring is down'}`}.${paid}`,
      )
    : go(`Handed over. Part of this floor still waits for ${coverWait(curing) ?? ''}.${paid}`, 'Go to Pour', 'pour');
}

const STEP: Readonly<Record<Stage, (asked: Asked) => Step>> = {
  assess,
  prep,
  estimate,
  quote,
  pour,
  cure,
  handover,
  done,
};

/**
 * The next step of one room.
 * @param now instant
 * @returns null when the job does not have the room
 */
export function nextStep(bundle: JobBundle, roomId: string, business: AgendaBusiness, now: string): NextStep | null {
  const facts = roomsOf(bundle).find((r) => r.room.id === roomId);
  const standing = roomStanding(bundle, roomId, business, now);
  if (facts === undefined || standing === null) return null;
  const hold = standing.holds[0];
  const isOrder = hold?.key.startsWith(ORDER_HOLD) === true;
  const isDeposit = hold?.key === DEPOSIT_HOLD;
  const isStopped = hold !== undefined && (isOrder || (standing.stage === 'prep' && !isDeposit) || standing.stage === 'pour');
  const step = isStopped
    ? go(`On hold: ${hold.why}.`, 'See what clears it', isOrder ? 'quote' : isDeposit ? 'pour' : 'assess')
    : STEP[standing.stage]({ bundle, facts, standing, business, now });
  return { standing, ...step };
}
