/** Instants in words: times of day, and the dates stated for a floor. */
import type { MilestoneKind } from '../book/material.ts';
import { isStatedAsDay, type WorkCalendar } from '../cure/stated-date.ts';
import { formatClockTime } from '../measure/clock-time.ts';
import { formatInstant, formatInstantDay } from '../measure/moment.ts';
import { dayNumberAt } from './local-days.ts';

const MINUTES_A_DAY = 1440;
/** Cached, because thousands of entries share a few hundred times. */
const texts = new Map<string, string>();

/** An instant's local time of day in a zone: `9:40 am`. */
export function timeWords(instant: string, timeZone: string, locale: string): string {
  const minutes = Math.floor((dayNumberAt(instant, timeZone) % 1) * MINUTES_A_DAY + 1e-6);
  const key = `${locale} ${minutes}`;
  const known = texts.get(key);
  if (known !== undefined) return known;
  const two = (n: number) => String(n).padStart(2, '0');
  const words = formatClockTime(`${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`, locale);
  texts.set(key, words);
  return words;
}

/** An instant some minutes later, or earlier when negative. */
export function minutesLater(instant: string, minutes: number): string {
  return new Date(Date.parse(instant) + minutes * 60_000).toISOString();
}

/**
 * A stated date in words: `Thu, May 14`, or `Tue, May 12, 4 pm`. An hour is kept even when it is the start of work: the day alone would
 * open a floor at midnight.
 */
export function statedDateWords(
  kind: MilestoneKind,
  instant: string,
  place: Pick<WorkCalendar, 'zone'>,
  style: 'short' | 'weekday' | 'long',
  locale: string,
): string {
  return isStatedAsDay(kind) ? formatInstantDay(instant, place.zone, style, locale) : formatInstant(instant, place.zone, style, locale);
}
