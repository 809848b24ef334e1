/** Calendar days as numbers in a property's time zone, for drawing. */
import { zoneOffsetMs } from '../measure/moment.ts';

const DAY_MS = 86_400_000;

/** Days from January 1, 1970 in local time. The fraction is the time of day. */
export type DayNumber = number;

/** The day number of an instant in a zone, with the time of day as its fraction. */
export function dayNumberAt(instant: string, timeZone: string): DayNumber {
  const ms = Date.parse(instant);
  return (ms + zoneOffsetMs(ms, timeZone)) / DAY_MS;
}

/** The day that an instant lies on in any zone, each zone calculated once. */
export function dayInZones(instant: string): (timeZone: string) => DayNumber {
  const known = new Map<string, DayNumber>();
  return (timeZone) => {
    const day = known.get(timeZone) ?? Math.floor(dayNumberAt(instant, timeZone));
    known.set(timeZone, day);
    return day;
  };
}

/** The number of a calendar day `2026-05-12`. */
export function dayNumberOf(day: string): DayNumber {
  return Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS);
}

/** The calendar day of a day number. */
export function dayOfNumber(day: DayNumber): string {
  return new Date(Math.floor(day) * DAY_MS).toISOString().slice(0, 10);
}

/** Monday is 1, Sunday 7 (ISO 8601). January 1, 1970 was a Thursday. */
export function weekdayOfNumber(day: DayNumber): number {
  return ((((Math.floor(day) + 3) % 7) + 7) % 7) + 1;
}
