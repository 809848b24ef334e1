/** The contract of a job, from its issued quotes. */
import type { Business } from '../book/business.ts';
import type { ContractTerms } from '../book/contract-terms.ts';
import type { Credit, LedgerEntry } from '../book/ledger.ts';
import type { Quote } from '../book/quote.ts';
import { acceptedQuote } from '../price/change-order.ts';
import { type Account, billedMinor, billedOf, counts, isOrderCredit } from './account.ts';
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
  return option === undefined ? null : contractOf({ ...option, currency: accepted.currency }, signed);
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
export function isContractPaid(contract: Contract, account: Pick<Account, 'invoicedMinor' | 'orderCreditsMinor' | 'openMinor'>): boolean {
  return billedMinor(account) >= contract.totalMinor && account.openMinor === 0;
}

/** Billed beyond a contract that a deduction reduced: a credit of it is to be recorded. Whole minor units, never below 0. */
export function overInvoicedMinor(contract: Contract, account: Pick<Account, 'invoicedMinor' | 'orderCreditsMinor'>): number {
  return Math.max(0, billedMinor(account) - contract.totalMinor);
}

/**
 * The credits and write-offs that an invoice takes with it when it is voided: those for that invoice, and all of them where no other invoice
 * is left for them to reduce. They would leave the customer a balance that was never paid. Of credits for change orders, the newest
 * first, while less is billed than the contract total: they would move a part of what is invoiced again to a later payment. Where one
 * was larger than that, a smaller credit is to be recorded again.
 * @param contract null where it was canceled: then all credits for change orders
 * @param entries the job's entries
 */
export function creditsVoidedWith(invoice: LedgerEntry, contract: Contract | null, entries: readonly LedgerEntry[]): Credit[] {
  if (invoice.kind !== 'invoice') return [];
  const left = entries.filter((entry) => entry.id !== invoice.id && counts(entry));
  const isLast = left.every(({ kind }) => kind !== 'invoice');
  const leftMinor = billedOf(left).reduce((sum, { totalMinor }) => sum + totalMinor, 0);
  let freeMinor = isLast || contract === null ? Number.POSITIVE_INFINITY : contract.totalMinor - leftMinor;
  return left
    .filter((entry): entry is Credit => entry.kind === 'credit' || entry.kind === 'write-off')
    .toSorted((a, b) => b.createdAt.localeCompare(a.createdAt))
    .filter((credit) => {
      const isOfInvoice = isLast || credit.invoiceId === invoice.id;
      if (!isOrderCredit(credit)) return isOfInvoice;
      if (freeMinor <= 0) return false;
      freeMinor -= credit.amountMinor;
      return true;
    });
}

/**
 * What the customer still has to pay, whole minor units; below 0 it is owed to the customer.
 * @param contract what is not invoiced of it counts too; null counts the invoices alone
 */
export function stillToPayMinor(contract: Contract | null, account: Account): number {
  const toInvoiceMinor = contract === null ? 0 : contract.totalMinor - billedMinor(account);
  return account.openMinor - account.onAccountMinor + toInvoiceMinor;
}
