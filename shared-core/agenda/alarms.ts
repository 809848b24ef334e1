/** Minutes before an entry when a reminder is due, in calendar files and in notifications. */
import { clockOfInstant, dayOfInstant, instantAt, startOfDay } from '../measure/moment.ts';
import { addDaysToDay } from '../measure/day.ts';
import type { AgendaEntry, EntryKind } from './agenda-entry.ts';

/** Minutes before the start, or before a limit. Common practice, no source. */
export const ALARMS_MIN: Readonly<Record<EntryKind, readonly number[]>> = {
  'finish-quote': [],
  'quote-waits': [],
  'quote-expires': [],
  'order-waits': [],
  'lab-result': [],
  'prep-visit': [60],
  'primer-window': [4 * 60],
  pour: [12 * 60, 60],
  'walk-on': [],
  'next-lift': [],
  'clearance-test': [],
  cover: [],
  promise: [],
  visit: [60],
  'invoice-ready': [],
  'payment-due': [],
  'refund-due': [],
  'lien-notice': [],
  'lien-deadline': [],
  handover: [60],
  'pour-date': [],
  'quote-expired': [],
  'handover-date': [],
  'lead-visit': [60],
  'lead-step': [],
};

/** Alarms of whole-day events, minutes before midnight: negative is on the day itself. A task rings at 8 am, and hours before a limit (above). */
const AT_8_AM: readonly number[] = [-8 * 60];
export const DAY_ALARMS_MIN: Readonly<Record<EntryKind, readonly number[]>> = {
  'finish-quote': AT_8_AM,
  'quote-waits': AT_8_AM,
  'quote-expires': AT_8_AM,
  'order-waits': AT_8_AM,
  'lab-result': AT_8_AM,
  'prep-visit': [],
  'primer-window': [],
  pour: [],
  'walk-on': [],
  'next-lift': AT_8_AM,
  'clearance-test': AT_8_AM,
  cover: [],
  promise: AT_8_AM,
  visit: [],
  'invoice-ready': [],
  'payment-due': AT_8_AM,
  'refund-due': AT_8_AM,
  'lien-notice': AT_8_AM,
  'lien-deadline': AT_8_AM,
  handover: [],
  'pour-date': [],
  'quote-expired': [],
  'handover-date': [],
  'lead-visit': [],
  'lead-step': AT_8_AM,
};

const WAKING = { from: '07:00', to: '21:00', evening: '20:00' } as const;

/** Moves an alarm at night to the evening before, so that it is seen in time. */
export function wakingAlarms(startAt: string, minutesBefore: readonly number[], zone: string): readonly number[] {
  const moved = minutesBefore.map((minutes) => {
    const instant = new Date(Date.parse(startAt) - minutes * 60_000).toISOString();
    const clock = clockOfInstant(instant, zone);
    if (clock >= WAKING.from && clock <= WAKING.to) return minutes;
    const day = dayOfInstant(instant, zone);
    const evening = instantAt(clock < WAKING.from ? addDaysToDay(day, -1) : day, WAKING.evening, zone);
    return evening.ok ? Math.round((Date.parse(startAt) - Date.parse(evening.value.instant)) / 60_000) : minutes;
  });
  return [...new Set(moved)].sort((a, b) => b - a);
}

type Alarmed = Pick<AgendaEntry, 'kind' | 'toDo' | 'onSite' | 'instant' | 'arriveAt' | 'timeZone'>;

/** Minutes before the start of an entry's event in a calendar file, which is a whole day unless the crew is there. None where nobody has to act. */
export function calendarAlarms({ kind, toDo, onSite, instant, arriveAt, timeZone }: Alarmed): readonly number[] {
  if (!toDo) return [];
  if (onSite) return wakingAlarms(arriveAt, ALARMS_MIN[kind], timeZone);
  const intoDayMin = (Date.parse(instant) - Date.parse(startOfDay(dayOfInstant(instant, timeZone), timeZone))) / 60_000;
  return [...wakingAlarms(instant, ALARMS_MIN[kind], timeZone).map((minutes) => Math.round(minutes - intoDayMin)), ...DAY_ALARMS_MIN[kind]];
}
