import { describe, expect, it } from 'vitest';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { datesTold, dayKept, toldFor } from '../../../shared-core/agenda/told-dates.ts';
import { judgePromise } from '../../../shared-core/cure/promise-verdict.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T16:00:00.000Z';
const whole = wholeJobsOf(sampleBook(NOW)).find((w) => w.job.id === 'sample-job-abara');
if (whole === undefined) throw new Error('The sample has three floors in a row.');
const reading = readJob(whole, NOW);
const zone = whole.property.timeZone;
/** The platform's own clock, not ours. */
const wall = (at: string, timeZone: string): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short', timeStyle: 'short', hourCycle: 'h23' }).format(new Date(at));

describe('a date told to a customer', () => {
  it('is a whole day for a covering, to its last minute, also on days the clocks change', () => {
    for (const day of ['2026-05-29', '2026-03-08', '2026-11-01', '2028-02-29'])
      for (const timeZone of ['America/New_York', 'Europe/Berlin', 'Australia/Lord_Howe'])
        expect(wall(dayKept(day, timeZone), timeZone)).toBe(`${day}, 23:59`);
  });

  it('is an hour for anything sooner, never before it is expected', () => {
    expect(toldFor({ kind: 'walk-on' }, '2026-05-12T20:20:01.000Z', zone)).toBe('2026-05-12T21:00:00.000Z');
    expect(toldFor({ kind: 'walk-on' }, '2026-05-12T20:00:00.000Z', zone)).toBe('2026-05-12T20:00:00.000Z');
  });

  it('of a day is kept while the covering is expected any time of that day', () => {
    const cured = jobReadingCures(reading).find((c) => c.room.id === 'sample-living');
    const cover = cured?.schedule.cover;
    if (cover?.likelyAt == null) throw new Error('The living room has a covering to come.');
    const [promise] = whole.promises;
    if (promise === undefined) throw new Error('The sample has promises.');
    const made = { ...promise, promisedFor: toldFor(cover, cover.likelyAt, zone) };
    expect(judgePromise(made, cover).state).toBe('tight');
    const nextMorning = new Date(Date.parse(made.promisedFor) + 60_001).toISOString();
    expect(judgePromise(made, { ...cover, likelyAt: nextMorning }).state).toBe('late');
  });

  it('is news only while it is ahead and was not told the same before', () => {
    const cures = jobReadingCures(reading);
    const told = datesTold(cures, [], NOW, zone);
    expect(told.every((t) => t.promisedFor > NOW)).toBe(true);
    expect(told.filter((t) => t.milestone === 'cover').map((t) => t.roomId)).toEqual(
      expect.arrayContaining(['sample-living', 'sample-dining']),
    );
    const [model] = whole.promises;
    if (model === undefined) throw new Error('The sample has promises.');
    const kept = told.map((t, i) => ({ ...model, ...t, id: `told-${i}`, madeAt: NOW, deletedAt: null }));
    expect(datesTold(cures, kept, NOW, zone)).toEqual([]);
    expect(datesTold(cures, kept.slice(1), NOW, zone)).toHaveLength(1);
  });
});

describe('a room that was handed over while it dries', () => {
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
