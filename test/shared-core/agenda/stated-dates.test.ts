import { describe, expect, it } from 'vitest';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { newlyStatedDates } from '../../../shared-core/agenda/stated-dates.ts';
import { statedFor, workCalendar } from '../../../shared-core/cure/stated-date.ts';
import { statedDateWords } from '../../../shared-core/standing/time-words.ts';
import { judgePromise } from '../../../shared-core/cure/promise-verdict.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { threeTests } from '../cure/sheet-fixture.ts';

const NOW = '2026-05-12T16:00:00.000Z';
const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-abara');
if (whole === undefined) throw new Error('The sample has this job.');
const reading = readJob(whole, NOW);
const zone = whole.property.timeZone;
/** The platform's time zone arithmetic, independent of the program's. */
const wall = (instant: string, timeZone: string): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short', timeStyle: 'short', hourCycle: 'h23' }).format(new Date(instant));

const place = workCalendar({ ...whole.business, hours: { from: '07:30', to: '17:00', days: [1, 2, 3, 4, 5] } }, zone);
/** An instant in the property's time zone, by the platform's arithmetic. */
const instantOf = (local: string): string => new Date(`${local}:00-04:00`).toISOString();

describe('a date stated to a customer', () => {
  it('is a whole hour within working hours for foot traffic, never before it is expected', () => {
    const statedWall = (local: string): string => wall(statedFor('walk-on', instantOf(local), place), zone);
    expect(statedWall('2026-05-12T16:20')).toBe('2026-05-12, 17:00');
    expect(statedWall('2026-05-12T16:00')).toBe('2026-05-12, 16:00');
    expect(statedWall('2026-05-12T18:30')).toBe('2026-05-13, 07:30');
    expect(statedWall('2026-05-13T01:06')).toBe('2026-05-13, 07:30');
  });

  it('is a day for furniture and flooring: the first on which it is ready when work begins', () => {
    const statedWall = (kind: 'furniture' | 'cover', local: string): string => wall(statedFor(kind, instantOf(local), place), zone);
    expect(statedWall('furniture', '2026-05-14T06:00')).toBe('2026-05-14, 07:30');
    expect(statedWall('furniture', '2026-05-15T10:00')).toBe('2026-05-16, 07:30');
    // Flooring waits for a working day: past a weekend, and past Memorial Day, Monday, May 25, 2026.
    expect(statedWall('cover', '2026-05-15T10:00')).toBe('2026-05-18, 07:30');
    expect(statedWall('cover', '2026-05-22T10:00')).toBe('2026-05-26, 07:30');
    expect(statedDateWords('cover', instantOf('2026-05-26T07:30'), place, 'short', 'en-US')).toBe('May 26');
  });

  it('keeps the hour of foot traffic at the start of work: a floor placed after midnight is not open all of that day', () => {
    // Placed at 12:30 am and ready at 6 am: nobody walks on it before 7:30 am.
    const stated = statedFor('walk-on', instantOf('2026-05-12T06:00'), place);
    expect(wall(stated, zone)).toBe('2026-05-12, 07:30');
    expect(statedDateWords('walk-on', stated, place, 'weekday', 'en-US')).toBe('Tue, May 12, 7:30 am');
    expect(statedDateWords('walk-on', stated, place, 'short', 'en-US')).toBe('May 12, 7:30 am');
  });

  it('is never sooner than the milestone’s latest date', () => {
    for (const { schedule } of jobReadingCures(reading))
      for (const m of schedule.milestones) expect(m.statedAt === null || m.latestAt === null || m.statedAt >= m.latestAt).toBe(true);
  });

  it('is on track when stated, because the latest date can be met', () => {
    const cover = jobReadingCures(reading).find((c) => c.room.id === 'sample-living')?.schedule.cover;
    const [promise] = whole.promises;
    if (cover == null || cover.statedAt === null || promise === undefined) throw new Error('The living room has flooring to come.');
    const promised = { ...promise, promisedFor: cover.statedAt };
    const untested = { zone, failedAt: null };
    expect(judgePromise(promised, cover, untested).state).toBe('on-track');
    expect(judgePromise(promised, { ...cover, latestAt: new Date(Date.parse(cover.statedAt) + 1).toISOString() }, untested).state).toBe(
      'at-risk',
    );
    expect(judgePromise(promised, { ...cover, likelyAt: new Date(Date.parse(cover.statedAt) + 1).toISOString() }, untested)).toMatchObject({
      state: 'late',
      lateByMs: 1,
    });
  });

  it('is new only while it is ahead and was not stated before', () => {
    const cures = jobReadingCures(reading);
    const stated = newlyStatedDates(cures, [], NOW);
    expect(stated.every((t) => t.promisedFor > NOW)).toBe(true);
    expect(stated.filter((t) => t.milestone === 'cover').map((t) => t.roomId)).toEqual(
      expect.arrayContaining(['sample-living', 'sample-dining']),
    );
    const [model] = whole.promises;
    if (model === undefined) throw new Error('The sample has promises.');
    const promises = stated.map((t, i) => ({ ...model, ...t, id: `told-${i}`, madeAt: NOW, deletedAt: null }));
    expect(newlyStatedDates(cures, promises, NOW)).toEqual([]);
    expect(newlyStatedDates(cures, promises.slice(1), NOW)).toHaveLength(1);
  });

  it('is none for flooring once it was tested: a floor that passed owes no date, and one that failed has none', () => {
    const cure = jobReadingCures(reading).find(({ room }) => room.id === 'sample-living');
    const requirement = cure?.schedule.clearance?.requirement;
    const method = requirement?.methods[0];
    if (cure === undefined || requirement === undefined || method === undefined) throw new Error('The living room needs a test.');
    // Four days after the pour, long before the dates.
    const takenAt = new Date(Date.parse(cure.schedule.placedAt) + 4 * 86_400_000).toISOString();
    const stamp = { id: 'test-1', createdAt: takenAt, changedAt: takenAt, deletedAt: null, jobId: whole.job.id, roomId: cure.room.id };
    const own = { flooring: requirement.flooring, method: method.method, unit: method.unit, takenAt, by: 'RT', note: '' };
    const coversOf = (value: number): number => {
      const tested = jobReadingCures(readJob({ ...whole, clearanceTests: threeTests({ ...stamp, ...own, value }) }, takenAt));
      return newlyStatedDates(tested, [], takenAt).filter((t) => t.milestone === 'cover' && t.roomId === cure.room.id).length;
    };
    expect([coversOf(0.9), coversOf(0.5)]).toEqual([0, 0]);
  });
});

describe('a room handed over while it dries', () => {
  const handed = (roomId: string) =>
    readJob(
      {
        ...whole,
        job: {
          ...whole.job,
          rooms: whole.job.rooms.map((r) => (r.roomId === roomId ? { ...r, handedOverAt: NOW } : r)),
        },
      },
      NOW,
    );
  const step = (roomId: string) => nextStep(handed(roomId).bundle, roomId, whole.business, NOW);

  it('cures until its test passes, and is done once cleared', () => {
    expect(step('sample-living')?.standing).toMatchObject({ stage: 'cure', curing: true });
    expect(step('sample-back-hall')?.standing).toMatchObject({ stage: 'done', cleared: true });
  });
});
