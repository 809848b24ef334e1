/** Dates of the sample data: everything is a number of days and a time of day from the day it is opened. */
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, instantAt } from '../measure/moment.ts';

/** Time zone of the sample's company and properties. */
export const SAMPLE_ZONE = 'America/New_York';

export type SampleClock = {
  /** The instant `days` from today, at a local time: `instantAt(-3, '09:40')`. */
  readonly instantAt: (days: number, clock: string) => string;
  /** The same, but at least a few minutes before now, for something already measured. */
  readonly past: (days: number, clock: string) => string;
  readonly day: (days: number) => string;
};

/** Age of the latest measurement. */
const RECENT_MS = 20 * 60_000;

/** The sample's clock around `now`. */
export function sampleClock(now: string): SampleClock {
  const today = dayOfInstant(now, SAMPLE_ZONE);
  const day = (days: number): string => addDaysToDay(today, days);
  const instantOf = (days: number, clock: string): string => {
    const parsed = instantAt(day(days), clock, SAMPLE_ZONE, 'first');
    return parsed.ok ? parsed.value.instant : now;
  };
  const recent = new Date(Date.parse(now) - RECENT_MS).toISOString();
  return { day, instantAt: instantOf, past: (days, clock) => (instantOf(days, clock) < recent ? instantOf(days, clock) : recent) };
}

/** The stamps of a record made at an instant. */
export const stampsAt = (id: string, instant: string) => ({ id, createdAt: instant, changedAt: instant, deletedAt: null });
