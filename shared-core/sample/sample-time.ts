/** The sample book lives around the day it is opened: everything in it is so many days and a time of day from then. */
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, instantAt } from '../measure/moment.ts';

/** Where the sample's business and houses stand. */
export const SAMPLE_ZONE = 'America/New_York';

export type SampleClock = {
  /** The instant so many days from today, at a time on the clock of the place: `at(-3, '09:40')`. */
  readonly at: (days: number, clock: string) => string;
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
  const at = (days: number, clock: string): string => {
    const found = instantAt(day(days), clock, SAMPLE_ZONE, 'first');
    return found.ok ? found.value.at : now;
  };
  const lately = new Date(Date.parse(now) - RECENT_MS).toISOString();
  return { day, at, past: (days, clock) => (at(days, clock) < lately ? at(days, clock) : lately) };
}
