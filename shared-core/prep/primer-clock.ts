/** The clock of a primed floor: not before it is dry, not after it is too old to take cement. */
import { HOUR_S } from '../measure/duration.ts';

/** What the clock runs on. */
export type PrimerClockInput = {
  /** When the last coat went down, ISO UTC; null before. */
  readonly primedAt: string | null;
  readonly coats: number;
  readonly coatsDone: number;
  /** Hours from the last coat, by the primer's sheet for this floor. */
  readonly dryHoursLeast: number;
  readonly dryHoursMost: number;
  readonly now: string;
};

/** How the primed floor stands, with the earliest and latest pour; null while coats are wanting. */
export type PrimerClock =
  | { readonly state: 'not-primed' | 'coats-wanting'; readonly earliestAt: null; readonly latestAt: null }
  | { readonly state: 'drying' | 'ready' | 'too-old'; readonly earliestAt: string; readonly latestAt: string };

/** The earliest and latest pour on a primed floor. Both ends belong to the time in which it may be poured. */
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
