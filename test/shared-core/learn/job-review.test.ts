import { expect, it } from 'vitest';
import { jobReview } from '../../../shared-core/learn/job-review.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

it('compares the bags and days quoted with those of the log and the ledger', () => {
  const whole = wholeJobsOf(sampleAt('2026-05-12T15:00:00Z')).find((w) => w.job.id === 'sample-job-abara');
  if (whole === undefined) throw new Error('the sample has no such job');
  const review = jobReview(whole);
  const pours = new Set(whole.pours.map((pour) => pour.id));
  // Counted by hand from the log: every placed entry of these pours, none of which was corrected.
  const placed = whole.pourEvents.filter((e) => e.kind === 'placed' && pours.has(e.pourId)) as { bags: number }[];
  expect(review.bags.actual).toBe(placed.reduce((sum, e) => sum + e.bags, 0));
  expect(review.bags.estimated).toBe(whole.quotes[0]?.priced.options[0]?.bags);
  // Three days of work are in the ledger: prep and two pours. The last pour is only in its log.
  expect(review.days.actual).toBe(4);
});
