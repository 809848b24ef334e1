/** UTC instants as local day and time at the job; daylight saving changes are stated in words. */
import { Temporal } from 'temporal-polyfill';
import { formatClockTime } from './clock-time.ts';
import { addDaysToDay, DAY_MS, type DayStyle, formatDay, utcMs } from './day.ts';
import { DEFAULT_LOCALE, UNKNOWN_MARK } from './number.ts';
import type { Parsed } from './parsed.ts';

/** Caches valid zones, because asking `Intl` is the slowest step of using one. */
const knownZones = new Set<string>();

/** Validates the name of a time zone, with a sentence when it is unknown. */
export function parseTimeZone(text: string): Parsed<string> {
  const typed = text.trim();
  if (knownZones.has(typed)) return { ok: true, value: typed };
  try {
    if (new Intl.DateTimeFormat('en-US', { timeZone: typed }).resolvedOptions().timeZone === '') return { ok: true, value: 'UTC' };
    knownZones.add(typed);
    return { ok: true, value: typed };
  } catch {
    return { ok: false, message: `“${typed}” is not a known time zone. Enter it like America/New_York.` };
  }
}

function isInstantIn(instant: string, zone: string): boolean {
  try {
    wallOfInstant(instant, zone);
    return true;
  } catch {
    return false;
  }
}

function stored(instant: Temporal.Instant): string {
  return instant.toString({ smallestUnit: 'millisecond' });
}

/** Milliseconds since 1970 of an instant. One that is not valid throws a RangeError. */
function epochMs(instant: string): number {
  const atMs = utcMs(instant);
  return Number.isNaN(atMs) ? Temporal.Instant.from(instant).epochMilliseconds : atMs;
}

/** The wall clock of an instant in a zone, as if the zone were UTC: `2026-05-12T09:40:00.000Z`. */
function wallOfInstant(instant: string, zone: string): string {
  const atMs = epochMs(instant);
  return new Date(atMs + zoneOffsetMs(atMs, zone)).toISOString();
}

/** The calendar day of an instant in a zone, `2026-05-12`. `instant` and `zone` must be valid. */
export function dayOfInstant(instant: string, zone: string): string {
  return wallOfInstant(instant, zone).slice(0, -14);
}

/** Whether the day of an instant is before today in a zone: nothing is promised or announced for it. */
export function isPastDay(instant: string, now: string, zone: string): boolean {
  return dayOfInstant(instant, zone) < dayOfInstant(now, zone);
}

/** The wall clock of an instant in a zone, `09:40`. `instant` and `zone` must be valid. */
export function clockOfInstant(instant: string, zone: string): string {
  return wallOfInstant(instant, zone).slice(-13, -8);
}

/** Offsets of zones from UTC, ms, by zone and UTC day; null on a day when the offset changes. */
const dayOffsets = new Map<string, number | null>();
const MOST_OFFSETS = 20_000;

const offsetAt = (atMs: number, zone: string): number =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(atMs)).toZonedDateTimeISO(zone).offsetNanoseconds / 1e6;

/** How many milliseconds a zone is ahead of UTC at an instant. An unknown zone throws a RangeError. */
export function zoneOffsetMs(atMs: number, zone: string): number {
  const day = Math.floor(atMs / DAY_MS);
  const key = `${zone} ${day}`;
  const known = dayOffsets.get(key);
  if (known !== undefined) return known ?? offsetAt(atMs, zone);
  const [from, to] = [offsetAt(day * DAY_MS, zone), offsetAt((day + 1) * DAY_MS, zone)];
  if (dayOffsets.size > MOST_OFFSETS) dayOffsets.clear();
  dayOffsets.set(key, from === to ? from : null);
  return from === to ? from : offsetAt(atMs, zone);
}

/** The day and wall clock of an instant in a zone, `2026-05-12 09:40`. `instant` and `zone` must be valid. */
export function minuteOfInstant(instant: string, zone: string): string {
  return wallOfInstant(instant, zone).slice(0, -8).replace('T', ' ');
}

/** Formats an instant's day in a zone; a dash when either is not valid. */
export function formatInstantDay(instant: string, zone: string, style: DayStyle = 'short', locale: string = DEFAULT_LOCALE): string {
  return !isInstantIn(instant, zone) ? UNKNOWN_MARK : formatDay(dayOfInstant(instant, zone), style, locale);
}

/** Formats an instant's time of day in a zone: `6 pm`, `9:40 am`, `noon`; a dash when either is not valid. */
export function formatInstantTime(instant: string, zone: string, locale: string = DEFAULT_LOCALE): string {
  return !isInstantIn(instant, zone) ? UNKNOWN_MARK : formatClockTime(clockOfInstant(instant, zone), locale);
}

/** Whether an instant is midnight by the local time of a zone. Both must be valid. */
export function isMidnight(instant: string, zone: string): boolean {
  return clockOfInstant(instant, zone) === '00:00';
}

/**
 * The day of a deadline or a promise: midnight counts for the day it ends, any other instant for its own. Readers disagree
 * on whether "midnight on Friday" begins or ends the day. `instant` and `zone` must be valid.
 */
export function deadlineDay(instant: string, zone: string): string {
  const day = dayOfInstant(instant, zone);
  return isMidnight(instant, zone) ? addDaysToDay(day, -1) : day;
}

/** Formats day and time: `Tue, May 12, 9:40 am`; at midnight the unambiguous `the end of Mon, May 11`. */
export function formatInstant(instant: string, zone: string, style: DayStyle = 'weekday', locale: string = DEFAULT_LOCALE): string {
  if (!isInstantIn(instant, zone)) return UNKNOWN_MARK;
  if (isMidnight(instant, zone)) return `the end of ${formatDay(deadlineDay(instant, zone), style, locale)}`;
  return `${formatInstantDay(instant, zone, style, locale)}, ${formatInstantTime(instant, zone, locale)}`;
}

/** Several instants in one text: the times alone where all are on the day the text is read, else each with its day. */
export function formatInstantsOn(readOn: string, instants: readonly string[], zone: string, locale: string = DEFAULT_LOCALE): string[] {
  const isThatDay = instants.every((instant) => dayOfInstant(instant, zone) === dayOfInstant(readOn, zone));
  return instants.map((instant) =>
    isThatDay ? formatInstantTime(instant, zone, locale) : formatInstant(instant, zone, 'weekday', locale),
  );
}

/** An instant read beside another: its time alone on the same day, else with its day. */
export const formatInstantBeside = (other: string, instant: string, zone: string, locale: string = DEFAULT_LOCALE): string =>
  formatInstantsOn(other, [instant], zone, locale).join('');

/** Formats an instant's time of day as a log has it, always with minutes: `12:00 pm`; a dash when either is not valid. */
export function formatLogTime(instant: string, zone: string, locale: string = DEFAULT_LOCALE): string {
  return !isInstantIn(instant, zone) ? UNKNOWN_MARK : formatClockTime(clockOfInstant(instant, zone), locale, 'exact');
}

/** The time of a log entry: `9:01 am`, with its date where that is not the day the log began: `June 24, 2026, 9:01 am`. */
export function formatEntryTime(instant: string, beganAt: string, zone: string, locale: string = DEFAULT_LOCALE): string {
  const isThatDay = formatInstantDay(instant, zone, 'dated', locale) === formatInstantDay(beganAt, zone, 'dated', locale);
  return isThatDay ? formatLogTime(instant, zone, locale) : formatLogInstant(instant, zone, 'dated', locale);
}

/** Formats day and time as a log has them: `November 5, 2026, 12:00 pm`. */
export function formatLogInstant(instant: string, zone: string, style: DayStyle = 'dated', locale: string = DEFAULT_LOCALE): string {
  return `${formatInstantDay(instant, zone, style, locale)}, ${formatLogTime(instant, zone, locale)}`;
}

/** The instant of a wall clock in a zone where the clocks do not change within a day of it, else null. */
function plainInstantAt(day: string, clock: string, zone: string): string | null {
  const wallMs = utcMs(`${day}T${clock}:00.000Z`);
  if (Number.isNaN(wallMs)) return null;
  const ahead = zoneOffsetMs(wallMs - DAY_MS, zone);
  return ahead === zoneOffsetMs(wallMs + DAY_MS, zone) ? new Date(wallMs - ahead).toISOString() : null;
}

/**
 * An instant parsed from a day and a clock time; `note` says in words when that time occurs twice because the clocks go
 * back.
 */
export type ReadInstant = { readonly instant: string; readonly note: string | null };

/**
 * The instant of a day and a clock time in a zone.
 *
 * A time that the clocks skip is refused with the times to choose from. One that occurs twice is the first unless the second
 * is requested, and the note says so.
 * @param day `2026-05-12`
 * @param clock `09:40`
 * @param twice which of the two when the clocks go back
 */
export function instantAt(day: string, clock: string, zone: string, twice: 'first' | 'second' = 'first'): Parsed<ReadInstant> {
  const known = parseTimeZone(zone);
  if (!known.ok) return known;
  const plain = plainInstantAt(day, clock, zone);
  if (plain !== null) return { ok: true, value: { instant: plain, note: null } };
  let wall: Temporal.PlainDateTime;
  try {
    wall = Temporal.PlainDate.from(day).toPlainDateTime(Temporal.PlainTime.from(clock));
  } catch {
    return { ok: false, message: `${day} ${clock}: this is not a day and a time. Enter them like 2026-05-12 and 09:40.` };
  }
  const earlier = wall.toZonedDateTime(zone, { disambiguation: 'earlier' });
  const later = wall.toZonedDateTime(zone, { disambiguation: 'later' });
  if (earlier.equals(later)) return { ok: true, value: { instant: stored(earlier.toInstant()), note: null } };
  const clockText = formatClockTime(clock);
  const when = formatDay(day, 'dated');
  if (!earlier.toPlainDateTime().equals(wall)) {
    const before = formatClockTime(earlier.toPlainTime().toString());
    const after = formatClockTime(later.toPlainTime().toString());
    return { ok: false, message: `${clockText} is skipped on ${when}, when the clocks are set forward. Enter ${before} or ${after}.` };
  }
  const chosen = twice === 'first' ? earlier : later;
  const note = `${clockText} comes twice on ${when}, when the clocks are set back. The ${twice} one is used.`;
  return { ok: true, value: { instant: stored(chosen.toInstant()), note } };
}

/** The first instant of a day in a zone; where midnight is skipped, the one it became. */
export function startOfDay(day: string, zone: string): string {
  for (const clock of ['00:00', '01:00']) {
    const read = instantAt(day, clock, zone);
    if (read.ok) return read.value.instant;
  }
  return `${day}T00:00:00.000Z`;
}

/**
 * The day on which a clock time is nearest to a moment: its own, the day before, or the day after. Inputs must be valid.
 * @param clock `23:57`
 * @param moment day and clock time, `2026-06-02` and `00:02`
 */
export function nearestDay(clock: string, moment: { readonly day: string; readonly clock: string }): string {
  const hours = Temporal.PlainTime.from(moment.clock).until(clock).total('hours');
  return Math.abs(hours) <= 12 ? moment.day : addDaysToDay(moment.day, hours > 0 ? -1 : 1);
}

/**
 * The instant nearest to another at which clocks in a zone show a time, the day before where that is still to come. `instant` must be valid.
 * @param now the latest it may be
 */
export function instantNear(clock: string, instant: string, zone: string, now: string): Parsed<ReadInstant> {
  const near = instantOn(
    nearestDay(clock, { day: dayOfInstant(instant, zone), clock: clockOfInstant(instant, zone) }),
    clock,
    instant,
    zone,
  );
  if (!near.ok || secondsBetween(near.value.instant, now) >= 0) return near;
  return instantOn(addDaysToDay(dayOfInstant(near.value.instant, zone), -1), clock, instant, zone);
}

/**
 * The first instant from the minute of another on at which clocks in a zone show a time. `start` must be valid.
 * @param now the latest it may be: a time still to come is refused
 */
export function instantSince(clock: string, start: string, zone: string, now: string): Parsed<ReadInstant> {
  const day = dayOfInstant(start, zone);
  // A time before that of the start is one of the next day, unless the clocks are set back to it.
  const again = instantAt(day, clock, zone, 'second');
  const since =
    clock >= clockOfInstant(start, zone)
      ? instantOn(day, clock, start, zone)
      : again.ok && secondsBetween(start, again.value.instant) >= 0
        ? again
        : instantAt(addDaysToDay(day, 1), clock, zone);
  if (!since.ok || secondsBetween(since.value.instant, now) >= 0) return since;
  return { ok: false, message: 'This time is still to come. Enter the time it happened.' };
}

/** The instant of a clock time on a day; of a time that comes twice, the one nearer to `instant`. */
function instantOn(day: string, clock: string, instant: string, zone: string): Parsed<ReadInstant> {
  const [first, second] = [instantAt(day, clock, zone, 'first'), instantAt(day, clock, zone, 'second')];
  if (!first.ok || !second.ok) return first;
  const away = ({ value }: { readonly value: ReadInstant }): number => Math.abs(secondsBetween(instant, value.instant));
  return away(second) < away(first) ? second : first;
}

/** The same clock time `days` days later in a zone; a skipped time moves by the clock change. Inputs must be valid. */
export function addDays(instant: string, days: number, zone: string): string {
  return stored(Temporal.Instant.from(instant).toZonedDateTimeISO(zone).add({ days }).toInstant());
}

/** The instant `seconds` seconds later. `instant` must be valid. */
export function addSeconds(instant: string, seconds: number): string {
  return new Date(epochMs(instant) + Math.round(seconds * 1000)).toISOString();
}

/** Seconds from one instant to another; negative when the second is earlier. Both must be valid. */
export function secondsBetween(from: string, to: string): number {
  return (epochMs(to) - epochMs(from)) / 1000;
}
