/** The invoices and receipts of a job, with the amounts that its ledger gives them. */
import type { Invoice, Payment } from '../book/ledger.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { byIssue, counts, isLateCharge, isOrderCredit } from '../ledger/account.ts';
import { accountAt, appliedAtIssueMinor, standingAtIssue, standingOn } from '../ledger/account-at.ts';
import { total } from '../ledger/contract.ts';
import { contractOfJob } from '../ledger/job-contract.ts';
import { acceptedQuote, quotesDecidedBy } from '../price/change-order.ts';
import { jobMoney, releasedOn } from '../standing/job-money.ts';
import { nextRevision } from './document-input.ts';
import { invoicePaper, receiptPaper } from './money-papers.ts';
import type { DocumentTree } from './tree.ts';

/** An invoice of the job, with the contract and the credit balance as they stood when it was issued, and what is invoiced up to it. */
export function jobInvoice(whole: WholeJob, invoice: Invoice, now: string): DocumentTree {
  const { today } = jobMoney(whole, now);
  const quotes = quotesDecidedBy(whole.quotes, invoice.createdAt);
  const contract = isLateCharge(invoice) ? null : contractOfJob(quotes);
  const standing = standingAtIssue(whole.ledger, invoice).filter(counts);
  const invoicedMinor = total(standing, (entry) =>
    entry.kind === 'invoice' && !isLateCharge(entry) && byIssue(entry, invoice) <= 0 ? entry.totalMinor : 0,
  );
  const orderCreditsMinor = total(standing, (entry) =>
    isOrderCredit(entry) && entry.createdAt <= invoice.createdAt ? entry.amountMinor : 0,
  );
  const isChanged = acceptedQuote(quotes)?.orders.some(({ state }) => state === 'signed') ?? false;
  const invoiced = contract === null ? null : { totalMinor: contract.totalMinor, invoicedMinor, orderCreditsMinor, isChanged };
  const appliedMinor = appliedAtIssueMinor(whole.ledger, invoice, releasedOn(whole, whole.business.timeZone));
  return invoicePaper({ ...whole, now, today }, invoice, invoiced, appliedMinor);
}

/**
 * The receipt for a payment of the job: under the number it was given, else the next one of the job. An invoice voided on a later day was
 * due that day, but a payment or refund voided since, as a check that was returned, does not count.
 */
export function jobReceipt(whole: WholeJob, payment: Payment, now: string): DocumentTree {
  const given = whole.documents.find(({ kind, entryId }) => kind === 'receipt' && entryId === payment.id);
  const { today } = jobMoney(whole, now);
  const { timeZone } = whole.business;
  const ledger = whole.ledger.filter((entry) => counts(entry) || (entry.kind !== 'payment' && entry.kind !== 'refund'));
  const account = accountAt(standingOn(ledger, payment.onDay, timeZone), payment.onDay, releasedOn(whole, timeZone));
  return receiptPaper({ ...whole, now, today }, payment, account, given?.revision ?? nextRevision(whole, 'receipt'));
}
