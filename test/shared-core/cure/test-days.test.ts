import { expect, it } from 'vitest';
import { isTestDue, testDays } from '../../../shared-core/cure/test-days.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { flooringRequirement } from '../../../shared-core/cure/clearance-tests.ts';
import type { CureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { firstTestDay } from '../../../shared-core/cure/stated-date.ts';
import type { Flooring } from '../../../shared-core/book/flooring.ts';

const PLACE = { zone: 'America/New_York', from: '07:00', to: '18:00', week: { days: [1, 2, 3, 4, 5], country: 'US' } } as const;

/** Poured on Friday, June 5, 2026, with its flooring planned for a day. */
function planned(flooring: Flooring, statedAt: string | null, finding: object = { kind: 'untested' }) {
  const requirement = flooringRequirement({
    ...{ flooring, limits: null, materialKind: 'cement-underlayment', heated: false, overWood: false, drilling: 'allowed', country: 'US' },
    ...{ areaM2: 15, sharing: [] },
  });
  const cover: DatedMilestone = {
    ...{ key: `cover:${flooring}`, kind: 'cover', flooring, by: 'drying', statedAt, clearanceTest: requirement },
    ...{ earliestAt: statedAt, likelyAt: statedAt, latestAt: statedAt, reason: null as never },
  };
  const passed = (finding as { kind: string }).kind === 'passed';
  const clearance: CureSchedule['clearance'] = { requirement, test: null, passed, finding } as never;
  return { cover, clearance, milestones: [], placedAt: '2026-06-05T13:42:00.000Z', laidOn: null };
}

const days = (...of: Parameters<typeof planned>) => testDays(planned(...of), PLACE);

it('starts the test before the flooring as many hours before as its method takes, on a working day', () => {
  // 72 hours in the hole before an in-slab reading (ASTM F2170 before its 2018 edition, from memory): Friday, June 19, a legal holiday
  // (5 U.S.C. 6103), so the day before.
  expect(days('floating', '2026-06-22T11:00:00.000Z')).toEqual({ startOn: '2026-06-18', readOn: '2026-06-22' });
});

it('has no day where no test is required, where it is passed, and where there is no date', () => {
  expect(days('tile-small', '2026-06-22T11:00:00.000Z')).toBeNull();
  expect(days('floating', '2026-06-22T11:00:00.000Z', { kind: 'passed' })).toBeNull();
  expect(days('floating', null)).toBeNull();
  // The flooring is down: a test would find it.
  expect(testDays({ ...planned('floating', '2026-06-22T11:00:00.000Z'), laidOn: '2026-06-20' }, PLACE)).toBeNull();
});

it('tests again after a failed test: on a later working day, and read no sooner than the test takes', () => {
  const after = (failedAt: string) => days('floating', '2026-06-22T11:00:00.000Z', { kind: 'over', test: { takenAt: failedAt } });
  // Failed on Friday, July 3, the day Independence Day is observed (5 U.S.C. 6103): on Monday, three days before it is read.
  expect(after('2026-07-03T14:00:00.000Z')).toEqual({ startOn: '2026-07-06', readOn: '2026-07-09' });
  expect(after('2026-06-22T14:00:00.000Z')).toEqual({ startOn: '2026-06-23', readOn: '2026-06-26' });
  // Failed while the floor was still expected to dry: as planned before.
  expect(after('2026-06-10T14:00:00.000Z')).toEqual({ startOn: '2026-06-18', readOn: '2026-06-22' });
});

it('waits for foot traffic, and for no later milestone', () => {
  const milestone = (kind: DatedMilestone['kind'], latestAt: string): DatedMilestone => ({
    ...{ key: kind, kind, flooring: null, by: 'strength', statedAt: latestAt, earliestAt: latestAt, likelyAt: latestAt, latestAt },
    ...{ clearanceTest: null, reason: null as never },
  });
  // Poured on Friday. Open to foot traffic on Wednesday, June 10, after work began: the test starts on Thursday.
  const milestones = [
    milestone('furniture', '2026-06-25T15:00:00.000Z'),
    milestone('walk-on', '2026-06-10T15:00:00.000Z'),
    milestone('full', '2026-07-03T15:00:00.000Z'),
  ];
  for (const some of [milestones, milestones.toReversed()])
    expect(testDays({ ...planned('floating', '2026-06-11T11:00:00.000Z'), milestones: some }, PLACE)).toEqual({
      startOn: '2026-06-11',
      readOn: '2026-06-15',
    });
  // Open on the day of the pour: on the first working day after it. In its first minute of work, it is ready that day.
  expect(firstTestDay('2026-06-05T13:42:00.000Z', '2026-06-05T18:00:00.000Z', PLACE)).toBe('2026-06-08');
  expect(firstTestDay('2026-06-08T13:42:00.000Z', '2026-06-10T11:00:00.000Z', PLACE)).toBe('2026-06-10');
  expect(firstTestDay('2026-06-08T13:42:00.000Z', '2026-06-10T11:00:01.000Z', PLACE)).toBe('2026-06-11');
});

it('is due from its soonest day on, and while too few of its tests are there', () => {
  const due = (finding: string, now: string) => isTestDue(planned('floating', '2026-06-22T11:00:00.000Z', { kind: finding }), now);
  expect(due('untested', '2026-06-21T11:00:00.000Z')).toBe(false);
  expect(due('untested', '2026-06-22T11:00:00.000Z')).toBe(true);
  expect(due('few', '2026-06-21T11:00:00.000Z')).toBe(true);
  expect(due('passed', '2026-06-23T11:00:00.000Z')).toBe(false);
});
