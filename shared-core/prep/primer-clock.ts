/**
 * The pour window of the primer: from dry to too old. It is a guide: the primer must be tack-free and clear, and cool damp rooms
 * take longer.
 */
import type { JobRoom } from '../book/job.ts';
import { HOUR_S } from '../measure/duration.ts';
import { formatInstantsOn, secondsBetween } from '../measure/moment.ts';

/** The time of the last coat and the number of coats. */
export type Primed = Pick<JobRoom, 'primedAt' | 'primerCoatsDone'>;

/**
 * The primer that the next pour goes on: primer from before the last pour lies under it.
 * @param lastPouredAt when the last pour finished, while more is to be poured; null for none
 */
export function primedFor({ primedAt, primerCoatsDone }: Primed, lastPouredAt: string | null): Primed {
  const isUnder = primedAt !== null && lastPouredAt !== null && secondsBetween(primedAt, lastPouredAt) >= 0;
  return isUnder ? { primedAt: null, primerCoatsDone: 0 } : { primedAt, primerCoatsDone };
}

/** What the signature of the priming line is read with. */
export type Priming = {
  readonly coats: number;
  /** Hours from the last coat to the latest pour; null without a data sheet. */
  readonly dryHoursMost: number | null;
  /** As `primedFor` takes it. */
  readonly lastPouredAt: string | null;
};

/** The primer after the priming line is signed: a time entered before it stays, unless coats were missing or it is past its limit. */
export function primedBySigning(of: Primed, { coats, dryHoursMost, lastPouredAt }: Priming, signedAt: string): Primed {
  const primed = primedFor(of, lastPouredAt);
  const { primedAt, primerCoatsDone } = primed;
  const limitS = (dryHoursMost ?? Number.POSITIVE_INFINITY) * HOUR_S;
  const stays = primedAt !== null && primerCoatsDone >= coats && secondsBetween(primedAt, signedAt) <= limitS;
  return stays ? primed : { primedAt: signedAt, primerCoatsDone: coats };
}

/** Input of the window. */
export type PrimerClockInput = {
  /** When the last coat was applied, ISO UTC; null before. */
  readonly primedAt: string | null;
  readonly coats: number;
  readonly coatsDone: number;
  /** Hours from the last coat, by the primer's data sheet for this substrate. */
  readonly dryHoursLeast: number;
  readonly dryHoursMost: number;
  readonly now: string;
};

/** State of the primer, with the earliest and latest pour; null while coats are missing. */
export type PrimerClock =
  | { readonly state: 'not-primed' | 'coats-wanting'; readonly earliestAt: null; readonly latestAt: null }
  | { readonly state: 'drying' | 'ready' | 'too-old'; readonly earliestAt: string; readonly latestAt: string };

/** The earliest and latest pour on a primed floor, both ends included. */
export function primerClock(input: PrimerClockInput): PrimerClock {
  if (input.primedAt === null || input.coatsDone === 0) return { state: 'not-primed', earliestAt: null, latestAt: null };
  if (input.coatsDone < input.coats) return { state: 'coats-wanting', earliestAt: null, latestAt: null };
  const primed = Date.parse(input.primedAt);
  const earliest = primed + input.dryHoursLeast * HOUR_S * 1000;
  const latest = primed + input.dryHoursMost * HOUR_S * 1000;
  const now = Date.parse(input.now);
  return {
    state: now < earliest ? 'drying' : now > latest ? 'too-old' : 'ready',
    earliestAt: new Date(earliest).toISOString(),
    latestAt: new Date(latest).toISOString(),
  };
}

/** Why a primed floor cannot be poured on. */
export const PRIMER_SAYS: Readonly<Record<Exclude<PrimerClock['state'], 'ready'>, string>> = {
  'not-primed': 'The floor is not primed.',
  'coats-wanting': 'Another coat of primer is needed.',
  drying: 'The primer is not dry.',
  'too-old': 'The primer is too old. Prime again.',
};

/**
 * The window in a sentence, or that it is past; null before the last coat.
 * @param readAt when the sentence is read
 */
export function primerWindowWords(clock: PrimerClock | null, readAt: string, zone: string, locale: string): string | null {
  if (clock === null || clock.earliestAt === null) return null;
  if (clock.state === 'too-old') return PRIMER_SAYS['too-old'];
  return `Pour from ${formatInstantsOn(readAt, [clock.earliestAt, clock.latestAt], zone, locale).join(' to ')}.`;
}
