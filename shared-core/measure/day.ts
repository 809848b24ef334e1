/** Calendar days, `2026-05-12`: parsing and formatting by locale. */
import { Temporal } from 'temporal-polyfill';
import { DEFAULT_LOCALE, UNKNOWN_MARK } from './number.ts';
import type { Parsed } from './parsed.ts';

/** `short` is May 12, `weekday` is Tue, May 12, `long` is Tuesday, May 12, `full` is Tuesday, May 12, 2026, `dated` is September 12, 2026, `field` is Sep 12, 2026. */
export type DayStyle = 'short' | 'weekday' | 'long' | 'full' | 'dated' | 'field';

/** Earliest and latest year accepted, the same as in the stored records. */
const FIRST_YEAR = 1900;
const LAST_YEAR = 2200;

export const DAY_MS = 86_400_000;

/** Milliseconds since 1970 of a text in the form `2026-05-12T09:40:00.000Z`; NaN for any other, and for a day or time that does not exist. */
export function utcMs(text: string): number {
  const atMs = Date.parse(text);
  return !Number.isNaN(atMs) && new Date(atMs).toISOString() === text ? atMs : Number.NaN;
}

/** Milliseconds since 1970 of the start of a calendar day in UTC. Any other text throws a RangeError. */
function startMs(day: string): number {
  const atMs = utcMs(`${day}T00:00:00.000Z`);
  return Number.isNaN(atMs) ? Date.parse(Temporal.PlainDate.from(day).toString()) : atMs;
}

function plainDay(day: string): Temporal.PlainDate | null {
  try {
    return Temporal.PlainDate.from(day);
  } catch {
    return null;
  }
}

type Spelling = Pick<Intl.DateTimeFormatOptions, 'weekday' | 'month' | 'day' | 'year'>;

const STYLES: Readonly<Record<DayStyle, Spelling>> = {
  short: { month: 'short', day: 'numeric' },
  weekday: { weekday: 'short', month: 'short', day: 'numeric' },
  long: { weekday: 'long', month: 'long', day: 'numeric' },
  field: { month: 'short', day: 'numeric', year: 'numeric' },
  dated: { month: 'long', day: 'numeric', year: 'numeric' },
  full: { weekday: 'long', month: 'long', day: 'numeric', year: 'numeric' },
};

/** Cached because creating a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

function formatterOf(style: DayStyle, month: 'long' | 'short', locale: string): Intl.DateTimeFormat {
  const key = `${style} ${month} ${locale}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  const formatter = new Intl.DateTimeFormat(locale, { ...STYLES[style], month, timeZone: 'UTC', calendar: 'gregory' });
  formatters.set(key, formatter);
  return formatter;
}

/** English months of five letters or fewer, March to July, are spelled out; others use their short form. */
function monthWidth({ month }: Temporal.PlainDate, style: DayStyle, locale: string): 'long' | 'short' {
  if (STYLES[style].month === 'long') return 'long';
  return locale.toLowerCase().startsWith('en') && month >= 3 && month <= 7 ? 'long' : 'short';
}

function spelled(date: Temporal.PlainDate, style: DayStyle, locale: string): string {
  return formatterOf(style, monthWidth(date, style, locale), locale).format(Date.UTC(date.year, date.month - 1, date.day));
}

/**
 * Formats a day; a dash when `day` is not a calendar day.
 * @param day `2026-05-12`
 * @param style which parts are shown
 */
export function formatDay(day: string, style: DayStyle = 'short', locale: string = DEFAULT_LOCALE): string {
  const date = plainDay(day);
  return date === null ? UNKNOWN_MARK : spelled(date, style, locale);
}

/** The day `days` days after another; before it when negative. `day` must be a calendar day. */
export function addDaysToDay(day: string, days: number): string {
  return new Date(startMs(day) + days * DAY_MS).toISOString().slice(0, -14);
}

/** The day `months` months after another; the last day of a shorter month. */
export function addMonthsToDay(day: string, months: number): string {
  return Temporal.PlainDate.from(day).add({ months }).toString();
}

/** Whole days from one calendar day to another; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return (startMs(to) - startMs(from)) / DAY_MS;
}

/** Day of the week, 1 Monday to 7 Sunday (ISO 8601). `day` must be a calendar day. */
export function weekdayOf(day: string): number {
  return new Date(`${day}T12:00:00Z`).getUTCDay() || 7;
}

const MONTHS = ['january', 'february', 'march', 'april', 'may', 'june', 'july', 'august', 'september', 'october', 'november', 'december'];

function monthNamed(word: string): number | null {
  const name = word.toLowerCase().replace(/\.$/, '');
  if (name.length < 3) return null;
  const index = MONTHS.findIndex((month) => month.startsWith(name) || (name === 'sept' && month === 'september'));
  return index < 0 ? null : index + 1;
}

function daysFirst(locale: string): boolean {
  const parts = new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'numeric', timeZone: 'UTC' }).formatToParts(0);
  return parts.findIndex((part) => part.type === 'day') < parts.findIndex((part) => part.type === 'month');
}

function fullYear(text: string): number {
  return text.length <= 2 ? 2000 + Number(text) : Number(text);
}

function checked(typed: string, year: number, month: number, day: number): Parsed<string> {
  if (year < FIRST_YEAR || year > LAST_YEAR)
    return { ok: false, message: `“${typed}”: the year ${year} is out of range. Enter four digits, such as 2026.` };
  if (month < 1 || month > 12) return { ok: false, message: `“${typed}”: months go from 1 to 12. Enter a day like 5/12/2026 or May 12.` };
  const first = Temporal.PlainDate.from({ year, month, day: 1 });
  if (day < 1 || day > first.daysInMonth) {
    const name = first.toLocaleString('en-US', { month: 'long', year: 'numeric' });
    return { ok: false, message: `“${typed}”: ${name} has ${first.daysInMonth} days.` };
  }
  return { ok: true, value: first.with({ day }).toString() };
}

/** The year that brings a day entered without one nearest to today. */
function nearestYear(typed: string, month: number, day: number, today: Temporal.PlainDate): Parsed<string> {
  const tries = [today.year, today.year - 1, today.year + 1].map((year) => checked(typed, year, month, day));
  let best = tries[0] ?? checked(typed, today.year, month, day);
  for (const candidate of tries) {
    if (!candidate.ok) continue;
    const gap = Math.abs(daysBetween(today.toString(), candidate.value));
    if (!best.ok || gap < Math.abs(daysBetween(today.toString(), best.value))) best = candidate;
  }
  return best;
}

/** Which day a weekday alone means: the next one or the last one. */
export type WeekdaySide = 'coming' | 'past';

/** Parses a weekday alone, `mon` or `Monday`, to its ISO 8601 number; null for anything else. */
function weekdayAlone(typed: string): number | null {
  const word = typed.toLowerCase().replace(/[.,]$/, '');
  const index = WEEKDAYS.findIndex((name) => word.length >= 3 && name.startsWith(word));
  return index < 0 ? null : index + 1;
}

const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];

/** How many years ahead a label is dated. Common practice, no source. */
const LABEL_YEARS = 5;

const monthOf = (text: string): number | null => (/^\d/.test(text) ? Number(text) : monthNamed(text));

/** The month and year of `05/27` or `May 27` where the digits can be a year from this one on; null for anything else. */
function shortMonth(typed: string, today: string): string | null {
  const [, name = '', digits = ''] = /^(\d{1,2}|[a-z]{3,}\.?),?[-/. ]\s*(\d{2})$/i.exec(typed) ?? [];
  const month = monthOf(name);
  const ahead = fullYear(digits) - Temporal.PlainDate.from(today).year;
  return month !== null && month >= 1 && month <= 12 && ahead >= 0 && ahead <= LABEL_YEARS ? `${month}/${fullYear(digits)}` : null;
}

/**
 * Parses the day on which something expires. A month alone, `05/2027`, `2027-05` or `May 2027`, is its last day; all else as `parseDay`
 * has it. A label's `05/27` can be a day or a month of 2027: two digits that can be one of the next years are refused.
 */
export function parseLastDay(text: string, today: string, locale: string = DEFAULT_LOCALE): Parsed<string> {
  const typed = text.trim();
  const { month = '', year } =
    (/^(?<month>\d{1,2}|[a-z]{3,}\.?),?[-/. ]\s*(?<year>\d{4})$/i.exec(typed) ?? /^(?<year>\d{4})[-/.](?<month>\d{1,2})$/.exec(typed))
      ?.groups ?? {};
  const short = shortMonth(typed, today);
  if (short !== null) {
    const ways = `Enter ${short} for the month, or a day with its year, such as ${formatDay('2026-05-12', 'field', locale)}`;
    return { ok: false, message: `“${typed}”: this can be a day or a month of ${short.slice(-4)}. ${ways}.` };
  }
  const number = monthOf(month);
  if (year === undefined || number === null) return parseDay(text, today, locale);
  const first = checked(typed, Number(year), number, 1);
  return first.ok ? { ok: true, value: addDaysToDay(addMonthsToDay(first.value, 1), -1) } : first;
}

/**
 * Parses a day: `5/12/2026`, `2026-05-12`, `May 12`, `12 May 2026`, `Tue, May 12`, `tue`, `today`, `tomorrow`.
 * @param today the present day in the job's time zone; a day without a year is the one nearest to it
 * @param locale BCP 47 tag, which decides whether 5/12 is in May or December
 * @param side which day a weekday alone means; today counts for both
 */
export function parseDay(text: string, today: string, locale: string = DEFAULT_LOCALE, side: WeekdaySide = 'coming'): Parsed<string> {
  const typed = text.trim();
  if (typed === '') return { ok: false, message: 'Enter a day, such as 5/12/2026 or May 12.' };
  const now = Temporal.PlainDate.from(today);
  const relative = { yesterday: -1, today: 0, tomorrow: 1 }[typed.toLowerCase()];
  if (relative !== undefined) return { ok: true, value: now.add({ days: relative }).toString() };
  const weekday = weekdayAlone(typed);
  if (weekday !== null) {
    const daysAhead = (weekday - now.dayOfWeek + 7) % 7;
    return { ok: true, value: now.add({ days: side === 'past' && daysAhead > 0 ? daysAhead - 7 : daysAhead }).toString() };
  }
  const bare = typed.replace(/^(mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+/i, '');
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(bare);
  if (iso !== null) return checked(typed, Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const figures = /^(\d{1,2})[-/. ]+(\d{1,2})(?:[-/. ]+(\d{2}|\d{4}))?\.?$/.exec(bare);
  if (figures !== null) {
    const [a, b] = [Number(figures[1]), Number(figures[2])];
    const [month, day] = daysFirst(locale) ? [b, a] : [a, b];
    return figures[3] === undefined ? nearestYear(typed, month, day, now) : checked(typed, fullYear(figures[3]), month, day);
  }
  const named =
    /^(?<month>[a-z]+\.?)\s*(?<day>\d{1,2})(?:st|nd|rd|th)?(?:,?\s+(?<year>\d{4}))?$/i.exec(bare) ??
    /^(?<day>\d{1,2})(?:st|nd|rd|th)?\.?\s*(?:of\s+)?(?<month>[a-z]+\.?)(?:,?\s+(?<year>\d{4}))?$/i.exec(bare);
  const month = monthNamed(named?.groups?.['month'] ?? '');
  if (month === null) return { ok: false, message: `“${typed}”: this is not a day. Enter it like 5/12/2026, 2026-05-12 or May 12.` };
  const day = Number(named?.groups?.['day']);
  const year = named?.groups?.['year'];
  return year === undefined ? nearestYear(typed, month, day, now) : checked(typed, Number(year), month, day);
}
