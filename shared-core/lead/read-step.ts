/** Finds the next step and its date in a line about a call. */
import type { LeadNext, LeadStep } from '../book/lead.ts';
import { addDaysToDay } from '../measure/day.ts';
import { BUMP, INCH_SIGN, layerOf } from './trade-words.ts';
import { en } from 'chrono-node';
import { Temporal } from 'temporal-polyfill';

/** A part of a line. */
export type Span = { readonly from: number; readonly to: number };

/** A next step. `day` is null when no day was given; `read` are the words it was read from. */
export type StepRead = {
  readonly step: LeadStep;
  readonly day: string | null;
  readonly clock: string | null;
  readonly read: readonly Span[];
};

const STEPS: readonly (readonly [LeadStep, RegExp])[] = [
  ['quote-by', /\b(?:quote|estimate|bid|price)\s+(?:is\s+)?(?:due|by|on|for)?\b/i],
  ['call-back', /\b(?:call(?:ing)?(?:\s+(?:him|her|them))?(?:\s+back)?|callback|phone(?:\s+back)?|follow[ -]up)\b(?:\s+on)?/i],
  [
    'visit',
    /\b(?:site\s+visit|visit|come\s+by|stop\s+by|look\s+at\s+it|meet|walk[ -]?through|measure|appointment)\b(?:\s+(?:on|at|there))?/i,
  ],
];

const WEEKDAY = String.raw`\b(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?\b`;
const UNITS = '(?:min(?:ute)?|hour|hr|day|week|month|year)s?';
/** Words between a step and its date. */
const BETWEEN = new RegExp(
  String.raw`^(?:\s|,|${WEEKDAY}|\b(?:back|due|needed|is|there|us|me|him|her|them|on|by|at|for|in|before|after|around)\b)*$`,
  'i',
);
const TO_DATE = /\b(?:on|by|at|for|before|around)\s+$/i;
const CLOCK = /^\s*(?:at\s+)?\d{1,2}(?::\d\d)?\s*(?:[ap]\.?m\b|o’clock|o'clock)/i;
/** What follows a fraction of an inch. */
const OF_DEPTH = new RegExp(String.raw`^\s*-?\s*(?:${INCH_SIGN}(?!\w)|(?:deep|thick|out|off|low|high|average|${BUMP})\b)`, 'i');

/** Whether the number between slashes is a day: straight after a step or a weekday, or before a time, and with no sign of a depth. */
function isDay(line: string, { from, to }: Span, isNext: boolean): boolean {
  const after = line.slice(to);
  const [one = '', two = ''] = /^\s*([a-z]+)(?:\s+([a-z]+))?/i.exec(after)?.slice(1) ?? [];
  if (OF_DEPTH.test(after) || layerOf(one) !== null || layerOf(`${one} ${two}`) !== null) return false;
  return isNext || CLOCK.test(after) || new RegExp(String.raw`${WEEKDAY},?\s*$`, 'i').test(line.slice(0, from));
}

/** Words of the past, with the day they name. */
const PAST = new RegExp(
  String.raw`\b(?:last|since|past|called|flooded|leaked|burst|poured|installed|moved|happened|started)\s+(?:(?:on|last|this)\s+)*(?:[a-z]+\b|\d+/\d+(?:/\d+)?)`,
  'gi',
);
const FRACTION = /(?<![\d/])(?:\d{1,2}(?:\s+|\s*-\s*))?\d{1,2}\/\d{1,2}(?![\d/])/g;
const COUNT = new RegExp(String.raw`\b\d+\s+${BUMP}\b`, 'gi');
const LENGTH_OF_TIME = new RegExp(
  String.raw`(?<!\b(?:in|within|in about)\s+)\b(?:(?:for|about|around)\s+)?(?:\d+\s*(?:-|to)\s*)?(?:\d+|an?|one|two|three|four|five|six|few)\s+${UNITS}\b`,
  'gi',
);
/** What is an ordinary word or a measure as often as a time: `now vacant`, `open from 9 to 5`, `joists at 16`. */
const LOOSE = /^(?:now|from .*|at (?:1[3-9]|2\d))$/i;

/**
 * Finds the next step in a line. A day in the past is none, and neither is a fraction, a length of time or an hour that other words need.
 * @param line the line, with what has been read already blanked out by spaces
 * @param now instant, UTC: days are counted from it
 * @param zone IANA time zone of the day and the clock
 */
export function readStep(line: string, now: string, zone: string): StepRead | null {
  const local = Temporal.Instant.from(now).toZonedDateTimeISO(zone);
  const reference = { instant: new Date(local.epochMilliseconds), timezone: local.offsetNanoseconds / 6e10 };
  const steps = STEPS.flatMap(([step, pattern]) => {
    const match = pattern.exec(line);
    return match === null ? [] : [{ step, from: match.index, to: match.index + match[0].length }];
  }).sort((a, b) => a.from - b.from);
  const isNext = (at: number): boolean => steps.some(({ from, to }) => from <= at && BETWEEN.test(line.slice(to, at)));
  const hide = (text: string): string => '·'.repeat(text.length);
  const talk = line
    // The name ends at a comma before any step, so that `June, 2 low spots` is not a day.
    .replace(',', (comma, from: number) => (steps.some((step) => step.from < from) ? comma : ';'))
    .replace(PAST, hide)
    .replace(FRACTION, (text, from: number) => {
      const isWhole = /^\d+\/\d+$/.test(text);
      return isWhole && isDay(line, { from, to: from + text.length }, isNext(from)) ? text : hide(text);
    })
    .replace(COUNT, hide)
    .replace(LENGTH_OF_TIME, (text, from: number) => (isNext(from) ? text : hide(text)));
  const found = en.casual.parse(talk, reference, { forwardDate: true }).map((date) => {
    // A weekday comes with the comma before it.
    const text = date.text.replace(/^[^a-z\d]+/i, '');
    return { start: date.start, text, index: date.index + date.text.length - text.length };
  });
  const dates = found.filter(({ start, index, text }) => {
    const hasDay = start.isCertain('day') || start.isCertain('weekday');
    // A month alone, `May`, is as often a name.
    if (!hasDay && !start.isCertain('hour')) return false;
    if (dayOf(start) < local.toPlainDate().toString()) return false;
    if (isNext(index)) return true;
    // The name comes first, so a date at the start counts only after a step.
    if (LOOSE.test(text) || (steps.length === 0 && index <= line.search(/\S/))) return false;
    const isPart = /(?:^|[,;]|\s{2})\s*$/.test(line.slice(0, index)) && /^\s*(?:[,;]|\s{2}|$)/.test(line.slice(index + text.length));
    // A time without a day, or a day of three letters, is often another word: `gate closes at 6`, `sat empty`.
    return isPart || (hasDay && !/^(?:sat|sun|wed)$/i.test(text));
  });
  const first = steps[0];
  const near = dates.find((date) => first !== undefined && date.index >= first.from) ?? dates[0];
  if (near === undefined) return first === undefined ? null : { step: first.step, day: null, clock: null, read: [first] };
  const hasHour = near.start.isCertain('hour');
  const from = near.index - (TO_DATE.exec(line.slice(0, near.index))?.[0].length ?? 0);
  return {
    step: first?.step ?? (hasHour ? 'visit' : 'call-back'),
    day: dayOf(near.start),
    clock: hasHour ? `${two(workingHour(near.start))}:${two(near.start.get('minute'))}` : null,
    // Words between the step and its date belong to other fields and are left in the line.
    read: [...(first === undefined ? [] : [first]), { from, to: near.index + near.text.length }],
  };
}

type Start = { get: (part: 'year' | 'month' | 'day' | 'hour' | 'minute') => number | null; isCertain: (part: 'meridiem') => boolean };

const two = (n: number | null): string => String(n ?? 0).padStart(2, '0');
const dayOf = (start: Start): string => `${start.get('year')}-${two(start.get('month'))}-${two(start.get('day'))}`;

/** `at 4` without am or pm is an hour of the working day: 1 to 6 are in the afternoon. Common practice, no source. */
function workingHour(start: Start): number {
  const hour = start.get('hour') ?? 0;
  return !start.isCertain('meridiem') && hour >= 1 && hour <= 6 ? hour + 12 : hour;
}

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
