import { describe, expect, it } from 'vitest';
import { primerClock } from '../../../shared-core/prep/primer-clock.ts';

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
