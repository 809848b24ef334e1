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

it('counts the days that signed change orders add, though they were entered by hand', () => {
  const whole = wholeJobsOf(sampleAt('2026-05-12T15:00:00Z')).find(({ quotes }) => quotes.some(({ orders }) => orders.length > 0));
  if (whole === undefined) throw new Error('the sample has a change order');
  const daysWith = (state: 'signed' | 'declined', addedDays: number): number | null => {
    const quotes = whole.quotes.map((quote) => ({ ...quote, orders: quote.orders.map((order) => ({ ...order, state, addedDays })) }));
    return jobReview({ ...whole, quotes }).days.estimated;
  };
  const quoted = daysWith('declined', 1);
  expect(quoted).toBe(whole.quotes.find(({ state }) => state === 'accepted')?.priced.options[0]?.days);
  expect([daysWith('signed', 1), daysWith('signed', -1), daysWith('signed', 0)]).toEqual([(quoted ?? 0) + 1, (quoted ?? 0) - 1, quoted]);
});
