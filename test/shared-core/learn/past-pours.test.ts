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

/** The family room, with a fixed time between batches and this multiple of the planned bags. */
function poured(minutesABatch: number, bagsFactor: number, change: Partial<Pour> = {}, stopAfter = Infinity): readonly PastPour[] {
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
    asPoured: pouredPlanOf(read),
    fromPaper: false,
    notes: '',
    ...change,
  };
  const events = layout.batches.slice(0, stopAfter).map(
    (batch, i): PourEvent => ({
      id: `event-of-test-${i}`,
      pourId: pour.id,
      seq: i + 1,
      instant: new Date(START + i * minutesABatch * 60_000).toISOString(),
      estimated: pour.fromPaper,
      kind: 'placed',
      batch: batch.number,
      roomId: null,
      lane: null,
      bags: batch.bags * bagsFactor,
    }),
  );
  if (whole === undefined) throw new Error('There is a job.');
  const reading = readJob({ ...whole, pours: [pour], pourEvents: events }, NOW);
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
    expect(poured(3, 1, { finishedAt: null })).toEqual([]);
    expect(poured(3, 1, { deletedAt: NOW })).toEqual([]);
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
