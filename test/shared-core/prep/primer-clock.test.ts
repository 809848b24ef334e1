import { describe, expect, it } from 'vitest';
import { primerClock, primerWindowWords } from '../../../shared-core/prep/primer-clock.ts';

const clockAt = (now: string, change: Partial<Parameters<typeof primerClock>[0]> = {}) =>
  primerClock({ primedAt: '2026-05-04T13:10:00Z', coats: 1, coatsDone: 1, dryHoursLeast: 2.5, dryHoursMost: 6, now, ...change });

describe('the primer’s clock', () => {
  it('runs from the hours on the sheet, both ends included', () => {
    expect(clockAt('2026-05-04T15:39:59Z').state).toBe('drying');
    expect(clockAt('2026-05-04T15:40:00Z')).toEqual({
      state: 'ready',
      earliestAt: '2026-05-04T15:40:00.000Z',
      latestAt: '2026-05-04T19:10:00.000Z',
    });
    expect(clockAt('2026-05-04T19:10:00Z').state).toBe('ready');
    expect(clockAt('2026-05-04T19:10:01Z').state).toBe('too-old');
  });

  it('does not run before the last coat', () => {
    expect(clockAt('2026-05-04T16:00:00Z', { coats: 2 })).toEqual({ state: 'coats-wanting', earliestAt: null, latestAt: null });
    expect(clockAt('2026-05-04T16:00:00Z', { coatsDone: 0 }).state).toBe('not-primed');
    expect(clockAt('2026-05-04T16:00:00Z', { primedAt: null }).state).toBe('not-primed');
  });
});

describe('the window in words', () => {
  const zone = 'America/New_York';
  /** Read at a local time of May 2026, when New York is four hours behind UTC. */
  const readAt = (primed: string, now: string): string | null => {
    const at = (local: string) => `2026-05-${local}:00.000-04:00`;
    const clock = primerClock({ primedAt: at(primed), coats: 1, coatsDone: 1, dryHoursLeast: 1, dryHoursMost: 24, now: at(now) });
    return primerWindowWords(clock, at(now), zone, 'en-US');
  };

  it('names both days unless both are the day it is read', () => {
    expect(readAt('14T14:40', '14T15:00')).toBe('Pour from Thu, May 14, 3:40 pm to Fri, May 15, 2:40 pm.');
    expect(readAt('14T14:40', '15T08:00')).toBe('Pour from Thu, May 14, 3:40 pm to Fri, May 15, 2:40 pm.');
    const clock = primerClock({
      primedAt: '2026-05-14T12:00:00.000Z',
      coats: 1,
      coatsDone: 1,
      dryHoursLeast: 1,
      dryHoursMost: 6,
      now: '2026-05-14T12:10:00.000Z',
    });
    expect(primerWindowWords(clock, '2026-05-14T12:10:00.000Z', zone, 'en-US')).toBe('Pour from 9 am to 2 pm.');
    expect(primerWindowWords(clock, '2026-05-13T12:00:00.000Z', zone, 'en-US')).toBe('Pour from Thu, May 14, 9 am to Thu, May 14, 2 pm.');
  });

  it('is past once the primer is too old, and none before the last coat', () => {
    expect(readAt('14T14:40', '15T14:41')).toBe('The primer is too old. Prime again.');
    expect(primerWindowWords(null, '2026-05-14T12:00:00.000Z', zone, 'en-US')).toBeNull();
  });
});
