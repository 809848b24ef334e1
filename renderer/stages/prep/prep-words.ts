import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantTime, isMidnight } from '../../../shared-core/measure/moment.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';

const HOUR_S = 3600;

/** `About 2 h 30 min`, typical until the company's own hours are learned; empty where unknown. */
export function hoursWords(hours: number | null, locale: string): string {
  return hours === null || hours <= 0 ? '' : `About ${formatDuration(hours * HOUR_S, locale)}`;
}

/** The checklist in one line: unsigned lines and own crew hours. */
export function listWords(lines: readonly SignedLine[], hours: number, locale: string): string {
  const needed = lines.filter((line) => line.item !== null);
  if (needed.length === 0) return 'No lines yet.';
  const open = needed.filter((line) => line.state !== 'signed').length;
  const openWords = open === 0 ? 'All lines signed.' : `${open} of ${needed.length} lines not signed.`;
  const time = hoursWords(hours, locale);
  return time === '' ? openWords : `${time} of own labor. ${openWords}`;
}

/** The primer with its coats and its window for the next coat, or what is missing. */
export function clockWords(roomReading: RoomReading, zone: string, locale: string): string {
  const { preparation, estimate, primer } = roomReading;
  if (primer === null) return 'No primer selected. Choose it in Estimate.';
  const need = estimate?.takeoff.primer ?? null;
  if (need === null) {
    const problem = estimate?.problems.find(({ key }) => key === 'primer')?.message;
    return problem === undefined ? `${primer.name}. Draw the room to compute the amount.` : problem;
  }
  const clock = preparation.clock;
  const coats = need.coats === 1 ? '1 coat' : `${need.coats} coats`;
  const window = `Dry after ${need.dryHours.least} h, pour within ${need.dryHours.most} h`;
  if (clock === null || clock.earliestAt === null) return `${primer.name}, ${coats}. ${window}, once it is tack-free and clear.`;
  return `${primer.name}, ${coats}. Pour from ${formatInstantTime(clock.earliestAt, zone, locale)} to ${timeThenDay(clock.latestAt, zone, locale)}, once it is tack-free and clear.`;
}

const timeThenDay = (instant: string, zone: string, locale: string): string =>
  isMidnight(instant, zone)
    ? formatInstant(instant, zone, 'short', locale)
    : `${formatInstantTime(instant, zone, locale)}, ${formatInstantDay(instant, zone, 'short', locale)}`;

/** When the pour can start, or when it was. */
export function footWords({ preparation, jobRoom }: RoomReading, pouredAt: string | null, zone: string, locale: string): string {
  if (pouredAt !== null) return `Poured ${formatInstant(pouredAt, zone, 'weekday', locale)}.`;
  const { clock } = preparation;
  if (clock === null || clock.earliestAt === null)
    return jobRoom.pourAt === null ? 'No pour date set.' : `Pour planned for ${formatInstant(jobRoom.pourAt, zone, 'weekday', locale)}.`;
  if (clock.state === 'too-old') return 'The primer is too old. Prime again.';
  const until =
    dayOfInstant(clock.earliestAt, zone) === dayOfInstant(clock.latestAt, zone)
      ? formatInstantTime(clock.latestAt, zone, locale)
      : timeThenDay(clock.latestAt, zone, locale);
  const planned = jobRoom.pourAt === null ? '' : ` Planned for ${formatInstantTime(jobRoom.pourAt, zone, locale)}.`;
  return `Pour between ${formatInstantTime(clock.earliestAt, zone, locale)} and ${until}.${planned}`;
}
