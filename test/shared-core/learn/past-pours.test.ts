/** Pours logged at a known pace and waste yield that pace and that waste. */
import { describe, expect, it } from 'vitest';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { pouredPlanOf } from '../../../shared-core/standing/read-poured.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import { taskTimesOf } from '../../../shared-core/book/task-times.ts';
import { pastPours, pourProposals, scaledTimes, type PastPour } from '../../../shared-core/learn/past-pours.ts';
import { LEAST_JOBS } from '../../../shared-core/learn/proposals.ts';
import { PRIOR_JOBS } from '../../../shared-core/learn/shrink.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const START = Date.parse('2026-05-12T10:00:00.000Z');
const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-lindqvist');
if (whole === undefined) throw new Error('The sample has the job that is poured today.');
const planned = readPour(readJob(whole, NOW), ['sample-family']);
if (!planned.ok || !planned.value.layout.ok) throw new Error('It can be planned.');
const read = planned.value;
const layout = planned.value.layout.value;
const times = taskTimesOf(TYPICAL_CREW);
const at = (min: number): string => new Date(START + min * 60_000).toISOString();

/** The family room, with a fixed time between batches and this multiple of the planned bags. */
function poured(
  minutesABatch: number,
  bagsFactor: number,
  change: Partial<Pour> = {},
  stopAfter = Infinity,
  moreOf: (i: number) => object = () => ({}),
  setting?: number,
): readonly PastPour[] {
  const pour: Pour = {
    id: 'pour-of-test',
    createdAt: NOW,
    changedAt: NOW,
    deletedAt: null,
    jobId: whole?.job.id ?? '',
    roomIds: ['sample-family'],
    lift: 1,
    materialId: read.material.id,
    startedAt: new Date(START).toISOString(),
    finishedAt: NOW,
    bagsOnSite: 60,
    bagsPlanned: read.bagsNeeded,
    asPoured: pouredPlanOf(read, []),
    fromPaper: false,
    notes: '',
    ...change,
  };
  const events = layout.batches.slice(0, stopAfter).map(
    (batch, i): PourEvent => ({
      id: `event-of-test-${i}`,
      pourId: pour.id,
      seq: i + 1,
      instant: at(i * minutesABatch),
      estimated: pour.fromPaper,
      kind: 'placed',
      batch: batch.number,
      roomId: null,
      lane: null,
      bags: batch.bags * bagsFactor,
      ...moreOf(i),
    }),
  );
  if (whole === undefined) throw new Error('There is a job.');
  const business = setting === undefined ? whole.business : { ...whole.business, usualLossShare: setting };
  const reading = readJob({ ...whole, business, pours: [pour], pourEvents: events }, NOW);
  return pastPours(reading, times);
}

describe('a past pour', () => {
  it('shows the waste it was poured with: bags as planned, the calculated waste; a tenth more bags, a tenth more', () => {
    const calculated = read.rooms[0]?.estimate?.takeoff.lossShare ?? Number.NaN;
    expect(poured(3, 1)[0]?.lossShare).toBeCloseTo(calculated, 6);
    // The bags are the volume with the waste factor; a tenth more of them is a tenth more of that sum.
    expect(poured(3, 1.1)[0]?.lossShare).toBeCloseTo((1 + calculated) * 1.1 - 1, 6);
  });

  it('shows its pace beside the calculated one; handwritten logs and a few batches show none', () => {
    expect(poured(3.5, 1)[0]?.minutesABatch).toBeCloseTo(3.5, 6);
    const calculated = poured(3.5, 1)[0]?.calculatedMinutes ?? 0;
    expect(calculated).toBeGreaterThan(1);
    expect(poured(3.5, 1, { fromPaper: true })[0]?.minutesABatch).toBeNull();
    expect(poured(3.5, 1, {}, 2)[0]?.minutesABatch).toBeNull();
  });

  it('shows no waste where it stopped in the middle, nor for one that is running or archived', () => {
    expect(poured(3, 1, {}, Math.floor(layout.batches.length / 2))[0]?.lossShare).toBeNull();
    // Nearly all of its bags are used, and no lane is marked: the floor is still open at the end.
    expect(poured(3, 1, {}, layout.batches.length - 2)[0]?.lossShare).toBeNull();
    expect(poured(3, 1, { finishedAt: null })).toEqual([]);
    expect(poured(3, 1, { deletedAt: NOW })).toEqual([]);
  });
});

describe('a past pour by cart', () => {
  it('is set against landings of whole loads, as one key logs them', () => {
    const crew = { ...read.first.crew, carry: 'cart' as const, cartBatches: 4, carriers: 1 };
    const plans = [{ roomId: 'sample-family', plan: { ...read.first, crew } }];
    const [byKey] = poured(4, 1, { plans }, Infinity, (i) => ({ sameCart: i % 4 > 0, instant: at(16 * Math.floor(i / 4)) }));
    const [oneByOne] = poured(4, 1, { plans });
    // The same pour: loads of four, 16 minutes apart. The first load is not in the time between the first and the last entry.
    const loads = Math.ceil(layout.batches.length / 4);
    expect(byKey?.minutesABatch).toBeCloseTo((16 * (loads - 1)) / (layout.batches.length - 1), 9);
    const share = (byKey?.calculatedMinutes ?? 0) / (oneByOne?.calculatedMinutes ?? 1);
    // By loads the calculated time leaves out the first load too, at most its three steps.
    expect(share).toBeLessThan(1);
    expect(share).toBeGreaterThan(1 - 4 / (layout.batches.length - 1));
  });
});

describe('suggestions from past pours', () => {
  const [slow] = poured(6, 1.08);
  if (slow === undefined) throw new Error('One pour.');
  const before = 0.05;

  it('appear only with enough pours, and are drawn toward the figure in use', () => {
    const few = pourProposals([slow, slow], before);
    expect(few.loss.worthAsking).toBe(false);
    const many = pourProposals(
      Array.from({ length: 6 }, () => slow),
      before,
    );
    expect(many.loss.learned.jobs).toBe(6);
    expect(many.loss.learned.value).toBeCloseTo((PRIOR_JOBS * before + 6 * (slow.lossShare ?? 0)) / (PRIOR_JOBS + 6), 9);
    expect(many.pace.learned.mean).toBeCloseTo(6 / (slow.calculatedMinutes ?? 1), 6);
    expect(LEAST_JOBS).toBeGreaterThan(2);
  });

  it('settle once accepted: a past pour keeps its waste whatever the setting is, and the same suggestion comes back', () => {
    const planned = read.rooms[0]?.estimate?.takeoff.lossShare ?? 0;
    const six = (setting: number) =>
      Array.from({ length: 6 }, () => poured(3, 1.08, {}, Infinity, () => ({}), setting)[0]).flatMap((p) => p ?? []);
    const first = pourProposals(six(planned), planned).loss;
    expect(first.worthAsking).toBe(true);
    const accepted = first.learned.value;
    expect(six(accepted).map((p) => p.lossShare)).toEqual(six(planned).map((p) => p.lossShare));
    const second = pourProposals(six(accepted), accepted).loss;
    expect(second.learned.value).toBeCloseTo(accepted, 9);
    expect(second.worthAsking).toBe(false);
  });

  it('settle once accepted: with the new times the same pours suggest less', () => {
    const wasSix = Array.from({ length: 6 }, () => slow);
    const first = pourProposals(wasSix, before).pace;
    expect(first.worthAsking).toBe(true);
    const stretched = wasSix.map((p) => ({ ...p, calculatedMinutes: (p.calculatedMinutes ?? 0) * first.learned.value }));
    const second = pourProposals(stretched, before).pace;
    expect(Math.abs(second.learned.value - 1)).toBeLessThan(Math.abs(first.learned.value - 1));
  });

  it('stretch every task alike and leave stoppages', () => {
    const longer = scaledTimes(times, 1.25);
    expect(longer.mixMin.usual).toBeCloseTo(times.mixMin.usual * 1.25, 9);
    expect(longer.emptyMin.most).toBeCloseTo(times.emptyMin.most * 1.25, 9);
    expect(longer.stoppageMin).toEqual(times.stoppageMin);
    expect(longer.stoppagesPerHour).toBe(times.stoppagesPerHour);
  });
});
