/** The next step and its date in a line of words: `visit Thu 4pm`, `call back Friday`, `quote by June 3`. */
import { en } from 'chrono-node';
import { Temporal } from 'temporal-polyfill';
import type { LeadStep } from '../book/lead.ts';

/** A next step. `day` is null when no day was given; `at` is its position in the line. */
export type StepRead = {
  readonly step: LeadStep;
  readonly day: string | null;
  readonly clock: string | null;
  readonly from: number;
  readonly to: number;
};

const STEPS: readonly (readonly [LeadStep, RegExp])[] = [
  ['quote-by', /\b(?:quote|estimate|bid|price)\s+(?:is\s+)?(?:due|by|on|for)?\b/i],
  ['call-back', /\b(?:call(?:ing)?(?:\s+(?:him|her|them))?(?:\s+back)?|callback|phone(?:\s+back)?|follow[ -]up)\b(?:\s+on)?/i],
  [
    'visit',
    /\b(?:site\s+visit|visit|come\s+by|stop\s+by|look\s+at\s+it|meet|walk[ -]?through|measure|appointment)\b(?:\s+(?:on|at|there))?/i,
  ],
];

/** A time of day written alone, `at 4`, would be read as a clock; a month written alone, `May`, is as often a name. */
const isDated = (start: { isCertain: (part: 'day' | 'weekday' | 'hour') => boolean }): boolean =>
  start.isCertain('day') || start.isCertain('weekday') || start.isCertain('hour');

const two = (n: number | null): string => String(n ?? 0).padStart(2, '0');

/**
 * Finds the next step in a line.
 * @param line the line, with what has been read already blanked out by spaces
 * @param now instant, UTC: days are counted from it
 * @param zone IANA time zone of the day and the clock
 */
export function readWhen(line: string, now: string, zone: string): StepRead | null {
  const local = Temporal.Instant.from(now).toZonedDateTimeISO(zone);
  const reference = { instant: new Date(local.epochMilliseconds), timezone: local.offsetNanoseconds / 6e10 };
  const matches = STEPS.flatMap(([step, pattern]) => {
    const match = pattern.exec(line);
    return match === null ? [] : [{ step, from: match.index, to: match.index + match[0].length }];
  }).sort((a, b) => a.from - b.from)[0];
  const dates = en.casual
    .parse(line, reference, { forwardDate: true })
    // The name comes first, so a date at the start counts only after a step.
    .filter((date) => isDated(date.start) && (date.index > firstWord(line) || matches !== undefined));
  const near = dates.find((date) => matches !== undefined && date.index >= matches.from) ?? dates[0];
  if (near === undefined && matches === undefined) return null;
  if (near === undefined) return matches === undefined ? null : { ...matches, day: null, clock: null };
  const { start } = near;
  const hasHour = start.isCertain('hour');
  const [from, to] = [Math.min(near.index, matches?.from ?? near.index), Math.max(near.index + near.text.length, matches?.to ?? 0)];
  // Words between the step and its date belong to other fields and are left in the line.
  return {
    step: matches?.step ?? (hasHour ? 'visit' : 'call-back'),
    day: `${start.get('year') ?? local.year}-${two(start.get('month'))}-${two(start.get('day'))}`,
    clock: hasHour ? `${two(workingHour(start))}:${two(start.get('minute'))}` : null,
    from,
    to,
  };
}

/** `at 4` without am or pm is an hour of the working day: 1 to 6 are in the afternoon. Common practice, no source. */
function workingHour(start: { get: (part: 'hour') => number | null; isCertain: (part: 'meridiem') => boolean }): number {
  const hour = start.get('hour') ?? 0;
  return !start.isCertain('meridiem') && hour >= 1 && hour <= 6 ? hour + 12 : hour;
}

function firstWord(line: string): number {
  return /\S/.exec(line)?.index ?? 0;
}
