/** What Money and Handover say of an account in words. */
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import { daysWords } from '../../shared-core/documents/money-papers.ts';
import { netReceivedMinor } from '../../shared-core/ledger/account.ts';
import { isTaxCredit } from '../../shared-core/ledger/credit-taxes.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import type { JobMoney, SettleStep } from '../../shared-core/standing/job-money.ts';
import type { MoneyOwed } from '../../shared-core/standing/money-owed.ts';

const draftName = ({ stageName }: InvoiceDraft): string => stageName ?? 'Change orders';

/** What an invoice to come waits for. */
export const WAITS_FOR: Readonly<Record<InvoiceDraft['due'], string>> = {
  'on-acceptance': 'waits for acceptance',
  'before-pour': 'waits for acceptance',
  'after-pour': 'waits for the pour',
  'on-handover': 'waits for the handover',
  'thirty-days': 'waits for 30 days after the handover',
  'on-signature': 'waits for the signature',
};

/** What to do before the customer is asked for money: record the credit of a deduction or of a refund. Null where none is to be recorded. */
export function creditFirst(
  { overInvoicedMinor, isCanceled }: Pick<JobMoney, 'overInvoicedMinor' | 'isCanceled'>,
  format: (minor: number) => string,
): string | null {
  if (overInvoicedMinor === 0) return null;
  const amount = format(overInvoicedMinor);
  const why = isCanceled ? `${amount} was refunded and is still invoiced.` : 'More is invoiced than the contract total.';
  return `${why} Record a credit of ${amount} first.`;
}

/** The sales tax of an invoice to issue, and what to do for a customer who is exempt; null without tax. @param entries the job's entries */
export function invoiceTaxWords(
  { taxes }: Pick<InvoiceDraft, 'taxes'>,
  entries: readonly LedgerEntry[],
  format: (minor: number) => string,
): string | null {
  const minor = taxes.reduce((sum, { taxMinor }) => sum + taxMinor, 0);
  if (minor <= 0) return null;
  const words = `The total includes ${format(minor)} of sales tax, as in the contract.`;
  return entries.some(isTaxCredit)
    ? `${words} Sales tax was credited on this job. If the customer is exempt, issue the invoice, then record a credit with “Sales tax only” for it too.`
    : `${words} If the customer became exempt, issue the invoice, then record a credit with “Sales tax only”.`;
}

const NO_CONTRACT =
  'Nothing can be invoiced before a quote is accepted. For a small job too, issue a quote, and record when the customer accepts it.';

/** The state of a job's money in one sentence. */
export function moneyAnswer(money: JobMoney, format: (minor: number) => string): string {
  if (money.isCanceled) return canceledWords(money, format);
  const left = moneyLeft(money, format);
  if (left !== null || money.contract === null) return left ?? NO_CONTRACT;
  const { writtenOffMinor } = money.account;
  return writtenOffMinor === 0 ? 'Paid in full.' : `Nothing is left to collect. ${format(writtenOffMinor)} is written off.`;
}

/** What is to be settled of a canceled contract. */
function canceledWords(money: JobMoney, format: (minor: number) => string): string {
  const { account } = money;
  const { openMinor, overRefundedMinor, onAccountMinor, refundedMinor } = account;
  const heldMinor = netReceivedMinor(account);
  const received = refundedMinor > 0 ? 'is left of what was received' : 'was received';
  const held = heldMinor > 0 ? ` ${format(heldMinor)} ${received}.` : '';
  const openInvoicesMinor = openMinor - overRefundedMinor;
  const open =
    openInvoicesMinor > 0
      ? ` ${format(openInvoicesMinor)} is open. Void the invoices that are no longer owed, or record a credit for what you do not charge.`
      : '';
  const words: Readonly<Record<SettleStep, string>> = {
    nothing: ' Nothing is left to settle.',
    credit: ` ${creditFirst(money, format) ?? ''}`,
    collect: ` ${format(overRefundedMinor)} was refunded beyond what was received. Collect it.${open}`,
    'pay-back': ` ${format(Math.min(onAccountMinor, heldMinor))} belongs to the customer. Pay it back and record the refund.`,
    'void-credits': ' Void the credits.',
    void: open,
    'pay-all-back':
      ' The customer canceled within three business days of signing. Record a credit for all of it, then pay it back within 10 business days and record the refund.',
    choose: ' To pay it back, record a credit for what is no longer owed, then the refund. To keep it, archive the job.',
    kept: ' Nothing is left to settle. Archive the job.',
  };
  return `The contract was canceled.${held}${words[money.settle]}`;
}

/** What is next for a job's money, in one sentence; null where nothing is left. */
export function moneyLeft(money: JobMoney, format: (minor: number) => string): string | null {
  const { account, contract, toIssue, isPaid } = money;
  const credit = creditFirst(money, format);
  if (credit !== null) return credit;
  const overdue = account.invoices.filter((b) => b.state === 'overdue');
  if (overdue.length > 0) {
    const minor = overdue.reduce((sum, b) => sum + b.overdueMinor, 0);
    const oldest = daysWords(Math.max(...overdue.map((b) => b.daysOverdue)));
    return `${format(minor)} is overdue${overdue.length > 1 ? ', the oldest' : ''} by ${oldest}.`;
  }
  const ready = toIssue.find((draft) => draft.isReady);
  if (ready !== undefined) return `${draftName(ready)}: ${format(ready.totalMinor)} can be invoiced now.`;
  if (account.dueMinor > 0) return `${format(account.dueMinor)} is due.`;
  if (account.retainedMinor > 0) return `Nothing is due now. Retainage of ${format(account.retainedMinor)} is held until the handover.`;
  if (account.onAccountMinor > 0)
    return `The customer has a credit balance of ${format(account.onAccountMinor)}.${isPaid ? ' Pay it back and record the refund.' : contract === null ? ' It goes toward the first invoice. If no quote is accepted, pay it back.' : ''}`;
  const [later] = toIssue;
  return later === undefined ? null : `${draftName(later)}: ${format(later.totalMinor)} ${WAITS_FOR[later.due]}.`;
}

/** The status of a job in the list of open accounts. */
export function statusWords({ account, overInvoicedMinor, daysOverdue, readyMinor }: MoneyOwed, format: (minor: number) => string): string {
  if (overInvoicedMinor > 0) return `Credit of ${format(overInvoicedMinor)} to record`;
  if (daysOverdue > 0) return `Overdue by ${daysWords(daysOverdue)}`;
  if (account.dueMinor > 0) return 'Due';
  if (readyMinor > 0) return 'Ready to invoice';
  if (account.retainedMinor > 0) return 'Retainage held';
  return account.onAccountMinor > 0 ? `Credit balance of ${format(account.onAccountMinor)}` : 'Nothing due yet';
}
