import { describe, expect, it } from 'vitest';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { jobTrySchema, optionOfTry, readTried, tryOfText, tryOption, tryRoom, withTry } from '../../../shared-core/standing/what-if.ts';
import { whatIfRows } from '../../../shared-core/standing/what-if-rows.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const HALL = 'sample-hall';
const found = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-odell');
if (found === undefined) throw new Error('The sample has the job in the hall.');
const whole = found;
const { job } = whole;
const planned = readJob(whole, NOW);

const thicker =
  (byM: number) =>
  (room: JobRoom): JobRoom => ({
    ...room,
    level: { ...room.level, leastThicknessM: room.level.leastThicknessM + byM },
  });
const withMixers =
  (mixers: number) =>
  (room: JobRoom): JobRoom => ({
    ...room,
    pourPlan: room.pourPlan === null ? null : { ...room.pourPlan, crew: { ...room.pourPlan.crew, mixers } },
  });

describe('a what-if of a job', () => {
  it('does not change the job', () => {
    const before = JSON.stringify(whole);
    const tries = tryRoom(job, [], HALL, thicker(0.01));
    const tried = readTried(whole, tries, NOW);
    expect(tried.reading.whole.job).not.toEqual(job);
    expect(JSON.stringify(whole)).toBe(before);
  });

  it('survives the transfer to a worker and back', () => {
    const tried = readTried(whole, tryRoom(job, [], HALL, thicker(0.01)), NOW);
    expect(structuredClone(tried)).toEqual(tried);
  });

  it('is empty again when it is reverted', () => {
    const tries = tryRoom(job, [], HALL, thicker(0.01));
    expect(tries).toHaveLength(1);
    expect(
      tryRoom(job, tries, HALL, (room) => ({ ...room, level: job.rooms.find((r) => r.roomId === HALL)?.level ?? room.level })),
    ).toEqual([]);
    expect(withTry(job, [])).toBe(job);
  });

  it('survives storage as text, and unreadable text is no what-if', () => {
    const tries = tryRoom(job, [], HALL, thicker(0.01));
    expect(tryOfText(JSON.stringify(tries))).toEqual(tries);
    expect(jobTrySchema.parse(tries)).toEqual(tries);
    expect(tryOfText('{"half')).toBeNull();
    expect(tryOfText('[{"roomId": 4}]')).toBeNull();
    expect(tryOfText(null)).toBeNull();
  });

  it('of an option is that option: the same bags and the same money', () => {
    const [way] = planned.estimate.options.filter((option) => option.id !== planned.estimate.base.id);
    const choice = job.estimate.options.find((option) => option.id === way?.id);
    if (way === undefined || choice === undefined) throw new Error('The sample offers another way.');
    const tried = readTried(whole, tryOption(job, [], choice), NOW).reading.estimate.base;
    expect(tried.price.totalMinor).toBe(way.price.totalMinor);
    expect(tried.takeoff.bags).toBe(way.takeoff.bags);
  });

  it('can be added as an option, with the levels and materials of the rooms that it changes', () => {
    const tries = tryRoom(job, [], HALL, thicker(0.01));
    const option = optionOfTry(job, tries, 'new', 'Thicker');
    expect(option.rooms.map((room) => room.roomId)).toEqual([HALL]);
    const crewAlone = optionOfTry(job, tryRoom(job, [], HALL, withMixers(3)), 'new', 'More hands');
    expect(crewAlone.rooms).toEqual([]);
  });
});

describe('the current job beside a what-if', () => {
  const row = (tries: Parameters<typeof readTried>[1], key: string) =>
    whatIfRows(planned, readTried(whole, tries, NOW).reading, HALL, NOW).find((r) => r.key === key);

  it('is the same without a what-if', () => {
    expect(whatIfRows(planned, planned, HALL, NOW).filter((r) => r.change !== '')).toEqual([]);
  });

  it('differs in bags, cost, price and finish when the depth differs', () => {
    const tries = tryRoom(job, [], HALL, thicker(0.009_525));
    const bags = row(tries, 'bags');
    // Three eighths of an inch over 168 sq ft is 5.25 cu ft: 12 bags of 50 lb at 0.42 to 0.45 cu ft, and their loss (common practice, no source).
    const more = Number(bags?.asTried) - Number(bags?.asPlanned);
    expect(more).toBeGreaterThanOrEqual(11);
    expect(more).toBeLessThanOrEqual(14);
    expect(bags?.change).toBe(`+${more}`);
    for (const key of ['cost', 'net', 'total', 'cover', 'pour']) expect(row(tries, key)?.change, key).toMatch(/^\+/);
  });

  it('shows the difference of the two totals', () => {
    const tried = readTried(whole, tryRoom(job, [], HALL, thicker(0.009_525)), NOW).reading;
    const by = tried.estimate.base.price.totalMinor - planned.estimate.base.price.totalMinor;
    const total = whatIfRows(planned, tried, HALL, NOW).find((r) => r.key === 'total');
    expect(total?.change).toBe(`+${(by / 100).toLocaleString('en-US', { minimumFractionDigits: 2 })}`);
  });

  it('shows a dash and no difference where one of the two cannot be calculated', () => {
    const tries = tryRoom(job, [], HALL, (room) => ({ ...room, materialId: null }));
    expect(row(tries, 'bags')).toMatchObject({ asTried: '–', change: '' });
  });
});
