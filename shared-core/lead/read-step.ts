/** Finds the next step and its date in a line about a call. */
import type { LeadNext, LeadStep } from '../book/lead.ts';
import { addDaysToDay } from '../measure/day.ts';
import { BREAK, isName, WIDE_BREAK } from './line-parts.ts';
import { INCH_SIGN, layerOf, OF_DEPTH, readLayers, ROOM_WORD } from './trade-words.ts';
import { en, type Parser, type Refiner } from 'chrono-node';
import { Temporal } from 'temporal-polyfill';

/** A part of a line. */
export type Span = { readonly from: number; readonly to: number };

/**
 * A next step. `day` is null when no day was given. It is also null, and `isUnclear`, when the day cannot be, as `Fri the 12th` where the 12th
 * is a Saturday, or is not certain, as in `call after lunch friday`.
 * `read` are the words it was read from.
 */
export type StepRead = {
  readonly step: LeadStep;
  readonly day: string | null;
  readonly isUnclear: boolean;
  readonly clock: string | null;
  readonly read: readonly Span[];
};

const STEPS: readonly (readonly [LeadStep, RegExp])[] = [
  ['quote-by', /\b(?:quote|estimate|bid|price)\s+(?:is\s+)?(?:due|by|on|for)?\b/gi],
  ['call-back', /\b(?:call(?:ing)?(?:\s+(?:him|her|them))?(?:\s+back)?|callback|phone\s+(?:back|him|her|them)|follow[ -]up)\b(?:\s+on)?/gi],
  [
    'visit',
    /\b(?:site\s+visit|visit|come(?:\s+(?:by|out|over|look))?|(?:stop|swing)\s+by|(?:go\s+)?look\s+at\s+it|go\s+look|meet|walk[ -]?through|measure|appointment|appt)\b(?:\s+(?:on|at|there))?/gi,
  ],
];

/** Steps without a day that are as often talk: `had a quote`, `meet the oak`, `call is fine`. */
const TALK = /^(?:(?:quote|estimate|bid|price|meet|come)\b(?!\s+by)|\s+(?:is|was)\b)/i;

/** A weekday, as the source of a regular expression. */
export const WEEKDAY = String.raw`\b(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues?|weds?|thu(?:rs?)?|fri|sat|sun)\b`;
/** Short weekdays that the reader of dates does not know. It knows them with a period for the last letter. */
const SHORT_WEEKDAY = /\b(tue|wed)s\b/gi;
const MONTH = String.raw`\b(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*`;
const UNITS = '(?:(?:min(?:ute)?|hour|hr|day|week|wk|mo|month|quarter|qtr|year|yr)s?|[mhd]|[wy])';
/** Words between a step and its date. */
const BETWEEN = new RegExp(
  String.raw`^(?:[\s@]|${WEEKDAY}|\b(?:back|again|due|needed|set|scheduled|is|there|us|me|him|her|them|on|by|at|for|in|before|after|around|first\s+thing|early|late|any\s?time|(?:(?:the|his|her|their)\s+)?(?:house|home|place|wife|husband|cell))\b)*$`,
  'i',
);
/** Who is called, or where: `call Sam friday`. */
const NAMED = /\b[A-Z][a-z]+\b/g;
const TO_DATE = /\b(?:on|by|at|for|before|around)\s+$/i;
const CLOCK = /^\s*(?:at\s+)?\d{1,2}(?::\d\d)?\s*(?:[ap]\.?m\b|o’clock|o'clock)/i;
/** What follows a fraction of an inch. */
const OF_FRACTION = new RegExp(String.raw`^\s*-?\s*(?:${INCH_SIGN}(?!\w)|${OF_DEPTH})`, 'i');

/** Whether the number between slashes is a day: straight after a step or a weekday, or before a time, and with no sign of a depth. */
function isDay(line: string, { from, to }: Span, isNext: boolean): boolean {
  const after = line.slice(to);
  const [one = '', two = ''] = /^\s*([a-z]+)(?:\s+([a-z]+))?/i.exec(after)?.slice(1) ?? [];
  if (OF_FRACTION.test(after) || layerOf(one) !== null || layerOf(`${one} ${two}`) !== null) return false;
  return isNext || CLOCK.test(after) || new RegExp(String.raw`${WEEKDAY},?\s*$`, 'i').test(line.slice(0, from));
}

const FRACTION = /(?<![\d/])(?:\d{1,2}(?:\s+|\s*-\s*))?\d{1,2}\/\d{1,2}(?![\d/])/g;
const LENGTH_OF_TIME = new RegExp(
  String.raw`(?<!\b(?:in|within|in about)\s+(?:a\s+)?)\b(?:(?:for|about|around)\s+)?(?:\d+\s*(?:-|to)\s*)?(?:\d+(?:\.\d+)?\s*|(?:an?|one|two|three|four|five|six|few|several|(?:a\s+)?couple of|half an)\s+)${UNITS}\b`,
  'gi',
);
/** Decades, `the 50s`, and seconds. No step is planned by the second. */
const SECONDS = /\b\d+\s*['’]?s(?:ec(?:ond)?s?)?\b/gi;
/** The word between a month or a weekday and its day: `June the 3rd`. */
const THE = new RegExp(String.raw`(?<=(?:${WEEKDAY}|${MONTH})[.,]?\s+)the(?=\s+\d)`, 'gi');
/** `the 2nd bedroom`, which is blanked out when it is read. */
const IS_ROOM = new RegExp(String.raw`^\s+${ROOM_WORD}\b`, 'i');
const FEW = /\bthe\s+[1-4](?:st|nd|rd|th)\b/gi;

/** What follows `the 8th` where it is a day. `the 2nd floor` is none. */
const AFTER_DAY = String.raw`\s*$|\s*[,;.?!@)]|\s{2}|\s+\d|\s+(?:at|on|or|if|by|before|after|around|about|in\s+the|morning|noon|afternoon|evening)\b`;

/**
 * Reads a day of the month, `the 8th` or `Tues the 8th`, as the next one.
 * @param from the first day it can be
 */
const dayOfMonth = (from: Temporal.PlainDate): Parser => ({
  pattern: () =>
    new RegExp(
      String.raw`(?:(?<weekday>${WEEKDAY})[.,]?\s+|\bthe\s+)(?<day>[12]?\d|3[01])(?:st|nd|rd|th)\b(?!\s+of\b)(?:(?=${AFTER_DAY})|(?<=${WEEKDAY}\.?\s+\d+\w\w))`,
      'i',
    ),
  extract: (_, { groups: { weekday, day } = {} }) => {
    const months = Array.from({ length: 3 }, (_none, n) => from.with({ day: 1 }).add({ months: n }));
    const days = months.filter((month) => month.daysInMonth >= Number(day)).map((month) => month.with({ day: Number(day) }));
    const next = days.find((one) => Temporal.PlainDate.compare(one, from) >= 0);
    if (next === undefined) return null;
    return { year: next.year, month: next.month, day: next.day, ...(weekday === undefined ? {} : { weekday: weekdayOf(weekday) }) };
  },
});
const weekdayOf = (word: string): number => ['su', 'mo', 'tu', 'we', 'th', 'fr', 'sa'].indexOf(word.slice(0, 2).toLowerCase());

/**
 * `at 4` without am or pm is an hour of the working day: 1 to 6 are in the afternoon. Common practice, no source. The hour comes before
 * its day, which is the next with that hour. `friday morning at 6` says which.
 */
const WORKING_HOUR: Refiner = {
  refine: ({ text: line }, results) => {
    for (const { start, index } of results) {
      const hour = start.get('hour') ?? 0;
      if (/\bmorning,?\s*$/i.test(line.slice(0, index))) continue;
      if (start.isOnlyTime() && start.isCertain('hour') && !start.isCertain('meridiem') && hour >= 1 && hour <= 6)
        start.assign('hour', hour + 12);
    }
    return results;
  },
};

/** What is an ordinary word or a measure as often as a time: `now vacant`, `joists at 16`. */
const LOOSE = /^(?:now|at (?:1[3-9]|2\d))$/i;

/** Days ahead within which a step is planned. Common practice, no source. */
const FAR_DAYS = 270;

/** Words that ask for the step after them, or say its day. In `he will call` and `told him to call` the step is another's. */
const ASKING = new RegExp(
  String.raw`(?:^|[\s(:]+)(?:(?:${[
    'please|pls|if|can|could|would|you|i|we|me|us|someone|wants?|needs?|like|asks?|asked|said|best|must|have to|for|to|an?|and|then|email|send',
    'set|up|book(?:ed)?|scheduled?|(?:job\\s?)?site|free|first|follow[ -]up',
    String.raw`(?:i|we)(?:[’'](?:ll|d)|\s+will)|(?:s?he|they)[’']d\s+like|told\s+(?:me|us|(?:him|her|them)(?=\s+(?:i|we)\b))`,
    String.raw`on|at|@|next|this|today|tomorrow|week|morning|noon|afternoon|${WEEKDAY}\.?|${MONTH}\.?|\d{1,2}(?:st|nd|rd|th|:\d\d)?(?:\s?[ap]\.?m\.?)?`,
  ].join('|')})(?:\s+|$))*$`,
  'i',
);
/** What is wrong with the floor, before a step with its day: `needs leveling call friday`. */
const FLAW =
  /^(?!.*(?:n[’']t|\b(?:not|no|he|she|they|will|missed|last|had|since|from|after|an?|another|guys?|installers?))\b).*\b(?:level(?:ed|ing)?|uneven|low|slopes?|cracked|wet)\b/i;
const WITH_DAY = new RegExp(String.raw`^\s*(?:on\s+)?(?:${WEEKDAY}|today|tomorrow)\b`, 'i');
const partBefore = (line: string, at: number, end: RegExp): string => line.slice(0, at).split(end).at(-1)?.trim() ?? '';
const partAfter = (line: string, at: number): string => line.slice(at).split(BREAK)[0] ?? '';

/** Whether nothing but the name stands before a place in its part, which starts with `part` up to there. */
const isAtStart = (line: string, part: string, before: string): boolean =>
  before === '' || (isName(before) && line.trimStart().startsWith(part));

/** The steps that a line asks for: `please call`, not `don’t call`, and not the name of `Sam Price`. */
function stepsIn(line: string) {
  return STEPS.flatMap(([step, pattern]) =>
    [...line.matchAll(pattern)].map(({ 0: words, index }) => ({ step, words, from: index, to: index + words.length })),
  )
    .filter(({ words, from, to }) => {
      if (/^[A-Z][a-z]/.test(words) && /^\s*\S+\s$/.test(line.slice(0, from))) return false;
      const part = partBefore(line, from, WIDE_BREAK);
      const before = part.replace(ASKING, '');
      return isAtStart(line, part, before) || readLayers(before) !== null || (FLAW.test(before) && WITH_DAY.test(line.slice(to)));
    })
    .sort((a, b) => a.from - b.from);
}

/**
 * Finds the next step in a line. A day counts straight after its step, or alone in its part. A day in the past is none, and neither is a
 * fraction or a length of time.
 * @param line the line, with what has been read already blanked out by spaces
 * @param whole the line as typed
 * @param now instant, UTC: days are counted from it
 * @param zone IANA time zone of the day and the clock
 */
export function readStep(line: string, whole: string, now: string, zone: string): StepRead | null {
  const local = Temporal.Instant.from(now).toZonedDateTimeISO(zone);
  const reference = { instant: new Date(local.epochMilliseconds), timezone: local.offsetNanoseconds / 6e10 };
  const today = local.toPlainDate().toString();
  const steps = stepsIn(line);
  /** The step straight before a place in the line. */
  const stepBefore = (at: number) =>
    steps.findLast(
      ({ step, from, to }) => from <= at && BETWEEN.test(step === 'quote-by' ? line.slice(to, at) : line.slice(to, at).replace(NAMED, '')),
    );
  const isNext = (at: number): boolean => stepBefore(at) !== undefined;
  const hide = (text: string): string => '·'.repeat(text.length);
  const talk = line
    .replace(FRACTION, (text, from: number) => {
      const isWhole = /^\d+\/\d+$/.test(text);
      return isWhole && isDay(line, { from, to: from + text.length }, isNext(from)) ? text : hide(text);
    })
    .replace(SECONDS, hide)
    .replace(SHORT_WEEKDAY, '$1.')
    .replace(FEW, (text, from: number) => (IS_ROOM.test(whole.slice(from + text.length)) ? hide(text) : text))
    .replace(THE, '   ')
    // `350 W` straight after a step is an address.
    .replace(LENGTH_OF_TIME, (text, from: number) => (isNext(from) && !/\d\s*w$/i.test(text) ? text : hide(text)));
  const dates = en.casual.clone();
  dates.parsers.push(dayOfMonth(local.toPlainDate()));
  dates.refiners.unshift(WORKING_HOUR);
  const found = dates.parse(talk, reference, { forwardDate: true }).map((date) => {
    // A weekday comes with the comma before it.
    const text = date.text.replace(/^[^a-z\d]+/i, '');
    return { start: date.start, isRange: Boolean(date.end), text, index: date.index + date.text.length - text.length };
  });
  const usable = found.filter(({ start, isRange, index, text }) => {
    const hasDay = isDated(start);
    // A month alone, `May`, is as often a name.
    if (!hasDay && !start.isCertain('hour')) return false;
    // A day without a year that is far off next year was as likely this year: `deposit paid, May 1`.
    if (dayOf(start) < today || (!start.isCertain('year') && dayOf(start) > addDaysToDay(today, FAR_DAYS))) return false;
    if (isNext(index)) return true;
    // Hours from one to another are those of a place.
    if (LOOSE.test(text) || (!hasDay && isRange)) return false;
    const to = index + text.length;
    // Else only a part that is nothing but a day, as other words may say what else is on that day. The name comes first.
    const part = partBefore(line, index, BREAK);
    const isStart = isAtStart(line, part, part.replace(/(?:^|\s)on$/i, '')) && (steps.length > 0 || line.slice(0, index).trim() !== '');
    return isStart && (partAfter(line, to).trim() === '' || steps.some(({ from }) => from >= to && line.slice(to, from).trim() === ''));
  });
  // A date straight after a step is its date; else the first step has the first date after it.
  const own = usable.find(({ index }) => isNext(index));
  const first = own === undefined ? steps.find(({ to, words }) => !TALK.test(words) && !TALK.test(line.slice(to))) : stepBefore(own.index);
  const near = own ?? usable.find((date) => first !== undefined && date.index >= first.from) ?? usable[0];
  const none = { day: null, isUnclear: false, clock: null };
  // Another day or month in the part of the step may be its own.
  const isUnclear =
    first !== undefined &&
    found.some(
      ({ start, index }) =>
        (isDated(start) || start.isCertain('month')) && index >= first.to && index < first.to + partAfter(line, first.to).length,
    );
  if (near === undefined) return first === undefined ? null : { ...none, isUnclear, step: first.step, read: [first] };
  const hasHour = near.start.isCertain('hour');
  const step = first?.step ?? (hasHour ? 'visit' : 'call-back');
  if (!isOneDay(near.start)) return { ...none, isUnclear: true, step, read: first === undefined ? [] : [first] };
  const from = near.index - (TO_DATE.exec(line.slice(0, near.index))?.[0].length ?? 0);
  return {
    step,
    day: dayOf(near.start),
    isUnclear: false,
    clock: hasHour ? `${two(near.start.get('hour'))}:${two(near.start.get('minute'))}` : null,
    // Words between the step and its date belong to other fields and are left in the line.
    read: [...(first === undefined ? [] : [first]), { from, to: near.index + near.text.length }],
  };
}

type Start = {
  get: (part: 'year' | 'month' | 'day' | 'weekday' | 'hour' | 'minute') => number | null;
  isCertain: (part: 'year' | 'month' | 'day' | 'weekday') => boolean;
};

const two = (n: number | null): string => String(n ?? 0).padStart(2, '0');
const dayOf = (start: Start): string => `${start.get('year')}-${two(start.get('month'))}-${two(start.get('day'))}`;
const isDated = (start: Start): boolean => start.isCertain('day') || start.isCertain('weekday');
/** Whether a weekday named with a day is that day's. */
const isOneDay = (start: Start): boolean =>
  !start.isCertain('day') || !start.isCertain('weekday') || Temporal.PlainDate.from(dayOf(start)).dayOfWeek % 7 === start.get('weekday');

type NextRead = { readonly step: LeadStep | null; readonly day: string | null; readonly clock: string | null };

/**
 * The next step of a lead as read, or after a field of it was changed by hand. A step or a time without a date is for tomorrow. Without a
 * step, or with the date deleted, nothing is next.
 * @param today `2026-05-12`
 */
export function changedNext(was: NextRead, change: Partial<NextRead>, today: string): LeadNext | null {
  const { step, day, clock } = { ...was, ...change };
  if (change.step === null || change.day === null || (change.clock === null && day === null)) return null;
  return { step: step ?? 'call-back', day: day ?? addDaysToDay(today, 1), clock };
}
