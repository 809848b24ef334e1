/** Times of day as text, cached because thousands of entries share a few hundred times. */
import { formatClockTime } from '../measure/clock-time.ts';
import { dayNumberAt } from './local-days.ts';

const MINUTES_A_DAY = 1440;
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
