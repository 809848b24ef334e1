/** What Money and Handover say of an account in words. */
import { daysWords } from '../../shared-core/documents/money-papers.ts';
import { netReceivedMinor } from '../../shared-core/ledger/account.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
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

/** What to do before the customer is asked for money: record the credit of a deduction. Null where none is to be recorded. */
export function creditFirst({ overInvoicedMinor }: Pick<JobMoney, 'overInvoicedMinor'>, format: (minor: number) => string): string | null {
  return overInvoicedMinor === 0
    ? null
    : `More is invoiced than the contract total. Record a credit of ${format(overInvoicedMinor)} first.`;
}

/** The state of a job's money in one sentence. */
export function moneyAnswer(money: JobMoney, format: (minor: number) => string): string {
  if (money.isCanceled) return canceledWords(money.account, format);
  const settled = money.contract === null ? 'There is no accepted quote yet, so there is nothing to invoice.' : 'Paid in full.';
  return moneyLeft(money, format) ?? settled;
}

/** True where nothing is invoiced, and nothing of what was received or credited is left. */
export function hasNothingToSettle(account: JobMoney['account']): boolean {
  const { invoices, onAccountMinor, overRefundedMinor } = account;
  return invoices.every(({ state }) => state === 'void') && netReceivedMinor(account) <= 0 && onAccountMinor <= 0 && overRefundedMinor <= 0;
}

/** What is to be settled of a canceled contract. */
function canceledWords(account: JobMoney['account'], format: (minor: number) => string): string {
  if (hasNothingToSettle(account)) return 'The contract was canceled. Nothing is left to settle.';
  const heldMinor = netReceivedMinor(account);
  const received = heldMinor > 0 ? ` ${format(heldMinor)} was received.` : '';
  const { overRefundedMinor } = account;
  const over = overRefundedMinor > 0 ? ` ${format(overRefundedMinor)} was refunded beyond what was received. Collect it.` : '';
  if (account.invoices.every(({ state }) => state === 'void')) {
    // Without an invoice, a credit balance that was not received is of credits and write-offs.
    const left = heldMinor > 0 ? ' Pay it back and record the refund.' : over || ' Void the credits and write-offs.';
    return `The contract was canceled.${received}${left}`;
  }
  const refund = heldMinor > 0 ? ', then record the refund' : '';
  return `The contract was canceled.${received}${over} Void the invoices that are no longer owed${refund}. Archive the job when nothing is left to settle.`;
}

/** What is next for a job's money, in one sentence; null where nothing is left. */
export function moneyLeft(money: JobMoney, format: (minor: number) => string): string | null {
  const { account, toIssue, isPaid } = money;
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
    return `The customer has a credit balance of ${format(account.onAccountMinor)}.${isPaid ? ' Pay it back and record the refund.' : ''}`;
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
