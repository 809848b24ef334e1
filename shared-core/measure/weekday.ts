/** Days of the week by name. */
import { DEFAULT_LOCALE } from './number.ts';

/** A Monday, as the origin for counting weekdays. */
const MONDAY_MS = Date.UTC(2024, 0, 1);
const DAY_MS = 86_400_000;

/** The name of a weekday: 1 is Monday, 7 is Sunday (ISO 8601). */
export function weekdayName(day: number, locale: string = DEFAULT_LOCALE): string {
  return new Intl.DateTimeFormat(locale, { weekday: 'long', timeZone: 'UTC' }).format(MONDAY_MS + (day - 1) * DAY_MS);
}

/** Formats weekdays as a list, with a run of three or more as a range: `Monday to Friday`. */
export function formatWeekdays(days: readonly number[], locale: string = DEFAULT_LOCALE): string {
  const sorted = days.toSorted((a, b) => a - b);
  const [first] = sorted;
  const last = sorted.at(-1);
  if (first !== undefined && last !== undefined && sorted.length > 2 && last - first === sorted.length - 1)
    return `${weekdayName(first, locale)} to ${weekdayName(last, locale)}`;
  return new Intl.ListFormat(locale, { type: 'conjunction' }).format(sorted.map((day) => weekdayName(day, locale)));
}
