/** The contract of a job, from its issued quotes. */
import type { Business } from '../book/business.ts';
import type { ContractTerms } from '../book/contract-terms.ts';
import type { Credit, LedgerEntry } from '../book/ledger.ts';
import type { Quote } from '../book/quote.ts';
import { acceptedQuote } from '../price/change-order.ts';
import {
  type Account,
  accountOf,
  type BilledAmounts,
  billedMinor,
  billedOf,
  counts,
  isLateCharge,
  isOrderCredit,
  netReceivedMinor,
  writtenOff,
} from './account.ts';
import { type Contract, contractOf } from './contract.ts';

/**
 * The accepted quote with the change orders signed since; null while nothing was accepted. Prices are the stored ones and are not
 * recalculated.
 */
export function contractOfJob(quotes: readonly Quote[]): Contract | null {
  const accepted = acceptedQuote(quotes);
  if (accepted === null) return null;
  const { options, suggestedId } = accepted.priced;
  const option = options.find(({ id }) => id === accepted.acceptedOptionId) ?? options.find(({ id }) => id === suggestedId);
  const signed = accepted.orders.filter((order) => order.state === 'signed');
  return option === undefined ? null : contractOf({ ...option, currency: accepted.currency }, signed, accepted.issuedAt);
}

/** The terms a job was sold on, which a later change in Settings leaves alone; those of Settings while nothing was accepted. */
export function termsOfJob({
  business,
  quotes,
}: {
  readonly business: Pick<Business, 'contract'>;
  readonly quotes: readonly Quote[];
}): ContractTerms {
  return acceptedQuote(quotes)?.frozen.business.contract ?? business.contract;
}

/** Whether a contract is fully invoiced and paid. */
export function isContractPaid(contract: Contract, account: BilledAmounts & Pick<Account, 'openMinor'>): boolean {
  return billedMinor(account) >= contract.totalMinor && account.openMinor === 0;
}

/** Billed beyond a contract that a deduction reduced: a credit of it is to be recorded. Whole minor units, never below 0. */
export function overInvoicedMinor(contract: Contract, account: BilledAmounts): number {
  return Math.max(0, billedMinor(account) - contract.totalMinor);
}

/**
 * The credits and write-offs that an invoice takes with it when it is voided: those for that invoice, and of the others, the newest
 * first, those that the invoices left cannot take as well. They would leave the customer a balance that was never paid. Credits for
 * change orders go while less is billed than the contract total: they would move a part of what is invoiced again to a later payment.
 * Where one was larger than that, a smaller credit is to be recorded again.
 * @param contract null where it was canceled: then all credits for change orders
 * @param entries the job's entries
 */
export function creditsVoidedWith(invoice: LedgerEntry, contract: Contract | null, entries: readonly LedgerEntry[]): Credit[] {
  if (invoice.kind !== 'invoice') return [];
  let left = entries.filter((entry) => entry.id !== invoice.id && counts(entry));
  const isOwn = ({ invoiceId }: Credit): boolean => invoiceId === invoice.id;
  const turn = (credit: Credit): number => (isOrderCredit(credit) ? 0 : isOwn(credit) ? 1 : 2);
  return left
    .filter((entry): entry is Credit => entry.kind === 'credit' || entry.kind === 'write-off')
    .toSorted((a, b) => turn(a) - turn(b) || b.createdAt.localeCompare(a.createdAt))
    .filter((credit) => {
      const without = left.filter((entry) => entry !== credit);
      const isOff = credit.kind === 'write-off';
      const isVoided = isOrderCredit(credit)
        ? !isLateCharge(invoice) &&
          (contract === null || billedOf(left).reduce((sum, { totalMinor }) => sum + totalMinor, 0) < contract.totalMinor)
        : isOwn(credit) || (isOff ? offMinor(credit, left) < offMinor(credit, entries) : balanceMinor(left) > balanceMinor(without));
      if (isVoided) left = without;
      return isVoided;
    });
}

const offMinor = ({ id }: Credit, entries: readonly LedgerEntry[]): number => writtenOff(entries).get(id) ?? 0;

/** What belongs to the customer, whole minor units; below 0 it was refunded beyond what was received. */
function balanceMinor(entries: readonly LedgerEntry[]): number {
  const { onAccountMinor, overRefundedMinor } = accountOf(entries, '1970-01-01');
  return onAccountMinor - overRefundedMinor;
}

/**
 * What a refund would open again of invoices that were paid, whole minor units: all of it beyond what belongs to the customer. The customer
 * is asked to pay it again, unless it is credited.
 * @param toCreditMinor what a credit is still to be recorded of
 */
export function opensAgainMinor(refundMinor: number, account: Account, toCreditMinor: number): number {
  const ownMinor = account.onAccountMinor + account.recoveredMinor + toCreditMinor;
  return Math.max(0, Math.min(refundMinor, netReceivedMinor(account)) - ownMinor);
}

/**
 * What the customer still has to pay, whole minor units; below 0 it is owed to the customer.
 * @param contract what is not invoiced of it counts too; null counts the invoices alone
 */
export function stillToPayMinor(contract: Contract | null, account: Account): number {
  const toInvoiceMinor = contract === null ? 0 : contract.totalMinor - billedMinor(account);
  const recoveredMinor = Math.max(0, Math.min(account.recoveredMinor, toInvoiceMinor));
  return account.openMinor - account.onAccountMinor + toInvoiceMinor - recoveredMinor;
}
