/** Open balances over all jobs, and the amounts to invoice now. */
import type { Job } from '../book/job.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import type { Quote } from '../book/quote.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { type Account, accountOf } from '../ledger/account.ts';
import type { InvoiceDraft } from '../ledger/next-invoice.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { canceledContract, jobMoney, releasedOn, toCreditMinor } from './job-money.ts';

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
  /** What a credit is still to be recorded of, as in `JobMoney`. */
  readonly overInvoicedMinor: number;
};

type Books = {
  readonly entries: readonly LedgerEntry[];
  readonly jobs: ReadonlyMap<string, Pick<Job, 'rooms' | 'state'>>;
  readonly quotes: readonly Quote[];
};

/**
 * Jobs with money open or still to be invoiced: the longest overdue first, then the largest open amount.
 * @param jobs the jobs that the entries name
 * @param quotes those of the declined jobs among them
 * @param open the open jobs, whole: a job is finished only once nothing of it is left to invoice
 * @param zone the business's time zone
 */
export function moneyOwed({ entries, jobs, quotes }: Books, open: readonly WholeJob[], zone: string, now: string): MoneyOwed[] {
  const today = dayOfInstant(now, zone);
  const byJob = new Map<string, LedgerEntry[]>();
  for (const entry of entries) if (entry.jobId !== null) byJob.set(entry.jobId, [...(byJob.get(entry.jobId) ?? []), entry]);
  const openMoney = new Map(open.map((whole) => [whole.job.id, jobMoney(whole, now)]));
  const sumOf = (drafts: readonly InvoiceDraft[]): number => drafts.reduce((sum, draft) => sum + draft.totalMinor, 0);
  const jobIds = new Set([...byJob.keys(), ...openMoney.keys()]);
  return [...jobIds]
    .map((jobId): MoneyOwed => {
      const job = jobs.get(jobId);
      const money = openMoney.get(jobId);
      const account = money?.account ?? accountOf(byJob.get(jobId) ?? [], today, job === undefined ? null : releasedOn({ job }, zone));
      const toIssue = money?.toIssue ?? [];
      const own = quotes.filter((quote) => quote.jobId === jobId);
      const isCanceled = job !== undefined && canceledContract({ job, quotes: own }) !== null;
      const overInvoicedMinor = money?.overInvoicedMinor ?? toCreditMinor(null, isCanceled, account);
      const overdue = account.invoices.filter((b) => b.state === 'overdue');
      const overdueMinor = Math.max(0, overdue.reduce((sum, b) => sum + b.overdueMinor, 0) - overInvoicedMinor);
      return {
        jobId,
        account,
        overdueMinor,
        daysOverdue: overdueMinor === 0 ? 0 : Math.max(0, ...overdue.map((b) => b.daysOverdue)),
        readyMinor: sumOf(toIssue.filter((draft) => draft.isReady)),
        laterMinor: sumOf(toIssue),
        overInvoicedMinor,
      };
    })
    .filter(
      (owed) => owed.account.openMinor !== 0 || owed.account.onAccountMinor !== 0 || owed.laterMinor > 0 || owed.overInvoicedMinor > 0,
    )
    .sort((a, b) => b.daysOverdue - a.daysOverdue || b.account.openMinor - a.account.openMinor || b.readyMinor - a.readyMinor);
}
