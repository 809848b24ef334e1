/** Working days: the weekdays a business works, without the federal holidays of the US. */
import { allForYear } from '@18f/us-federal-holidays';
import { addDaysToDay } from './day.ts';

export type WorkWeek = {
  /** Weekdays worked; Monday is 1, Sunday 7 (ISO 8601). */
  readonly days: readonly number[];
  /** ISO 3166 code. Federal holidays are known for `US` only; elsewhere no holiday is. */
  readonly country: string;
};

const byYear = new Map<number, ReadonlyMap<string, string>>();

/** Holidays on the day they are observed, and on their own day where that is another one (5 U.S.C. 6103). */
function holidaysOf(year: number): ReadonlyMap<string, string> {
  const known = byYear.get(year);
  if (known !== undefined) return known;
  // New Year's Day on a Saturday is observed on December 31 of the year before.
  const all = [year, year + 1].flatMap((each) => [
    ...allForYear(each, { shiftSaturdayHolidays: false, shiftSundayHolidays: false }),
    ...allForYear(each, { shiftSaturdayHolidays: true, shiftSundayHolidays: true }),
  ]);
  const found = new Map(all.map(({ dateString, name }) => [dateString, name] as const));
  byYear.set(year, found);
  return found;
}

/** The US federal holiday on a day `2026-07-04`; null on any other day. */
export function federalHoliday(day: string): string | null {
  return holidaysOf(Number(day.slice(0, 4))).get(day) ?? null;
}

/** Monday is 1, Sunday 7. */
const weekdayOf = (day: string): number => new Date(`${day}T12:00:00Z`).getUTCDay() || 7;

/** Why nobody works on a day; null on a working day. */
export function dayOff(day: string, week: WorkWeek): string | null {
  if (week.country === 'US') {
    const holiday = federalHoliday(day);
    if (holiday !== null) return holiday;
  }
  return week.days.includes(weekdayOf(day)) ? null : 'day off';
}

/** The longest closed stretch skipped; a business that works no weekday at all gets the day itself. */
const SEARCH_DAYS = 31;

function search(day: string, week: WorkWeek, step: 1 | -1): string {
  for (let i = 0, candidate = day; i < SEARCH_DAYS; i++, candidate = addDaysToDay(candidate, step))
    if (dayOff(candidate, week) === null) return candidate;
  return day;
}

/** The first working day on or after a day. */
export function workdayFrom(day: string, week: WorkWeek): string {
  return search(day, week, 1);
}

/** The last working day on or before a day. */
export function workdayBefore(day: string, week: WorkWeek): string {
  return search(day, week, -1);
}
