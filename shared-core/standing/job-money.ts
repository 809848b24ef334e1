/** A job's money: contract, account, invoices to issue, and earnings so far. */
import type { Job } from '../book/job.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { type Account, accountOf, counts, netReceivedMinor } from '../ledger/account.ts';
import type { Contract } from '../ledger/contract.ts';
import { contractOfJob, isContractPaid, overInvoicedMinor } from '../ledger/job-contract.ts';
import { type JobResult, jobResult } from '../ledger/job-result.ts';
import { type InvoiceDraft, invoicesToIssue, type Milestones } from '../ledger/next-invoice.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { roomFloor } from '../pour/placed-floor.ts';
import type { Quote } from '../book/quote.ts';
import { acceptedQuote, canceledQuote } from '../price/change-order.ts';
import { isCanceledInTime } from './right-to-cancel.ts';

/** Input records of a job's money. */
type MoneyRecords = Pick<WholeJob, 'job' | 'property' | 'quotes' | 'pours' | 'pourEvents'>;

/** All money figures of a job, for screens, documents and lists. */
export type JobMoney = {
  readonly contract: Contract | null;
  /** The contract was canceled, and the job is not archived yet: what was invoiced and received is to be settled. */
  readonly isCanceled: boolean;
  readonly settle: SettleStep;
  readonly account: Account;
  readonly toIssue: readonly InvoiceDraft[];
  readonly result: JobResult;
  /** `YYYY-MM-DD` in the business's time zone. */
  readonly today: string;
  /** The contract is fully invoiced and paid. */
  readonly isPaid: boolean;
  /** Every room of the open job is handed over, and nothing is left to invoice, to collect, to credit or to pay back. */
  readonly canFinish: boolean;
  /** Invoiced beyond the contract, or refunded of a canceled contract and still invoiced: a credit of it is still to be recorded. */
  readonly overInvoicedMinor: number;
};

/** What a credit is still to be recorded of, whole minor units: as in {@link JobMoney}. */
export function toCreditMinor(contract: Contract | null, isCanceled: boolean, account: Account): number {
  if (contract !== null) return overInvoicedMinor(contract, account);
  return isCanceled ? account.reopenedMinor : 0;
}

/** What is next for the money of a job without a contract in force. */
export type SettleStep =
  | 'nothing'
  /** Refunded, and still invoiced. */
  | 'credit'
  /** Refunded beyond what was received. */
  | 'collect'
  /** The customer has a credit balance that was paid, or one that was not. */
  | 'pay-back'
  | 'void-credits'
  /** Invoices are open. */
  | 'void'
  /** What is invoiced is paid: it is kept, or paid back. Nothing was paid back since, or the rest is kept. */
  | 'choose'
  /** The same, and the customer canceled in the days the law gives: all of it is to be paid back. */
  | 'pay-all-back'
  | 'kept';

/** When a contract was canceled; null where it was not. */
export const canceledAt = (quote: Quote | null): string | null =>
  quote?.history.findLast(({ state }) => state === 'declined')?.instant ?? null;

/**
 * What is to be settled of a contract that was canceled: what each side owes the other.
 * @param canceled its quote, as {@link canceledContract} gives it
 */
export function settleStep(account: Account, entries: readonly LedgerEntry[], canceled: Quote | null): SettleStep {
  const since = canceledAt(canceled) ?? '';
  const heldMinor = netReceivedMinor(account);
  if (account.reopenedMinor > 0) return 'credit';
  if (account.overRefundedMinor > 0) return 'collect';
  if (account.onAccountMinor > 0) return heldMinor > 0 ? 'pay-back' : 'void-credits';
  if (account.openMinor > 0) return 'void';
  if (heldMinor <= 0) return 'nothing';
  if (canceled !== null && isCanceledInTime(canceled)) return 'pay-all-back';
  return entries.some((e) => e.kind === 'refund' && counts(e) && e.createdAt >= since) ? 'kept' : 'choose';
}

/** The quote of a job whose contract was canceled, until the job is reopened or archived; null otherwise. */
export function canceledContract({ job, quotes }: { readonly job: Pick<Job, 'state'>; readonly quotes: readonly Quote[] }): Quote | null {
  return job.state === 'declined' ? canceledQuote(quotes) : null;
}

const STATE_WORDS: Readonly<Record<Job['state'], string>> = {
  open: 'open',
  declined: 'declined',
  finished: 'finished',
  'set-aside': 'archived',
};

/** The state of a job in a word. @param quotes its quotes */
export function jobStateWord(job: Pick<Job, 'state'>, quotes: readonly Quote[]): string {
  return canceledContract({ job, quotes }) === null ? STATE_WORDS[job.state] : 'canceled';
}

/** Reads a job's money at a moment. */
export function jobMoney(
  whole: MoneyRecords & Pick<WholeJob, 'ledger'> & { readonly business: Pick<WholeJob['business'], 'timeZone'> },
  now: string,
): JobMoney {
  const today = dayOfInstant(now, whole.business.timeZone);
  const contract = contractOfJob(whole.quotes);
  const milestones = milestonesOf(whole, now);
  const account = accountOf(whole.ledger, today, releasedOn(whole, whole.business.timeZone));
  const toIssue = contract === null ? [] : invoicesToIssue(contract, whole.ledger, milestones);
  const isPaid = contract !== null && isContractPaid(contract, account);
  const canceled = canceledContract(whole);
  const isCanceled = canceled !== null;
  const overMinor = toCreditMinor(contract, isCanceled, account);
  const isSettled = account.onAccountMinor === 0 && (contract === null ? account.openMinor === 0 : isPaid && overMinor === 0);
  const canFinish = whole.job.state === 'open' && milestones.handedOver && isSettled;
  return {
    contract,
    isCanceled,
    settle: settleStep(account, whole.ledger, canceled),
    account,
    toIssue,
    result: jobResult(whole.ledger),
    today,
    isPaid,
    canFinish,
    overInvoicedMinor: overMinor,
  };
}

/** The day of each event that makes payments due, where the property is; null while it has not happened. */
export type MoneyDays = {
  readonly accepted: string | null;
  /** The contract got its total: the acceptance, or the last change order signed since. */
  readonly signed: string | null;
  readonly poured: string | null;
  readonly handedOver: string | null;
  /** Thirty days after the handover, which may be ahead. */
  readonly thirtyDays: string | null;
};

/** The days on which payments of a job became due. */
export function moneyDays({ job, property, quotes, pours, pourEvents }: MoneyRecords): MoneyDays {
  const dayOf = (instant: string | null): string | null => (instant === null ? null : dayOfInstant(instant, property.timeZone));
  const quote = acceptedQuote(quotes);
  const accepted = quote?.history.findLast((h) => h.state === 'accepted')?.instant ?? null;
  const orders = (quote?.orders ?? []).filter((order) => order.state === 'signed');
  const floors = job.rooms.map((room) => roomFloor(pours, pourEvents, room.roomId));
  const handedOver = dayOf(handedOverAt(job));
  return {
    accepted: dayOf(accepted),
    signed: dayOf(last([accepted, ...orders.map(({ decidedAt }) => decidedAt)])),
    // A job with an open lift or open floor is not poured.
    poured: floors.every((floor) => floor.extent === 'whole' && floor.running === null)
      ? dayOf(last(floors.flatMap((floor) => floor.pours.map((pour) => pour.finishedAt))))
      : null,
    handedOver,
    thirtyDays: handedOver === null ? null : addDaysToDay(handedOver, 30),
  };
}

const last = (instants: readonly (string | null)[]): string | null => [...instants].sort().at(-1) ?? null;

/** When the last room of a job was handed over; null while one was not. */
function handedOverAt({ rooms }: Pick<Job, 'rooms'>): string | null {
  const handed = rooms.map((room) => room.handedOverAt);
  return handed.every((instant) => instant !== null) ? last(handed) : null;
}

/** The day the retainage of a job became due: that of the handover; null before it. */
export function releasedOn({ job }: { readonly job: Pick<Job, 'rooms'> }, zone: string): string | null {
  const handedOver = handedOverAt(job);
  return handedOver === null ? null : dayOfInstant(handedOver, zone);
}

function milestonesOf(whole: MoneyRecords, now: string): Milestones {
  const { accepted, poured, handedOver, thirtyDays } = moneyDays(whole);
  return {
    accepted: accepted !== null,
    poured: poured !== null,
    handedOver: handedOver !== null,
    thirtyDaysPast: thirtyDays !== null && dayOfInstant(now, whole.property.timeZone) >= thirtyDays,
  };
}
