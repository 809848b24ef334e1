import { expect, it } from 'vitest';
import type { Purchase } from '../../../shared-core/book/ledger.ts';
import { jobReview, leftOutOfCost } from '../../../shared-core/learn/job-review.ts';
import { loggedHours } from '../../../shared-core/learn/logged-hours.ts';
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

it('names the hours and the bags that its cost leaves out', () => {
  const whole = wholeJobsOf(sampleAt('2026-05-12T15:00:00Z')).find((w) => w.job.id === 'sample-job-abara');
  if (whole === undefined) throw new Error('the sample has no such job');
  // The sample buys a bag more than each pour uses. Its hours entered by hand leave the last pour to its log.
  const { minutes, bags } = leftOutOfCost(whole);
  expect(bags).toBe(0);
  expect(minutes).toBeGreaterThan(0);
  // Without its purchases, all its bags came from stock; all but two are bought again in one.
  const others = whole.ledger.filter((entry) => entry.kind !== 'purchase');
  const all = leftOutOfCost({ ...whole, ledger: others }).bags;
  expect(all).toBeGreaterThanOrEqual(jobReview(whole).bags.actual ?? 0);
  const some = whole.ledger.flatMap((entry) => {
    const line = entry.kind === 'purchase' ? entry.lines.find(({ materialId }) => materialId !== null) : undefined;
    return line === undefined ? [] : [{ ...entry, lines: [{ ...line, quantity: all - 2 }] } as Purchase];
  });
  expect(leftOutOfCost({ ...whole, ledger: [...others, ...some.slice(0, 1)] }).bags).toBe(2);
  // Once the hours of the log are recorded, none is left.
  const hours = whole.ledger.find((entry) => entry.kind === 'hours');
  if (hours === undefined) throw new Error('the job has hours');
  const recorded = loggedHours(whole).map((one, i) => ({ ...hours, ...one, id: `hours-${i}`, createdAt: '2026-05-12T16:00:00Z' }));
  expect(leftOutOfCost({ ...whole, ledger: [...whole.ledger, ...recorded] }).minutes).toBe(0);
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
