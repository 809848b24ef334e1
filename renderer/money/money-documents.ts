import type { Invoice, Payment } from '../../shared-core/book/ledger.ts';
import type { DocumentKind, MadeDocument } from '../../shared-core/book/papers.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { jobInvoice, jobReceipt } from '../../shared-core/documents/job-money-papers.ts';
import { type MoneyPaperOf, overduePaper, statementPaper } from '../../shared-core/documents/money-papers.ts';
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import { termsOfJob } from '../../shared-core/ledger/job-contract.ts';
import { lateChargeDraft } from '../../shared-core/ledger/late-charge.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { reprintDocument, saveDocument, storedDocument } from '../book/document-commands.ts';
import { nextRevision } from '../../shared-core/documents/document-input.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { nowInstant } from '../book/command.ts';
import { creditFirst } from '../parts/money-words.ts';

/** The late charge that may be billed on an invoice under the terms of the job; null for none. */
export const lateCharge = (whole: WholeJob, balance: InvoiceBalance, today: string): InvoiceDraft | null =>
  lateChargeDraft(balance, whole.ledger, today, termsOfJob(whole).lateChargeShare);

/** Makes, stores and opens the money documents of one job; each function returns a sentence about the result. */
export function moneyPapers(whole: WholeJob, money: JobMoney) {
  const of: MoneyPaperOf = { ...whole, now: nowInstant(), today: money.today };
  // An invoice or receipt is printed from its stored content; a statement or notice shows the present state.
  // It is found by its entry: after an import, two invoices can have one number. One that was voided since has another title.
  const storedAs = (entry: Invoice | Payment, tree: DocumentTree): MadeDocument | undefined =>
    whole.documents.find((d) => d.entryId === entry.id && (d.kind === 'receipt' || d.title === tree.title));
  const make = (kind: DocumentKind, tree: DocumentTree, entryId: string | null = null): Promise<{ ok: boolean; text: string }> =>
    saveDocument({ jobId: whole.job.id, kind, revision: nextRevision(whole, kind), tree, entryId });
  const makeOnce = (kind: DocumentKind, tree: DocumentTree, entry: Invoice | Payment): Promise<{ ok: boolean; text: string }> => {
    const stored = storedAs(entry, tree);
    return stored === undefined ? make(kind, tree, entry.id) : reprintDocument(stored);
  };
  // A paper that asks for money would ask for too much while a credit is still to be recorded.
  const asks = async (kind: DocumentKind, tree: () => DocumentTree): Promise<{ ok: boolean; text: string }> => {
    const credit = creditFirst(money, (minor) => formatMoney(minor, whole.business.currency, whole.business.locale));
    return credit === null ? make(kind, tree()) : { ok: false, text: credit };
  };
  return {
    invoice: (invoice: Invoice) => makeOnce('invoice', jobInvoice(whole, invoice, of.now), invoice),
    receipt: (payment: Payment) => makeOnce('receipt', jobReceipt(whole, payment, of.now), payment),
    statement: () => asks('statement', () => statementPaper(of, whole.ledger, money.account)),
    overdue: (balance: InvoiceBalance) =>
      asks('overdue-notice', () => overduePaper(of, balance, lateCharge(whole, balance, money.today)?.totalMinor ?? 0)),
    /** The stored invoice, or a preview of one. */
    treeOf: async (invoice: Invoice): Promise<DocumentTree> => {
      const tree = jobInvoice(whole, invoice, of.now);
      const stored = storedAs(invoice, tree);
      const read = stored === undefined ? null : await storedDocument(stored);
      return read?.ok === true ? read.value : tree;
    },
  };
}
