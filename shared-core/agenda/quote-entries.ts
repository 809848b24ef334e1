/** Quotes to finish and to follow up, and lab results to wait for. */
import { addDaysToDay, formatDay } from '../measure/day.ts';
import { dayOfInstant, startOfDay } from '../measure/moment.ts';
import type { Quote } from '../book/quote.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import { labAnswer } from '../standing/lab-answer.ts';
import { customerWords, listed, roomWords, whose } from '../standing/names.ts';

/** Days until a lab result when no due date is entered. Typical. */
const LAB_DAYS = 7;

/** When an undecided quote has expired. */
const expiryOf = ({ validUntil, timeZone }: Quote): string => startOfDay(addDaysToDay(validUntil, 1), timeZone);

/** The day a quote is due for; null for none, and for a day that an issued revision met. */
function quoteDueOn({ bundle: { job }, quote }: EntryMaker): string | null {
  const dueOn = job.quotePromisedOn;
  // A day after the last one of an expired revision is for the next.
  return dueOn !== null && (quote === null || (quote.state === 'expired' && dueOn > quote.validUntil)) ? dueOn : null;
}

function finishQuote(make: EntryMaker): readonly AgendaEntry[] {
  const { customer } = make.bundle;
  const dueOn = quoteDueOn(make);
  if (dueOn === null) return [];
  const open = make.rooms.filter((r) => r.summary?.bags == null);
  const roomNames = open.map((r) => roomWords(r.room.name));
  const rest = roomNames.length === 0 ? '' : ` Not priced yet: ${listed(roomNames)}.`;
  return [
    make.allDay(
      {
        kind: 'finish-quote',
        name: '1',
        roomIds: make.rooms.map((r) => r.room.id),
        event: 'finish quote',
        verb: 'Finish',
        rest: `${whose(customer.name)} quote.${rest}`,
        toDo: true,
        promised: true,
        stage: 'quote',
      },
      dueOn,
    ),
  ];
}

function quoteExpires(make: EntryMaker): readonly AgendaEntry[] {
  const { quote } = make;
  if (quote?.state !== 'issued') return [];
  return [
    make.allDay(
      {
        kind: 'quote-expires',
        name: String(quote.revision),
        roomIds: make.rooms.map((r) => r.room.id),
        event: 'quote expires',
        verb: 'Call',
        rest: `${customerWords(make.bundle.customer.name)}. The quote expires at the end of the day.`,
        settledAt: expiryOf(quote),
        toDo: true,
        stage: 'quote',
      },
      quote.validUntil,
    ),
  ];
}

/** An expired quote, from the day after its last one, whether or not that is recorded. */
function quoteExpired(make: EntryMaker): readonly AgendaEntry[] {
  const { quote } = make;
  if (quote === null || (quote.state !== 'issued' && quote.state !== 'expired') || quoteDueOn(make) !== null) return [];
  const roomIds = make.rooms.map((r) => r.room.id);
  const or = quote.state === 'issued' ? 'record the quote as expired' : 'archive the job';
  const rest = `a revision for ${customerWords(make.bundle.customer.name)}, or ${or}. The quote expired after ${formatDay(quote.validUntil, 'short', make.locale)}.`;
  const own = { kind: 'quote-expired' as const, name: String(quote.revision), roomIds, event: 'quote expired', toDo: true };
  return [make.undated({ ...own, verb: 'Issue', rest, stage: 'quote' }, dayOfInstant(expiryOf(quote), make.zone))];
}

/** Days after which a quote without a decision is followed up. Common practice, no source. */
const FOLLOW_UP_DAYS = 3;

function quoteWaits(make: EntryMaker): readonly AgendaEntry[] {
  const { quote } = make;
  if (quote?.state !== 'issued') return [];
  const issuedOn = dayOfInstant(quote.issuedAt, quote.timeZone);
  const day = addDaysToDay(issuedOn, FOLLOW_UP_DAYS);
  if (day >= quote.validUntil) return [];
  return [
    make.allDay(
      {
        kind: 'quote-waits',
        name: String(quote.revision),
        roomIds: make.rooms.map((r) => r.room.id),
        event: 'follow up on quote',
        verb: 'Follow up',
        rest: `with ${customerWords(make.bundle.customer.name)}. The quote of ${formatDay(issuedOn, 'short', make.locale)} waits for a decision.`,
        settledAt: expiryOf(quote),
        toDo: true,
        stage: 'quote',
      },
      day,
    ),
  ];
}

/** Unsigned change orders: the work they affect is on hold. */
function ordersWait(make: EntryMaker): readonly AgendaEntry[] {
  const orders = (make.quote?.orders ?? []).filter((order) => order.state === 'issued');
  return orders.map((order) =>
    make.allDay(
      {
        kind: 'order-waits',
        name: order.id,
        roomIds: order.roomIds.filter((id) => make.rooms.some((r) => r.room.id === id)),
        event: 'sign change order',
        verb: 'Get',
        rest: `change order ${order.number} signed by ${customerWords(make.bundle.customer.name)}.`,
        toDo: true,
        stage: 'quote',
      },
      dayOfInstant(order.issuedAt, make.zone),
    ),
  );
}

function labResults(make: EntryMaker): readonly AgendaEntry[] {
  return make.rooms.flatMap((facts) =>
    facts.room.tests.flatMap((t) => {
      if (t.kind !== 'lab' || t.state !== 'sent' || labAnswer(facts.room.tests, t) !== null) return [];
      const due = t.dueOn ?? addDaysToDay(dayOfInstant(t.takenAt, make.zone), LAB_DAYS);
      const own = {
        kind: 'lab-result' as const,
        name: t.id,
        roomIds: [facts.room.id],
        event: 'lab result due',
        verb: 'Enter',
        rest: `the lab result for ${make.theRooms([facts])}.`,
        note: t.dueOn === null ? 'No due date recorded. A week is typical.' : null,
        toDo: true,
        stage: 'assess' as const,
      };
      return [make.allDay(own, due)];
    }),
  );
}

/** Entries about quotes and lab results. */
export function quoteEntries(make: EntryMaker): readonly AgendaEntry[] {
  return [
    ...finishQuote(make),
    ...quoteWaits(make),
    ...quoteExpires(make),
    ...quoteExpired(make),
    ...ordersWait(make),
    ...labResults(make),
  ];
}
