import { mean, median, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { earnedBy, pastJob, taskProposals } from '../../../shared-core/learn/job-lessons.ts';
import type { TaskKey } from '../../../shared-core/material/crew-hours.ts';
import { estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { TASK_NAMES } from '../../../shared-core/price/hours-words.ts';
import { PRIOR_JOBS } from '../../../shared-core/learn/shrink.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T15:00:00Z';
const book = sampleAt(NOW);
const jobs = wholeJobsOf(book)
  .filter(({ job }) => job.state === 'finished')
  .map((whole) => pastJob(whole, book.leads, NOW));

describe('lessons of finished jobs', () => {
  it('are the ratio of actual to typical hours per task, drawn toward the figure in use', () => {
    const [removal] = taskProposals(jobs, {}, 'en-US');
    const times = jobs.flatMap(({ ratios }) => ratios.filter(({ task }) => task === 'remove').map((ratio) => ratio.times));
    // Average and spread by a general statistics library; shrinkage as in Gelman et al., Bayesian Data Analysis, 2.5 (formula from memory):
    // a normal mean with a normal prior that weighs as much as PRIOR_JOBS jobs.
    expect(removal).toMatchObject({ task: 'remove', worthAsking: true });
    expect(removal?.learned.mean).toBeCloseTo(mean(times), 9);
    expect(removal?.learned.spread).toBeCloseTo(sampleStandardDeviation(times), 9);
    const sum = times.reduce((a, b) => a + b, 0);
    expect(removal?.learned.value).toBeCloseTo((PRIOR_JOBS * 1 + sum) / (PRIOR_JOBS + times.length), 9);
  });
  it('are suggested only for hours that an estimate takes them for', () => {
    const whole = wholeJobsOf(book).find(({ job }) => job.id === 'sample-job-odell');
    if (whole === undefined) throw new Error('the sample has no such job');
    const tasks = (Object.keys(TASK_NAMES) as TaskKey[]).filter((task) => task !== 'pour');
    const hoursAt = (factor: number) => {
      const taskFactors = Object.fromEntries(tasks.map((task) => [task, factor]));
      const { takeoff } = estimateJob({ ...whole, business: { ...whole.business, taskFactors } }, NOW.slice(0, 10)).base;
      return takeoff.rooms.flatMap(({ room, hours }) =>
        hours.filter(({ key }) => key !== 'pour').map((task) => [room.roomId, task.key, task.ownHours + task.helperHours] as const),
      );
    };
    const usual = hoursAt(1);
    expect(usual.some(([, task]) => task === 'set-up')).toBe(true);
    expect(hoursAt(2)).toEqual(usual.map(([room, task, hours]) => [room, task, 2 * hours]));
  });
  it('group earnings by question, best first, and keep every job', () => {
    const groups = earnedBy(jobs, ({ floor }) => floor);
    expect(groups.flatMap(({ perHourMinor }) => perHourMinor)).toHaveLength(jobs.length);
    for (const { perHourMinor, medianMinor } of groups) expect(Math.abs(medianMinor - median(perHourMinor))).toBeLessThanOrEqual(0.5);
    expect(groups.map(({ medianMinor }) => medianMinor)).toEqual(groups.map(({ medianMinor }) => medianMinor).toSorted((a, b) => b - a));
    expect(new Set(jobs.map(({ source }) => source))).toEqual(new Set(['Referral', 'Website']));
  });
  it('count the days from each promised date to the test that cleared the floor', () => {
    const missed = jobs.flatMap(({ missedDays }) => missedDays);
    // The sample promises each floor a day or two before its test.
    expect(missed).toHaveLength(jobs.length);
    for (const days of missed) expect(days).toBeGreaterThan(0.9);
  });
});
