import { nextPrimer, type RoomReading } from '../../../shared-core/standing/read-job.ts';
import { formatWork } from '../../../shared-core/measure/duration.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantsOn, formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { primerWindowWords } from '../../../shared-core/prep/primer-clock.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';

/** When and where the words are read. */
type Read = { readonly now: string; readonly zone: string; readonly locale: string };

/** `About 2 h 30 min`, typical until the company's own hours are learned; empty where unknown. */
export function hoursWords(hours: number | null, locale: string): string {
  return hours === null || hours <= 0 ? '' : `About ${formatWork(hours, locale)}`;
}

/** When a line was signed: the time today, the date of another day. */
export const signedWhen = (doneAt: string, now: string, zone: string, locale: string): string =>
  dayOfInstant(doneAt, zone) === dayOfInstant(now, zone)
    ? formatInstantTime(doneAt, zone, locale)
    : formatInstantDay(doneAt, zone, 'short', locale);

/** The checklist in one line: unsigned lines and own crew hours. */
export function listWords(lines: readonly SignedLine[], hours: number, locale: string): string {
  const needed = lines.filter((line) => line.item !== null);
  if (needed.length === 0) return 'No lines yet.';
  const open = needed.filter((line) => line.state !== 'signed').length;
  const openWords = open === 0 ? 'All lines signed.' : `${open} of ${needed.length} lines not signed.`;
  const time = hoursWords(hours, locale);
  return time === '' ? openWords : `${time} of own labor. ${openWords}`;
}

/** The primer with its coats and its window for the pour, or what is missing. */
export function clockWords(roomReading: RoomReading, { now, zone, locale }: Read): string {
  const { preparation, estimate, primer } = roomReading;
  if (primer === null) return 'No primer selected. Choose it in Estimate.';
  const need = nextPrimer(roomReading);
  if (need === null) {
    const problem = estimate?.problems.find(({ key }) => key === 'primer' || key === 'lift-primer')?.message;
    return problem === undefined ? `${primer.name}. Draw the room to compute the amount.` : problem;
  }
  const coats = need.coats === 1 ? '1 coat' : `${need.coats} coats`;
  const window =
    primerWindowWords(preparation.clock, now, zone, locale) ?? `Dry after ${need.dryHours.least} h, pour within ${need.dryHours.most} h.`;
  return `${primer.name}, ${coats}. ${window}${preparation.clock?.state === 'too-old' ? '' : ' It has to be tack-free and clear.'}`;
}

/** When the pour can start, or when it was. */
export function footWords({ preparation, nextPourAt: pourAt }: RoomReading, pouredAt: string | null, { now, zone, locale }: Read): string {
  if (pouredAt !== null) return `Poured ${formatInstant(pouredAt, zone, 'weekday', locale)}.`;
  const { clock } = preparation;
  const window = primerWindowWords(clock, now, zone, locale);
  if (window === null) return pourAt === null ? 'No pour date set.' : `Pour planned for ${formatInstant(pourAt, zone, 'weekday', locale)}.`;
  if (pourAt === null || clock?.state === 'too-old') return window;
  return `${window} Planned for ${formatInstantsOn(now, [pourAt], zone, locale).join('')}.`;
}
