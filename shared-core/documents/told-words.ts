/** Dates as a customer reads them: a day, or a whole hour within working hours of that day. Never a minute. */
import type { Business } from '../book/business.ts';
import { addDaysToDay } from '../measure/day.ts';
import { clockOfInstant, dayOfInstant, formatInstantDay, formatInstantTime } from '../measure/moment.ts';
import { formatDay, type DayStyle } from '../measure/day.ts';

const HOUR_MS = 3_600_000;

/** Where and how dates are written. */
export type ToldPlace = { readonly zone: string; readonly locale: string; readonly hours: Business['hours'] };

/**
 * The first moment, at or after an instant, that a person can plan on: the next whole hour within working hours, else the
 * next day.
 * @returns the day, and the instant of the hour where an hour is stated
 */
export function plannable(
  instant: string,
  { zone, hours }: Omit<ToldPlace, 'locale'>,
): { readonly day: string; readonly hourAt: string | null } {
  const rounded = new Date(Math.ceil(Date.parse(instant) / HOUR_MS) * HOUR_MS).toISOString();
  const day = dayOfInstant(rounded, zone);
  const clock = clockOfInstant(rounded, zone);
  // The start of work stands for a day told without an hour.
  if (clock < hours.from || clockOfInstant(instant, zone) === hours.from) return { day, hourAt: null };
  if (clock > hours.to) return { day: addDaysToDay(day, 1), hourAt: null };
  return { day, hourAt: rounded };
}

/** `May 27, 4 pm` where that hour is within working hours, otherwise the day alone: `May 28`. */
export function toldWords(instant: string, place: ToldPlace, style: DayStyle = 'short'): string {
  const { day, hourAt } = plannable(instant, place);
  if (hourAt === null) return formatDay(day, style, place.locale);
  return `${formatInstantDay(hourAt, place.zone, style, place.locale)}, ${formatInstantTime(hourAt, place.zone, place.locale)}`;
}
