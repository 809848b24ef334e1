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
  const done = milestonesOf(whole, contract !== null, now);
  const account = accountOf(whole.ledger, today, done.handedOver);
  const toIssue = contract === null ? [] : invoicesToIssue(contract, whole.ledger, done);
  const isPaid = contract !== null && account.invoicedMinor >= contract.totalMinor && account.openMinor === 0;
  return { contract, account, toIssue, result: jobResult(whole.ledger), today, isPaid };
}

function milestonesOf({ job, pours }: WholeJob, accepted: boolean, now: string): Milestones {
  const poured = new Set(pours.filter((pour) => pour.finishedAt !== null).flatMap((pour) => pour.roomIds));
  const handedOver = job.rooms.map((room) => room.handedOverAt);
  const isHandedOver = handedOver.every((at) => at !== null);
  const last = handedOver.reduce<string>((latest, at) => (at !== null && at > latest ? at : latest), '');
  return {
    accepted,
    poured: job.rooms.every((room) => poured.has(room.roomId)),
    handedOver: isHandedOver,
    thirtyDaysPast: isHandedOver && Date.parse(now) - Date.parse(last) >= THIRTY_DAYS_MS,
  };
}
