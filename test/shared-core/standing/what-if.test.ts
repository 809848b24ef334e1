import { describe, expect, it } from 'vitest';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { jobTrySchema, optionOfTry, readTried, tryOfText, tryOption, tryRoom, withTry } from '../../../shared-core/standing/what-if.ts';
import { whatIfRows } from '../../../shared-core/standing/what-if-rows.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
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

describe('the figures of a what-if beside those of the job', () => {
  const rowsOf = (one: typeof planned, other: typeof planned, roomId = HALL) =>
    Object.fromEntries(whatIfRows(one, other, roomId, NOW).map((row) => [row.key, [row.name, row.asPlanned, row.asTried, row.change]]));
  const withRoom = (reading: typeof planned, over: object, taken: object = {}): typeof planned => ({
    ...reading,
    rooms: reading.rooms.map((one) =>
      one.room.id !== HALL || one.estimate === null
        ? one
        : {
            ...one,
            jobRoom: { ...one.jobRoom, ...over },
            estimate: { ...one.estimate, takeoff: { ...one.estimate.takeoff, ...taken } },
          },
    ),
  });
  const priced = (costMinor: number, netMinor: number, totalMinor: number, days: number): typeof planned => {
    const { base } = planned.estimate;
    const price = { ...base.price, costMinor, netMinor, totalMinor };
    return { ...planned, estimate: { ...planned.estimate, base: { ...base, price, days } } };
  };

  it('differ nowhere from themselves', () => {
    for (const [, asPlanned, asTried, change] of Object.values(rowsOf(planned, planned)))
      expect([asTried, change]).toEqual([asPlanned, '']);
  });

  it('are dashes for a room that the job has no more', () => {
    const gone = rowsOf(planned, planned, 'no-such-room');
    for (const key of ['depth', 'gaps', 'bags', 'lifts', 'pour', 'walk-on', 'cover']) expect(gone[key]?.slice(1)).toEqual(['–', '–', '']);
    const half = rowsOf(planned, { ...planned, rooms: [] });
    expect(half['bags']?.slice(2)).toEqual(['–', '']);
  });

  it('are money with a sign, and days', () => {
    const rows = rowsOf(priced(100_000, 150_000, 160_000, 3), priced(90_050, 150_000, 172_500, 4));
    expect(rows['cost']).toEqual(['Cost', '1,000.00', '900.50', '−99.50']);
    expect(rows['net']).toEqual(['Subtotal', '1,500.00', '1,500.00', '']);
    expect(rows['total']).toEqual(['Total', '1,600.00', '1,725.00', '+125.00']);
    expect(rows['days']).toEqual(['Days on site', '3', '4', '+1']);
  });

  it('show no difference that rounds away', () => {
    const [room] = planned.rooms.filter((one) => one.room.id === HALL);
    const minutes = room?.estimate?.takeoff.pourMinutes ?? 0;
    const later = (min: number) =>
      rowsOf(withRoom(planned, {}, { pourMinutes: 60 }), withRoom(planned, {}, { pourMinutes: 60 + min }))['pour'];
    expect(minutes).toBeGreaterThan(0);
    expect(later(0.2)).toEqual(['Pour duration', '1 h', '1 h', '']);
    expect(later(10)).toEqual(['Pour duration', '1 h', '1 h 10 min', '+10 min']);
    expect(rowsOf(planned, withRoom(planned, {}, { bags: null }))['pour']?.slice(2)).toEqual(['–', '']);
  });

  it('are durations until a day is set, then moments, each as late as the pour is later', () => {
    const unset = rowsOf(withRoom(planned, { pourAt: null }), withRoom(planned, { pourAt: null }));
    expect([unset['walk-on']?.[0], unset['cover']?.[0]]).toEqual(['Open to foot traffic after', 'Ready for flooring after']);
    expect(unset['cover']?.[1]).toMatch(/^\d+(\.\d)? d$/);
    expect(unset['walk-on']?.[1]).toMatch(/ h( \d\d? min)?$/);
    // Monday and Tuesday: the second lift of neither waits for a weekend.
    const [at, next] = ['2026-05-18T13:00:00.000Z', '2026-05-19T13:00:00.000Z'];
    const set = rowsOf(withRoom(planned, { pourAt: at }), withRoom(planned, { pourAt: next }));
    expect([set['walk-on']?.[0], set['cover']?.[0]]).toEqual(['Open to foot traffic', 'Ready for flooring']);
    const [, day, clock] = /^May (\d\d), (.+)$/.exec(set['walk-on']?.[1] ?? '') ?? [];
    expect(Number(day)).toBeGreaterThanOrEqual(18);
    expect(set['walk-on']?.[2]).toBe(`May ${Number(day) + 1}, ${clock}`);
    // Durations are the same a day later, and nothing of them is taken for the job's own dates.
    const tomorrow = whatIfRows(planned, planned, HALL, '2026-05-13T12:00:00.000Z').find(({ key }) => key === 'walk-on');
    expect(tomorrow?.asPlanned).toBe(rowsOf(planned, planned)['walk-on']?.[1]);
    const facts = roomsOf(planned.bundle).find(({ room }) => room.id === HALL);
    expect(facts === undefined ? null : roomCure(planned.bundle, facts, whole.business)).toBeNull();
    // Only one of the two has a day: durations, of which both are known.
    const one = rowsOf(withRoom(planned, { pourAt: null }), withRoom(planned, { pourAt: at }));
    expect(one['walk-on']?.[0]).toBe('Open to foot traffic after');
  });
});
