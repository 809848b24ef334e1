/** Parses and formats a day and a time in one entry field. */
import { formatClockTime, parseClockTime } from './clock-time.ts';
import { addDaysToDay, daysBetween, formatDay, parseDay, type WeekdaySide } from './day.ts';
import { clockOfInstant, dayOfInstant, deadlineDay, instantAt, isMidnight } from './moment.ts';
import type { Parsed } from './parsed.ts';

/** Days. A day without a year parses as the nearest one, so the year is shown when it is farther away than this. */
const HALF_A_YEAR = 180;

const END_OF = /^(?:the\s+)?end\s+of\s+(.+)$/i;

function instantOf(day: string, clock: string, zone: string): Parsed<string> {
  const read = instantAt(day, clock, zone);
  return read.ok ? { ok: true, value: read.value.instant } : read;
}

function parseDayOrToday(text: string, today: string, locale: string, side: WeekdaySide): Parsed<string> {
  return text === '' || text.toLowerCase() === 'today' ? { ok: true, value: today } : parseDay(text, today, locale, side);
}

/**
 * Parses `May 12 9:40 am`, `mon 8 am`, the time alone for today, or `end of May 12`, as an instant. "Midnight" alone is
 * refused, because it could mean the beginning or the end of a day.
 * @param now today is the day of this instant in the zone
 * @param side which day a weekday alone means
 */
export function parseMoment(text: string, now: string, zone: string, locale: string, side: WeekdaySide = 'coming'): Parsed<string> {
  const typed = text.trim();
  const today = dayOfInstant(now, zone);
  const ended = END_OF.exec(typed)?.[1];
  if (ended !== undefined) {
    const day = parseDayOrToday(ended, today, locale, side);
    return day.ok ? instantOf(addDaysToDay(day.value, 1), '00:00', zone) : day;
  }
  if (/\bmidnight\b/i.test(typed)) return { ok: false, message: 'Midnight can start or end a day. Enter “end of May 12”, or 11:59 pm.' };
  const words = typed.split(/\s+/);
  // The time comes last: `9:40`, `9:40 am`, `noon`.
  for (const timeWords of [2, 1]) {
    if (words.length < timeWords) continue;
    const clock = parseClockTime(words.slice(-timeWords).join(' '));
    if (!clock.ok) continue;
    const day = parseDayOrToday(words.slice(0, -timeWords).join(' ').replace(/,$/, ''), today, locale, side);
    if (day.ok) return instantOf(day.value, clock.value, zone);
  }
  return { ok: false, message: 'Enter a day and a time, such as May 12 9:40 am, or a time alone for today.' };
}

/** How a day is written that is read on another: with its year from half a year away. */
export const dayStyleFrom = (today: string, day: string): 'short' | 'dated' =>
  Math.abs(daysBetween(today, day)) < HALF_A_YEAR ? 'short' : 'dated';

/** Formats an instant so that parsing it again gives the same minute: `May 13 9:40 am`, `9:40 am` for today, `end of May 12`. */
export function formatMoment(instant: string, now: string, zone: string, locale: string): string {
  const today = dayOfInstant(now, zone);
  const day = deadlineDay(instant, zone);
  const dayText = formatDay(day, dayStyleFrom(today, day), locale);
  if (isMidnight(instant, zone)) return `end of ${dayText}`;
  const time = formatClockTime(clockOfInstant(instant, zone), locale);
  return day === today ? time : `${dayText} ${time}`;
}
