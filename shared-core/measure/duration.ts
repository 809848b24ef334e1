/** Durations: stored in seconds; entered and shown as minutes, hours, days, and a running clock. */
import { DEFAULT_LOCALE, formatNumber, parseNumber, UNKNOWN_MARK } from './number.ts';
import type { Parsed } from './parsed.ts';
import { withoutRestated } from './quantity.ts';

/** Seconds in a minute, an hour and a day of 24 hours. */
export const MINUTE_S = 60;
export const HOUR_S = 3600;
export const DAY_S = 86_400;

/** The unit of a bare number. */
export type DurationUnit = 'second' | 'minute' | 'hour' | 'day';

const SIZE_S: Readonly<Record<DurationUnit, number>> = { second: 1, minute: MINUTE_S, hour: HOUR_S, day: DAY_S };
const SPELLED: ReadonlyMap<string, number> = new Map([
  ...['s', 'sec', 'secs', 'second', 'seconds'].map((name): [string, number] => [name, 1]),
  ...['m', 'min', 'mins', 'minute', 'minutes'].map((name): [string, number] => [name, MINUTE_S]),
  ...['h', 'hr', 'hrs', 'hour', 'hours'].map((name): [string, number] => [name, HOUR_S]),
  ...['d', 'day', 'days'].map((name): [string, number] => [name, DAY_S]),
  ...['wk', 'week', 'weeks'].map((name): [string, number] => [name, 7 * DAY_S]),
]);
/** Longest duration accepted: ten years. */
const MOST_S = 3650 * DAY_S;
/** From two days up, a duration is told in days; minutes. */
const LEAST_DAYS_MIN = 48 * 60;

function readClock(typed: string, bare: DurationUnit): Parsed<number> | null {
  const clock = /^(\d+):(\d{2})(?::(\d{2}))?$/.exec(typed);
  if (clock === null) return null;
  const [first, second, third] = [Number(clock[1]), Number(clock[2]), Number(clock[3] ?? '0')];
  if (second > 59 || third > 59) return { ok: false, message: `“${typed}”: the numbers after the colon go up to 59.` };
  const isHours = clock[3] !== undefined || bare === 'hour' || bare === 'day';
  return { ok: true, value: isHours ? first * HOUR_S + second * MINUTE_S + third : first * MINUTE_S + second };
}

/**
 * Parses a duration in seconds: `20`, `20 min`, `1 h 30 min`, `1h30`, `4:05`, `2 days`.
 * @param bare unit of a bare number; a colon separates minutes and seconds, or hours and minutes when this unit is hours or
 * days
 */
export function parseDuration(text: string, bare: DurationUnit, locale?: string): Parsed<number> {
  const typed = text.trim();
  const example = { second: '45 s', minute: '20 min', hour: '1 h 30 min', day: '28 days' }[bare];
  if (typed === '') return { ok: false, message: `Enter a time, such as ${example}.` };
  if (/^[-\u2212]/.test(typed)) return { ok: false, message: `“${typed}”: a time cannot be less than zero.` };
  const clock = readClock(typed, bare);
  if (clock !== null)
    return clock.ok && clock.value > MOST_S ? { ok: false, message: `“${typed}”: that is longer than ten years.` } : clock;
  let sum = 0;
  let last = Number.POSITIVE_INFINITY;
  let rest = withoutRestated(typed).toLowerCase();
  while (rest !== '') {
    const term = /^([\d.,]+)\s*([a-z]*)\.?\s*(?:,|and)?\s*/.exec(rest);
    if (term === null) return { ok: false, message: `“${typed}”: this is not a length of time. Enter it like ${example}.` };
    const value = parseNumber((term[1] ?? '').replace(/,$/, ''), locale);
    if (!value.ok) return value;
    const isTail = term[2] === '' && last < Number.POSITIVE_INFINITY;
    const size = term[2] !== '' ? SPELLED.get(term[2] ?? '') : isTail ? last / 60 : SIZE_S[bare];
    if (size === undefined) return { ok: false, message: `“${typed}”: “${term[2]}” is not a unit of time. Enter it like ${example}.` };
    if (size >= last || size < 1) return { ok: false, message: `“${typed}”: enter the longer unit first. Enter it like ${example}.` };
    if (isTail && last === DAY_S) return { ok: false, message: `“${typed}”: the last number has no unit. Enter it like ${example}.` };
    sum += value.value * size;
    last = size;
    rest = rest.slice(term[0].length);
  }
  if (sum > MOST_S) return { ok: false, message: `“${typed}”: that is longer than ten years.` };
  return { ok: true, value: sum };
}

function plural(value: number, singular: string, pluralNoun: string, locale: string): string {
  return `${formatNumber(value, { most: 1 }, locale)} ${value === 1 ? singular : pluralNoun}`;
}

/**
 * Formats a duration with the precision its size needs: `45 s`, `20 min`, `1 h 40 min`, `2.5 days`, `28 days`.
 * @param durationS seconds; a dash is shown when it is not finite
 */
export function formatDuration(durationS: number, locale: string = DEFAULT_LOCALE): string {
  if (!Number.isFinite(durationS)) return UNKNOWN_MARK;
  const sign = durationS < 0 ? '\u2212' : '';
  const size = Math.abs(durationS);
  if (Math.round(size) < MINUTE_S) return `${sign}${Math.round(size)} s`.replace('\u22120', '0');
  const minutes = Math.round(size / MINUTE_S);
  if (minutes < 60) return `${sign}${minutes} min`;
  if (minutes < LEAST_DAYS_MIN) {
    const rest = minutes % 60;
    return `${sign}${Math.floor(minutes / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
  }
  const days = size / DAY_S;
  return `${sign}${plural(days < 10 ? Math.round(days * 2) / 2 : Math.round(days), 'day', 'days', locale)}`;
}

/**
 * Formats hours of work: as a duration, but never in days, because a day of work is not 24 hours: `41 h 33 min`, `109.5 h`.
 * @param hours a dash is shown when they are not finite
 */
export function formatWork(hours: number, locale: string = DEFAULT_LOCALE): string {
  if (!Number.isFinite(hours) || Math.round(Math.abs(hours) * 60) < LEAST_DAYS_MIN) return formatDuration(hours * HOUR_S, locale);
  return `${formatNumber(hours, { most: 1 }, locale)} h`;
}

/** Formats a running clock in whole elapsed seconds: `4:05`, or `1:04:05` from an hour up. */
export function formatRunningClock(durationS: number): string {
  if (!Number.isFinite(durationS)) return UNKNOWN_MARK;
  const total = Math.floor(Math.abs(durationS));
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes, seconds] = [Math.floor(total / HOUR_S), Math.floor(total / MINUTE_S) % 60, total % 60];
  const clock = hours > 0 ? `${hours}:${two(minutes)}:${two(seconds)}` : `${minutes}:${two(seconds)}`;
  return durationS < 0 && total > 0 ? `\u2212${clock}` : clock;
}
