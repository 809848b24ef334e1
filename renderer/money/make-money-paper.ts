import type { DocumentKind } from '../../shared-core/book/papers.ts';
import type { Invoice, Payment } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { invoicePaper, type MoneyPaperOf, overduePaper, receiptPaper, statementPaper } from '../../shared-core/documents/money-papers.ts';
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import { lateChargeMinor } from '../../shared-core/ledger/late-charge.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { nowInstant } from '../book/moment.ts';
import { nextRevision, reprintDocument, saveDocument } from '../book/document-commands.ts';

/** Makes, keeps and opens the money documents of one job; each gives a sentence about what happened. */
export function moneyPapers(whole: WholeJob, money: JobMoney) {
  const of: MoneyPaperOf = { ...whole, now: nowInstant(), today: money.today };
  const make = (kind: DocumentKind, tree: DocumentTree): Promise<{ ok: boolean; text: string }> => {
    // An invoice or receipt is printed again as it was stored; a statement or notice says how things are today.
    const isFrozen = kind === 'invoice' || kind === 'receipt';
    const issued = isFrozen ? whole.documents.find((d) => d.kind === kind && d.title === tree.title) : undefined;
    if (issued !== undefined) return reprintDocument(issued);
    return saveDocument({ jobId: whole.job.id, kind, revision: nextRevision(whole.documents, kind), tree });
  };
  const lateChargeOf = ({ dueMinor, daysOverdue }: InvoiceBalance): number => {
    const monthShare = whole.business.contract.lateChargeShare;
    return monthShare === null ? 0 : lateChargeMinor(dueMinor, daysOverdue, { monthShare, graceDays: 0 });
  };
  return {
    invoice: (invoice: Invoice) => {
      const totalMinor = money.contract?.totalMinor ?? invoice.totalMinor;
      const upTo = money.account.invoices.filter((b) => b.state !== 'void' && b.invoice.serial <= invoice.serial);
      const invoicedMinor = upTo.reduce((sum, b) => sum + b.invoice.totalMinor, 0);
      return make('invoice', invoicePaper(of, invoice, { totalMinor, invoicedMinor }));
    },
    receipt: (payment: Payment) => make('receipt', receiptPaper(of, payment, money.account)),
    statement: () => make('statement', statementPaper(of, whole.ledger, money.account)),
    overdue: (balance: InvoiceBalance) => make('overdue-notice', overduePaper(of, balance, lateChargeOf(balance))),
  };
}
