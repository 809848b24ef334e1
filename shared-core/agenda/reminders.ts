/** Reminders: when each entry is due, and the text of the notification. Each is shown once. */
import { instantAt } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { type Agenda, isSettled } from './agenda.ts';
import { type AgendaEntry, isBrokenPromise } from './agenda-entry.ts';
import { ALARMS_MIN, wakingAlarms } from './alarms.ts';
import { type DayNumber, dayNumberAt, dayOfNumber } from '../standing/local-days.ts';
import { capital } from '../measure/first-letter.ts';
import { minutesLater, timeWords } from '../standing/time-words.ts';
import { dayFromToday } from './today.ts';

export type Reminder = {
  /** The entry and its moment, so that a moved entry is a new reminder. */
  readonly key: string;
  /** The instant it is due; empty for at once. */
  readonly instant: string;
  readonly entry: AgendaEntry;
};

export type Notice = { readonly title: string; readonly body: string };

/** Lines that a system notification shows before it truncates. */
const LINES = 4;
const TITLE_LENGTH = 120;
const BODY_LENGTH = 400;

function momentsOf(entry: AgendaEntry, whole: Agenda): readonly string[] {
  if (entry.isUnderWay) return [];
  if (entry.kind === 'walk-on') return [entry.instant];
  if (!entry.toDo || entry.dueAt === null) return [];
  const alarms = ALARMS_MIN[entry.kind];
  // Before a visit the crew is up early. A limit at night is announced the evening before.
  const before = entry.onSite ? alarms : wakingAlarms(entry.instant, alarms, entry.timeZone);
  if (before.length > 0) return before.map((minutes) => minutesLater(entry.instant, -minutes));
  if (!entry.allDay) return [entry.instant];
  // A whole-day entry is due at the start of working hours in the property's time zone.
  const opening = instantAt(dayOfNumber(entry.day), whole.business.hours.from, entry.timeZone);
  return [opening.ok ? opening.value.instant : entry.instant];
}

/**
 * Every reminder of the agenda, due or not. @param whole the agenda of all jobs
 */
export function remindersOf(whole: Agenda): readonly Reminder[] {
  return whole.entries.flatMap((entry): Reminder[] =>
    isBrokenPromise(entry)
      ? [{ key: `${entry.key} broken`, instant: '', entry }]
      : momentsOf(entry, whole).map((instant) => ({ key: `${entry.key} ${instant}`, instant, entry })),
  );
}

/**
 * Reminders due now that were not shown before.
 * @param since when reminders were switched on; what came due before is only on Today
 * @param shownKeys keys of those shown already
 */
export function remindersDue(all: readonly Reminder[], since: string, now: string, shownKeys: ReadonlySet<string>): readonly Reminder[] {
  return all.filter(
    ({ key, instant, entry }) => !shownKeys.has(key) && !isSettled(entry, now) && (instant === '' || (instant > since && instant <= now)),
  );
}

function whenWords(entry: AgendaEntry, now: string, locale: string): string {
  const today: DayNumber = dayNumberAt(now, entry.timeZone);
  const day = dayFromToday(entry.day, today, locale);
  if (isBrokenPromise(entry)) return `promised ${day}`;
  const clock = timeWords(entry.instant, entry.timeZone, locale);
  const time = entry.allDay || entry.rest.includes(clock) ? '' : clock;
  return [day, time].filter((w) => w !== '').join(', ');
}

const sentence = (entry: AgendaEntry): string => `${entry.verb} ${entry.rest}`.replace(/\.$/, '');
const cut = (text: string, length: number): string => (text.length <= length ? text : `${text.slice(0, length - 1)}…`);

/**
 * One notification for all that is due: the entry itself, or a count and the first few.
 * @param due at least one
 * @param opening whether the program was opened just now, so that they came due while it was closed
 */
export function reminderNotice(due: readonly Reminder[], opening: boolean, now: string, givenLocale: string): Notice {
  const locale = givenLocale === '' ? DEFAULT_LOCALE : givenLocale;
  // An entry with two past alarms is notified once.
  const entries = [...new Map(due.map(({ entry }) => [entry.key, entry])).values()];
  const [first] = entries;
  if (first === undefined) return { title: 'Nothing is due', body: '' };
  if (entries.length === 1)
    return {
      title: cut(capital(sentence(first)), TITLE_LENGTH),
      body: cut(
        [capital(whenWords(first, now, locale)), first.place]
          .filter((w) => w !== '')
          .join('. ')
          .concat(first.note === null ? '' : `\n${first.note}`),
        BODY_LENGTH,
      ),
    };
  const count = `${entries.length} reminders`;
  const lines = entries
    .slice(0, LINES)
    .map((entry) => cut(`${sentence(entry)} (${whenWords(entry, now, locale)})`, BODY_LENGTH / LINES - 5));
  const more = entries.length - LINES;
  return {
    title: opening ? `${count} came due while Straightedge was closed` : `${count} are due`,
    body: cut([...lines, ...(more > 0 ? [`${more} more on Today`] : [])].join('\n'), BODY_LENGTH),
  };
}
