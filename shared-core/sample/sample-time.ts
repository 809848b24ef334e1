/** The sample book lives around the day it is opened: everything in it is so many days and a time of day from then. */
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, instantAt } from '../measure/moment.ts';

/** Where the sample's business and houses stand. */
export const SAMPLE_ZONE = 'America/New_York';

export type SampleClock = {
  /** The instant so many days from today, at a time on the clock of the place: `at(-3, '09:40')`. */
  readonly instantAt: (days: number, clock: string) => string;
  /** The same, but never later than a few minutes before now: something already measured. */
  readonly past: (days: number, clock: string) => string;
  readonly day: (days: number) => string;
};

/** How long ago the latest measurement was taken. */
const RECENT_MS = 20 * 60_000;

/** The sample's clock around `now`. */
export function sampleClock(now: string): SampleClock {
  const today = dayOfInstant(now, SAMPLE_ZONE);
  const day = (days: number): string => addDaysToDay(today, days);
  const instantOf = (days: number, clock: string): string => {
    const found = instantAt(day(days), clock, SAMPLE_ZONE, 'first');
    return found.ok ? found.value.instant : now;
  };
  const lately = new Date(Date.parse(now) - RECENT_MS).toISOString();
  return { day, instantAt: instantOf, past: (days, clock) => (instantOf(days, clock) < lately ? instantOf(days, clock) : lately) };
}
