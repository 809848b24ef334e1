/** A promised date against its milestone, worked by hand: New York is four hours behind UTC in June (IANA time zone database). */
import { describe, expect, it } from 'vitest';
import type { ClearanceTest, Promised } from '../../../shared-core/book/cure-record.ts';
import { inTestOrder } from '../../../shared-core/cure/clearance-tests.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { gravest, isBroken, judgePromise, type PromiseVerdict, standingPromises } from '../../../shared-core/cure/promise-verdict.ts';
import { earliestOf, latestOf } from '../../../shared-core/cure/strength-dates.ts';
import { zoneClock } from '../../../shared-core/cure/zone-clock.ts';

const zone = 'America/New_York';
const onJune = (day: number, hour = 11): string => `2026-06-${String(day).padStart(2, '0')}T${String(hour).padStart(2, '0')}:00:00.000Z`;
const promise = (change: Partial<Promised> = {}): Promised => ({
  ...{
    id: 'p1',
    createdAt: onJune(1),
    changedAt: onJune(1),
    deletedAt: null,
    jobId: 'j',
    roomId: 'r',
    milestone: 'cover',
    flooring: 'floating',
  },
  ...{ promisedFor: onJune(12), madeAt: onJune(1), documentId: null, to: 'Customer' },
  ...change,
});
const milestone = (kind: DatedMilestone['kind'], likelyAt: string | null, latestAt: string | null = likelyAt): DatedMilestone => ({
  ...{ key: kind, kind, flooring: null, by: 'drying', statedAt: latestAt, earliestAt: likelyAt, likelyAt, latestAt },
  ...{ clearanceTest: null, reason: null as never },
});

describe('a promise', () => {
  const judged = (kind: DatedMilestone['kind'], likelyAt: string | null, latestAt: string | null, failedAt: string | null = null) =>
    judgePromise(promise(), milestone(kind, likelyAt, latestAt), { zone, failedAt });

  it('is kept to the minute: on track at the latest date, late after the likely one', () => {
    // The day is over at midnight in New York.
    expect(judged('cover', onJune(10), onJune(12))).toEqual({ state: 'on-track', lateByMs: -2 * 86_400_000, dayOverAt: onJune(13, 4) });
    expect(judged('cover', onJune(12), onJune(12)).state).toBe('on-track');
    expect(judged('cover', onJune(12), onJune(12, 12)).state).toBe('at-risk');
    expect(judged('cover', onJune(12), null).state).toBe('at-risk');
    expect(judged('cover', onJune(12, 12), onJune(12, 12))).toMatchObject({ state: 'late', lateByMs: 3_600_000 });
    expect(judged('cover', null, null)).toMatchObject({ state: 'on-hold', lateByMs: null });
  });

  it('of flooring, not of foot traffic, waits for the date stated after a failed test', () => {
    expect(judged('walk-on', onJune(10), onJune(11), onJune(12)).state).toBe('on-track');
    // Failed on the promised day, the next date two days later.
    expect(judged('cover', onJune(11), onJune(14), onJune(12))).toMatchObject({ state: 'late', lateByMs: 2 * 86_400_000 });
    // Failed on the day that was stated last: no date is known.
    expect(judged('cover', onJune(11), onJune(14), onJune(14)).state).toBe('on-hold');
    // Failed before the promised day: the likely date still holds, and not surely where it failed after the latest.
    expect(judged('cover', onJune(10), onJune(11), onJune(9)).state).toBe('on-track');
    expect(judged('cover', onJune(10), onJune(11), onJune(11)).state).toBe('at-risk');
  });

  it('is broken when late or without a date, and the gravest of several is the latest late one', () => {
    const verdict = (state: PromiseVerdict['state'], lateByMs: number | null): PromiseVerdict => ({ state, lateByMs }) as PromiseVerdict;
    const all = [verdict('on-track', -9), verdict('late', 5), verdict('on-hold', null), verdict('late', 7), verdict('at-risk', -1)];
    expect(all.map(isBroken)).toEqual([false, true, true, true, false]);
    for (const some of [all, all.toReversed()]) expect(gravest(some)).toMatchObject({ state: 'late', lateByMs: 7 });
    expect(gravest(all.filter(({ state }) => state !== 'late'))?.state).toBe('on-hold');
    expect(gravest(all.filter(({ state }) => state.startsWith('on-t') || state.startsWith('at')))?.state).toBe('at-risk');
    expect(gravest([])).toBeNull();
  });

  it('is the newest of its milestone and flooring that was not deleted, whatever their order', () => {
    const all = [
      promise({ id: 'old', madeAt: onJune(1) }),
      promise({ id: 'new', madeAt: onJune(3) }),
      promise({ id: 'gone', madeAt: onJune(5), deletedAt: onJune(6) }),
      promise({ id: 'tile', flooring: 'tile-small', madeAt: onJune(2) }),
      promise({ id: 'walk', milestone: 'walk-on', flooring: null, madeAt: onJune(2) }),
    ];
    for (const some of [all, all.toReversed()])
      expect(
        standingPromises(some)
          .map(({ id }) => id)
          .toSorted(),
      ).toEqual(['new', 'tile', 'walk']);
  });
});

it('lists tests by time, those of one visit from the highest down', () => {
  const of = (takenAt: string, value: number) => ({ takenAt, value }) as ClearanceTest;
  const inOrder = [of(onJune(1), 0.9), of(onJune(2), 0.8), of(onJune(2), 0.7), of(onJune(3), 0.75)];
  for (const some of [inOrder, inOrder.toReversed(), [2, 0, 3, 1].flatMap((i) => inOrder[i] ?? [])])
    expect(some.toSorted(inTestOrder)).toEqual(inOrder);
});

it('has never later than any instant, and an earliest one while any is known', () => {
  expect([latestOf([3, 9, 5]), latestOf([3, null, 5]), latestOf([null, 9])]).toEqual([9, null, null]);
  expect([earliestOf([9, null, 5]), earliestOf([null, null]), earliestOf([])]).toEqual([5, null, null]);
});

describe('an hour on the wall', () => {
  // In 2026 New York leaves daylight saving time on November 1 at 2 am, and takes it up on March 8 at 2 am (15 U.S.C. 260a).
  const { instants } = zoneClock(zone);
  const wall = (text: string) => instants(Date.parse(`${text}:00.000Z`)).map((ms) => new Date(ms).toISOString().slice(0, 16));

  it('is one instant, two in the hour that comes twice, first to last, and none in the hour left out', () => {
    expect(wall('2026-06-05T13:30')).toEqual(['2026-06-05T17:30']);
    expect(wall('2026-11-01T00:30')).toEqual(['2026-11-01T04:30']);
    expect(wall('2026-11-01T01:30')).toEqual(['2026-11-01T05:30', '2026-11-01T06:30']);
    expect(wall('2026-11-01T02:30')).toEqual(['2026-11-01T07:30']);
    expect(wall('2026-03-08T02:30')).toEqual([]);
    expect(wall('2026-03-08T03:30')).toEqual(['2026-03-08T07:30']);
  });
});
