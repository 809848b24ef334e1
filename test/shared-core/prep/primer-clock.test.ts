import { describe, expect, it } from 'vitest';
import { primedBySigning, primedFor, primerClock, primerWindowWords } from '../../../shared-core/prep/primer-clock.ts';

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
    for (const change of [{ coats: 2 }, { primedAt: null }])
      expect(primerWindowWords(clockAt('2026-05-14T12:00:00.000Z', change), '2026-05-14T12:00:00.000Z', zone, 'en-US')).toBeNull();
  });
});

/** Primer under a placed lift bonds nothing to the next one: common practice, no source. */
describe('the primer of the next pour', () => {
  const monday = { primedAt: '2026-05-11T12:00:00.000Z', primerCoatsDone: 2 };
  const pouredAt = '2026-05-11T15:00:00.000Z';

  it('is none while only the last pour was primed', () => {
    expect(primedFor(monday, null)).toEqual(monday);
    expect(primedFor(monday, pouredAt)).toEqual({ primedAt: null, primerCoatsDone: 0 });
    expect(primedFor(monday, monday.primedAt)).toEqual({ primedAt: null, primerCoatsDone: 0 });
    const tuesday = { primedAt: '2026-05-12T12:00:00.000Z', primerCoatsDone: 1 };
    expect(primedFor(tuesday, pouredAt)).toEqual(tuesday);
    // The first of two coats, its time not entered.
    expect(primedFor({ primedAt: null, primerCoatsDone: 1 }, pouredAt)).toEqual({ primedAt: null, primerCoatsDone: 1 });
  });

  it('is as old as its line was signed, unless a time entered before it still holds', () => {
    const signedAt = '2026-05-12T12:00:00.000Z';
    const signed = { primedAt: signedAt, primerCoatsDone: 2 };
    const priming = { coats: 2, dryHoursMost: 24, lastPouredAt: null };
    expect(primedBySigning({ primedAt: null, primerCoatsDone: 0 }, priming, signedAt)).toEqual(signed);
    expect(primedBySigning({ ...monday, primerCoatsDone: 1 }, priming, signedAt)).toEqual(signed);
    // 24 hours to the second, then a second more.
    expect(primedBySigning(monday, priming, signedAt)).toEqual(monday);
    expect(primedBySigning(monday, priming, '2026-05-12T12:00:01.000Z')).toEqual({ ...signed, primedAt: '2026-05-12T12:00:01.000Z' });
    expect(primedBySigning(monday, { ...priming, dryHoursMost: null }, '2026-06-01T12:00:00.000Z')).toEqual(monday);
    expect(primedBySigning(monday, { ...priming, lastPouredAt: pouredAt }, signedAt)).toEqual(signed);
  });
});
