/** Sentences of the prep sheet on the screen. */
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantTime, isMidnight } from '../../../shared-core/measure/moment.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';

const HOUR_S = 3600;

/** `About 2 h 30 min`, typical until the business's own hours are learned; empty where nobody can say. */
export function hoursWords(hours: number | null, locale: string): string {
  return hours === null || hours <= 0 ? '' : `About ${formatDuration(hours * HOUR_S, locale)}`;
}

/** The whole list in a line: how much is open, and the own crew's hours. */
export function listWords(lines: readonly SignedLine[], hours: number, locale: string): string {
  const asked = lines.filter((line) => line.item !== null);
  if (asked.length === 0) return 'Nothing is listed yet.';
  const open = asked.filter((line) => line.state !== 'signed').length;
  const left = open === 0 ? 'every line is signed' : open === 1 ? 'one line open' : `${open} of ${asked.length} lines open`;
  const time = hoursWords(hours, locale);
  return time === '' ? `${left.charAt(0).toUpperCase()}${left.slice(1)}.` : `${time} for the own crew; ${left}.`;
}

/** The primer with its coats and its window. */
export function clockWords(at: RoomReading, zone: string, locale: string): string {
  const { preparation, estimate, primer } = at;
  const need = estimate?.takeoff.primer ?? null;
  const clock = preparation.clock;
  if (primer === null || need === null) return 'No primer is chosen yet: choose it on the estimate.';
  const coats = need.coats === 1 ? 'one coat' : `${need.coats} coats`;
  const dries = `dries in ${need.dryHours.least} h and takes cement for ${need.dryHours.most} h`;
  if (clock === null || clock.earliestAt === null) return `${primer.name}, ${coats}; ${dries}.`;
  return `${primer.name}, ${coats}: pour from ${formatInstantTime(clock.earliestAt, zone, locale)} until ${timeThenDay(clock.latestAt, zone, locale)}.`;
}

const timeThenDay = (at: string, zone: string, locale: string): string =>
  isMidnight(at, zone)
    ? formatInstant(at, zone, 'short', locale)
    : `${formatInstantTime(at, zone, locale)}, ${formatInstantDay(at, zone, 'short', locale)}`;

/** When it may be poured. */
export function footWords({ preparation, jobRoom }: RoomReading, zone: string, locale: string): string {
  const { clock } = preparation;
  const meant = jobRoom.pourAt === null ? '' : `; we mean to at ${formatInstantTime(jobRoom.pourAt, zone, locale)}`;
  if (clock === null || clock.earliestAt === null)
    return jobRoom.pourAt === null
      ? 'No day is set for the pour.'
      : `The pour is set for ${formatInstant(jobRoom.pourAt, zone, 'weekday', locale)}.`;
  if (clock.state === 'too-old') return 'The primer is too old: prime again.';
  const until =
    dayOfInstant(clock.earliestAt, zone) === dayOfInstant(clock.latestAt, zone)
      ? formatInstantTime(clock.latestAt, zone, locale)
      : timeThenDay(clock.latestAt, zone, locale);
  return `Pour between ${formatInstantTime(clock.earliestAt, zone, locale)} and ${until}${meant}.`;
}
