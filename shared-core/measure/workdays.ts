/** Working days: the weekdays a business works, except US federal holidays. */
import { allForYear } from '@18f/us-federal-holidays';
import { addDaysToDay, weekdayOf } from './day.ts';

export type WorkWeek = {
  /** Weekdays worked; Monday is 1, Sunday 7 (ISO 8601). */
  readonly days: readonly number[];
  /** ISO 3166 code. Only `US` has holidays here. */
  readonly country: string;
};

const byYear = new Map<number, ReadonlyMap<string, string>>();

/** Holidays on the observed day, and on their actual day where it differs (5 U.S.C. 6103). */
function holidaysOf(year: number): ReadonlyMap<string, string> {
  const known = byYear.get(year);
  if (known !== undefined) return known;
  // New Year's Day on a Saturday is observed on December 31 of the previous year.
  const all = [year, year + 1].flatMap((each) => [
    ...allForYear(each, { shiftSaturdayHolidays: false, shiftSundayHolidays: false }),
    ...allForYear(each, { shiftSaturdayHolidays: true, shiftSundayHolidays: true }),
  ]);
  const holidays = new Map(all.map(({ dateString, name }) => [dateString, name] as const));
  byYear.set(year, holidays);
  return holidays;
}

/** The US federal holiday on a day `2026-07-04`; null on any other day. */
export function federalHoliday(day: string): string | null {
  return holidaysOf(Number(day.slice(0, 4))).get(day) ?? null;
}

/** The reason a day is not worked; null on a working day. */
export function dayOff(day: string, week: WorkWeek): string | null {
  if (week.country === 'US') {
    const holiday = federalHoliday(day);
    if (holiday !== null) return holiday;
  }
  return week.days.includes(weekdayOf(day)) ? null : 'day off';
}

/** Maximum days searched for a working day; a business that works no weekday gets the day itself. */
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
