/** Open balances over several jobs, worked by hand from due days 14 days after an invoice (the entries of the test). */
import { expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { moneyOwed } from '../../../shared-core/standing/money-owed.ts';
import { credit, invoice, payment, purchase } from '../ledger/entries.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';

const ZONE = 'America/New_York';
const of = <E extends LedgerEntry>(jobId: string, entry: E): E => ({ ...entry, id: `${jobId}-${entry.id}`, jobId });
const bill = (jobId: string, totalMinor: number, dueOn: string) => of(jobId, invoice('i', 1, totalMinor, { dueOn }));

it('lists the longest overdue first, then the most open, and no job that is settled', () => {
  const entries: LedgerEntry[] = [
    bill('settled', 50_000, '2026-03-16'),
    of('settled', payment('p', 50_000)),
    bill('small', 20_000, '2026-06-30'),
    bill('late', 10_000, '2026-04-30'),
    bill('latest', 5000, '2026-04-20'),
    bill('large', 90_000, '2026-06-30'),
    of('large', payment('p', 30_000)),
    bill('partly', 8000, '2026-04-30'),
    // Paid before it was billed.
    of('ahead', payment('p', 700)),
    // Of no job.
    purchase('q', [4000], { jobId: null }),
  ];
  // Midnight in New York is 4 am in UTC, so this is May 10 there.
  const read = (some: readonly LedgerEntry[]) =>
    moneyOwed({ entries: some, jobs: new Map(), quotes: [] }, [], ZONE, '2026-05-11T03:59:00.000Z').map((owed) => [
      owed.jobId,
      owed.daysOverdue,
      owed.overdueMinor,
      owed.account.openMinor,
      owed.readyMinor,
      owed.overInvoicedMinor,
    ]);
  const expected = [
    ['latest', 20, 5000, 5000, 0, 0],
    ['late', 10, 10_000, 10_000, 0, 0],
    ['partly', 10, 8000, 8000, 0, 0],
    ['large', 0, 0, 60_000, 0, 0],
    ['small', 0, 0, 20_000, 0, 0],
    ['ahead', 0, 0, 0, 0, 0],
  ];
  expect(read(entries)).toEqual(expected);
  expect(read(entries.toReversed())).toEqual(expected);
});

it('does not call late what is credited', () => {
  const entries = [bill('a', 10_000, '2026-04-30'), of('a', credit('c', 'credit', 10_000))];
  expect(moneyOwed({ entries, jobs: new Map(), quotes: [] }, [], ZONE, '2026-05-10T16:00:00.000Z')).toEqual([]);
});

it('of an open job adds what its contract still has to invoice, and what of it can be invoiced now', () => {
  const whole = wholeOf('26-024');
  const { toIssue } = jobMoney(whole, NOW);
  const [owed] = moneyOwed({ entries: whole.ledger, jobs: new Map(), quotes: [] }, [whole], whole.business.timeZone, NOW);
  expect(owed?.laterMinor).toBe(toIssue.reduce((sum, { totalMinor }) => sum + totalMinor, 0));
  let readyMinor = 0;
  for (const draft of toIssue) if (draft.isReady) readyMinor += draft.totalMinor;
  expect(owed?.readyMinor).toBe(readyMinor);
  // The sample has payments to come that are not ready: a sum of all of them is another one.
  expect(toIssue.some(({ isReady }) => !isReady)).toBe(true);
});
