/** Days of the week by name. */
import { DEFAULT_LOCALE } from './number.ts';

/** A Monday, to count the days of a week from. */
const MONDAY_MS = Date.UTC(2024, 0, 1);
const DAY_MS = 86_400_000;

/**
 * A day of the week by its name: 1 is Monday, 7 is Sunday (ISO 8601).
 * @param locale BCP 47 tag
 */
export function weekdayName(day: number, locale: string = DEFAULT_LOCALE): string {
  return new Intl.DateTimeFormat(locale, { weekday: 'long', timeZone: 'UTC' }).format(MONDAY_MS + (day - 1) * DAY_MS);
}
