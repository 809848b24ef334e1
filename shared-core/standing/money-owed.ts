/** Open balances over all jobs, and the amounts to invoice now. */
import type { LedgerEntry } from '../book/ledger.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { type Account, accountOf } from '../ledger/account.ts';
import type { InvoiceDraft } from '../ledger/next-invoice.ts';
import { jobMoney, releasedOn } from './job-money.ts';

/** One job with money open, due, ready to be invoiced, or still to be invoiced later. */
export type MoneyOwed = {
  readonly jobId: string;
  readonly account: Account;
  /** Due now and past the due day, whole minor units. */
  readonly overdueMinor: number;
  /** Days past the due day of the oldest open invoice; 0 when none is. */
  readonly daysOverdue: number;
  /** Amount that can be invoiced now; 0 for nothing. */
  readonly readyMinor: number;
  /** Amount of the contract not invoiced yet, ready or not; 0 for nothing. */
  readonly laterMinor: number;
};

/** A job that is not open any more was handed over: its retainage is due on the invoice's own day. */
const RELEASED = '1970-01-01';

/**
 * Jobs with money open or still to be invoiced: the longest overdue first, then the largest open amount.
 * @param entries every ledger entry
 * @param open the open jobs, whole: only these can have an invoice to issue
 * @param today `YYYY-MM-DD` in the business's time zone
 */
export function moneyOwed(entries: readonly LedgerEntry[], open: readonly WholeJob[], today: string, now: string): MoneyOwed[] {
  const byJob = new Map<string, LedgerEntry[]>();
  for (const entry of entries) if (entry.jobId !== null) byJob.set(entry.jobId, [...(byJob.get(entry.jobId) ?? []), entry]);
  const toIssue = new Map(open.map((whole) => [whole.job.id, jobMoney(whole, now).toIssue]));
  const released = new Map(open.map((whole) => [whole.job.id, releasedOn(whole, whole.business.timeZone)]));
  const sumOf = (drafts: readonly InvoiceDraft[]): number => drafts.reduce((sum, draft) => sum + draft.totalMinor, 0);
  const jobIds = new Set([...byJob.keys(), ...toIssue.keys()]);
  return [...jobIds]
    .map((jobId): MoneyOwed => {
      const account = accountOf(byJob.get(jobId) ?? [], today, released.has(jobId) ? (released.get(jobId) ?? null) : RELEASED);
      const overdue = account.invoices.filter((b) => b.state === 'overdue');
      return {
        jobId,
        account,
        overdueMinor: overdue.reduce((sum, b) => sum + b.dueMinor, 0),
        daysOverdue: Math.max(0, ...overdue.map((b) => b.daysOverdue)),
        readyMinor: sumOf((toIssue.get(jobId) ?? []).filter((draft) => draft.isReady)),
        laterMinor: sumOf(toIssue.get(jobId) ?? []),
      };
    })
    .filter((owed) => owed.account.openMinor !== 0 || owed.account.onAccountMinor !== 0 || owed.laterMinor > 0)
    .sort((a, b) => b.daysOverdue - a.daysOverdue || b.account.openMinor - a.account.openMinor || b.readyMinor - a.readyMinor);
}
