import { daysWords } from '../../shared-core/documents/money-papers.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';

/** The state of a job's money in one sentence. */
export function moneyAnswer({ contract, account, toIssue, isPaid }: JobMoney, format: (minor: number) => string): string {
  const overdue = account.invoices.filter((b) => b.state === 'overdue');
  const [first] = overdue;
  if (first !== undefined) {
    const minor = overdue.reduce((sum, b) => sum + b.dueMinor, 0);
    return `${format(minor)} is overdue by ${daysWords(Math.max(...overdue.map((b) => b.daysOverdue)))}.`;
  }
  const ready = toIssue.find((draft) => draft.isReady);
  if (ready !== undefined) return `${ready.stageName ?? 'Change orders'}: ${format(ready.totalMinor)} can be invoiced now.`;
  if (account.openMinor > 0) return `${format(account.openMinor)} is due.`;
  if (isPaid) return 'Paid in full.';
  if (contract === null) return 'There is no accepted quote yet, so there is nothing to invoice.';
  return 'Nothing is due now.';
}
