/** Quotes to finish and to hear about, and laboratory results to wait for. */
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import { labAnswer } from '../standing/lab-answer.ts';
import { customerWords, listed, roomWords, whose } from '../standing/names.ts';

/** Days until a laboratory usually answers, while no day was given. Typical. */
const LABORATORY_DAYS = 7;

function finishQuote(make: EntryMaker): readonly AgendaEntry[] {
  const { job, customer } = make.bundle;
  if (job.quotePromisedOn === null || (make.quote !== null && make.quote.state !== 'lapsed')) return [];
  const open = make.rooms.filter((r) => r.summary?.bags == null);
  const still = open.map((r) => roomWords(r.room.name));
  const rest = still.length === 0 ? '' : `: the ${listed(still)} ${still.length === 1 ? 'is' : 'are'} still to price`;
  return [
    make.allDay(
      {
        kind: 'finish-quote',
        name: '1',
        roomIds: open.map((r) => r.room.id),
        verb: 'Finish',
        rest: `${whose(customer.name)} quote${rest}.`,
        toDo: true,
        promised: true,
        stage: 'quote',
      },
      job.quotePromisedOn,
    ),
  ];
}

function quoteLapses(make: EntryMaker): readonly AgendaEntry[] {
  const { quote } = make;
  if (quote?.state !== 'issued') return [];
  const who = customerWords(make.bundle.customer.name);
  return [
    make.allDay(
      {
        kind: 'quote-lapses',
        name: String(quote.revision),
        roomIds: make.rooms.map((r) => r.room.id),
        verb: 'Ring',
        rest: `${who} before the quote lapses.`,
        toDo: true,
        stage: 'quote',
      },
      quote.validUntil,
    ),
  ];
}

function laboratory(make: EntryMaker): readonly AgendaEntry[] {
  return make.rooms.flatMap((facts) =>
    facts.room.tests.flatMap((t) => {
      if (t.kind !== 'laboratory' || t.state !== 'sent' || labAnswer(facts.room.tests, t) !== null) return [];
      const due = t.dueOn ?? addDaysToDay(dayOfInstant(t.takenAt, make.zone), LABORATORY_DAYS);
      const own = {
        kind: 'lab-result' as const,
        name: t.id,
        roomIds: [facts.room.id],
        verb: 'Enter',
        rest: `the laboratory’s result for ${make.theRooms([facts])}.`,
        note: t.dueOn === null ? 'No day was given: a week is usual.' : null,
        toDo: true,
        stage: 'assess' as const,
      };
      return [make.allDay(own, due)];
    }),
  );
}

/** Entries about quotes and laboratory results. */
export function quoteEntries(make: EntryMaker): readonly AgendaEntry[] {
  return [...finishQuote(make), ...quoteLapses(make), ...laboratory(make)];
}
