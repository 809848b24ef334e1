/** A day and a time in one line, as typed into a field and as shown there. */
import { formatClockTime, parseClockTime } from './clock-time.ts';
import { addDaysToDay, daysBetween, formatDay, parseDay, type WeekdaySide } from './day.ts';
import { clockOfInstant, dayOfInstant, deadlineDay, instantAt, isMidnight } from './moment.ts';
import type { Parsed } from './parsed.ts';

/** A day without its year is read as the nearest: farther off than this the year is shown. */
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
 * Reads `May 12 9:40 am`, `mon 8 am`, the time alone for today, or `end of May 12`, as an instant. "Midnight" alone is refused: it may
 * be meant as the beginning of a day or as its end.
 * @param now today is the day of this instant in the zone
 * @param side which day a weekday alone is
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
  // The time stands last: `9:40`, `9:40 am`, `noon`.
  for (const timeWords of [2, 1]) {
    if (words.length < timeWords) continue;
    const clock = parseClockTime(words.slice(-timeWords).join(' '));
    if (!clock.ok) continue;
    const day = parseDayOrToday(words.slice(0, -timeWords).join(' ').replace(/,$/, ''), today, locale, side);
    if (day.ok) return instantOf(day.value, clock.value, zone);
  }
  return { ok: false, message: 'Enter a day and a time, such as May 12 9:40 am, or a time alone for today.' };
}

/** An instant as a field shows it, so that typed again it is the same minute: `May 13 9:40 am`, `9:40 am` for today, `end of May 12`. */
export function formatMoment(instant: string, now: string, zone: string, locale: string): string {
  const today = dayOfInstant(now, zone);
  const day = deadlineDay(instant, zone);
  const dayText = formatDay(day, Math.abs(daysBetween(today, day)) < HALF_A_YEAR ? 'short' : 'dated', locale);
  if (isMidnight(instant, zone)) return `end of ${dayText}`;
  const time = formatClockTime(clockOfInstant(instant, zone), locale);
  return day === today ? time : `${dayText} ${time}`;
}
