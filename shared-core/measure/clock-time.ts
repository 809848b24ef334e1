/** Local times of day, `07:30`: parsing and formatting. */
import { Temporal } from 'temporal-polyfill';
import { DEFAULT_LOCALE, UNKNOWN_MARK } from './number.ts';
import type { Parsed } from './parsed.ts';

const twelveByLocale = new Map<string, boolean>();

function twelveHours(locale: string): boolean {
  const known = twelveByLocale.get(locale);
  if (known !== undefined) return known;
  const twelve = new Intl.DateTimeFormat(locale, { hour: 'numeric' }).resolvedOptions().hour12 === true;
  twelveByLocale.set(locale, twelve);
  return twelve;
}

/** Hours from midnight to a time of day: 7.5 at `07:30`. */
export function hoursOfClock(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return hours + minutes / 60;
}

/**
 * Formats a time of day: `6 pm`, `9:40 am`, `noon`, `midnight`; `18:00` in a 24-hour locale.
 * @param clock `18:00`
 * @param style `exact` always has the minutes: `6:00 pm`, `12:00 pm`
 */
export function formatClockTime(clock: string, locale: string = DEFAULT_LOCALE, style: 'plain' | 'exact' = 'plain'): string {
  const match = /^(\d{2}):(\d{2})/.exec(clock);
  if (match === null) return UNKNOWN_MARK;
  const [hour, minute] = [Number(match[1]), Number(match[2])];
  if (hour > 23 || minute > 59) return UNKNOWN_MARK;
  if (!twelveHours(locale)) return Temporal.PlainTime.from({ hour, minute }).toLocaleString(locale, { hour: '2-digit', minute: '2-digit' });
  const isWhole = minute === 0 && style === 'plain';
  if (isWhole && hour === 12) return 'noon';
  if (isWhole && hour === 0) return 'midnight';
  const shown = `${hour % 12 === 0 ? 12 : hour % 12}${isWhole ? '' : `:${match[2]}`}`;
  return `${shown} ${hour < 12 ? 'am' : 'pm'}`;
}

/**
 * Parses a time of day as `HH:MM`: `9:40 am`, `9.40`, `0940`, `9`, `6 pm`, `18:00`, `noon`, `midnight`.
 * @param text the entered text; without am or pm the hours run to 23
 */
export function parseClockTime(text: string): Parsed<string> {
  const typed = text.trim();
  if (typed === '') return { ok: false, message: 'Enter a time, such as 9:40 am.' };
  const word = { noon: '12:00', midday: '12:00', midnight: '00:00' }[typed.toLowerCase()];
  if (word !== undefined) return { ok: true, value: word };
  const match = /^(\d{1,2})(?:\s*[:.h]\s*(\d{2})|(\d{2}))?\s*(?:([ap])\.?\s?m?\.?|(?:uhr|h))?$/i.exec(typed);
  if (match === null) return { ok: false, message: `“${typed}”: this is not a time of day. Enter it like 9:40 am or 15:30.` };
  const hour = Number(match[1]);
  const minute = Number(match[2] ?? match[3] ?? '0');
  const half = match[4]?.toLowerCase();
  if (minute > 59) return { ok: false, message: `“${typed}”: minutes go up to 59.` };
  if (half !== undefined && (hour < 1 || hour > 12)) return { ok: false, message: `“${typed}”: with am or pm, hours go from 1 to 12.` };
  if (hour > 23) return { ok: false, message: `“${typed}”: hours go up to 23. Midnight is 00:00 of the next day.` };
  const whole = half === undefined ? hour : (hour % 12) + (half === 'p' ? 12 : 0);
  return { ok: true, value: `${String(whole).padStart(2, '0')}:${String(minute).padStart(2, '0')}` };
}
