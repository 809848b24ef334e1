/** A job's money read at once: its contract, account, the invoices to issue, and what it earned so far. */
import type { WholeJob } from '../book/whole-job.ts';
import { type Account, accountOf } from '../ledger/account.ts';
import type { Contract } from '../ledger/contract.ts';
import { contractOfJob } from '../ledger/job-contract.ts';
import { type JobResult, jobResult } from '../ledger/job-result.ts';
import { type InvoiceDraft, invoicesToIssue, type Milestones } from '../ledger/next-invoice.ts';
import { dayOfInstant } from '../measure/moment.ts';

/** Every money figure of a job; screens, documents and lists read these. */
export type JobMoney = {
  readonly contract: Contract | null;
  readonly account: Account;
  readonly toIssue: readonly InvoiceDraft[];
  readonly result: JobResult;
  /** `YYYY-MM-DD` in the business's time zone. */
  readonly today: string;
  /** The contract is invoiced whole and nothing is open. */
  readonly isPaid: boolean;
};

const THIRTY_DAYS_MS = 30 * 86_400_000;

/** Reads a job's money at a moment. */
export function jobMoney(whole: WholeJob, now: string): JobMoney {
  const today = dayOfInstant(now, whole.business.timeZone);
  const contract = contractOfJob(whole.quotes);
  const done = milestonesOf(whole, now);
  const account = accountOf(whole.ledger, today, done.handedOver);
  const toIssue = contract === null ? [] : invoicesToIssue(contract, whole.ledger, done);
  const isPaid = contract !== null && account.invoicedMinor >= contract.totalMinor && account.openMinor === 0;
  return { contract, account, toIssue, result: jobResult(whole.ledger), today, isPaid };
}

/** When each event that payments wait for happened; null while it has not. */
export type MoneyDays = { readonly accepted: string | null; readonly poured: string | null; readonly handedOver: string | null };

/** The events of a job that payments wait for, as instants. */
export function moneyDays({ job, quotes, pours }: Pick<WholeJob, 'job' | 'quotes' | 'pours'>): MoneyDays {
  const accepted = quotes.findLast((quote) => quote.state === 'accepted')?.history.findLast((h) => h.state === 'accepted')?.instant ?? null;
  const finished = pours.flatMap((pour) =>
    pour.finishedAt === null || pour.deletedAt !== null ? [] : [{ instant: pour.finishedAt, pour }],
  );
  const poured = new Set(finished.flatMap(({ pour }) => pour.roomIds));
  const handed = job.rooms.map((room) => room.handedOverAt);
  const last = (instants: readonly (string | null)[]): string | null => [...instants].sort().at(-1) ?? null;
  return {
    accepted,
    poured: job.rooms.every((room) => poured.has(room.roomId)) ? last(finished.map(({ instant }) => instant)) : null,
    handedOver: handed.every((instant) => instant !== null) ? last(handed) : null,
  };
}

function milestonesOf(whole: WholeJob, now: string): Milestones {
  const { accepted, poured, handedOver } = moneyDays(whole);
  return {
    accepted: accepted !== null,
    poured: poured !== null,
    handedOver: handedOver !== null,
    thirtyDaysPast: handedOver !== null && Date.parse(now) - Date.parse(handedOver) >= THIRTY_DAYS_MS,
  };
}
