/** A late charge under the contract: simple interest, without interest on the charge. */
import { daysBetween } from '../measure/day.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import { exact, over, roundHalfUp, times } from '../price/exact.ts';
import { type InvoiceBalance, isLateCharge } from './account.ts';
import { type InvoiceDraft, standingInvoices } from './next-invoice.ts';

/** The charge a contract allows on an overdue amount. */
export type LateCharge = {
  /** Share of the overdue amount for each 30 days: 0.015 is 1.5%. */
  readonly monthShare: number;
  /** Days after the due day before it begins. */
  readonly graceDays: number;
};

/**
 * The late charge on an overdue amount, by the day.
 * @param dueMinor the overdue amount
 * @param daysOverdue whole days past the due day
 * @returns whole minor units; 0 within the days of grace. State law may set a lower maximum.
 */
export function lateChargeMinor(dueMinor: number, daysOverdue: number, charge: LateCharge): number {
  const days = daysOverdue - charge.graceDays;
  if (days <= 0 || dueMinor <= 0) return 0;
  return roundHalfUp(over(times(times(exact(dueMinor), exact(charge.monthShare)), exact(days)), exact(30)));
}

/**
 * The late charge on an invoice: on each open part from its own due day.
 * @param today `YYYY-MM-DD`
 */
export function invoiceLateChargeMinor({ dues }: Pick<InvoiceBalance, 'dues'>, today: string, charge: LateCharge): number {
  return dues.reduce((sum, { minor, dueOn }) => sum + lateChargeMinor(minor, daysBetween(dueOn, today), charge), 0);
}

/**
 * The late charge on an invoice that is not billed yet, as an invoice to issue; null for none. None is charged on a late charge. What is
 * billed of it stays billed, credited or not.
 * @param entries the job's entries
 * @param monthShare as in {@link LateCharge}; null where the contract has no late charge
 */
export function lateChargeDraft(
  balance: Pick<InvoiceBalance, 'dues' | 'invoice'>,
  entries: readonly LedgerEntry[],
  today: string,
  monthShare: number | null,
): InvoiceDraft | null {
  const { invoice } = balance;
  if (monthShare === null || isLateCharge(invoice)) return null;
  const billedMinor = standingInvoices(entries).reduce(
    (sum, { lateFor, totalMinor }) => (lateFor === invoice.id ? sum + totalMinor : sum),
    0,
  );
  const totalMinor = invoiceLateChargeMinor(balance, today, { monthShare, graceDays: 0 }) - billedMinor;
  if (totalMinor <= 0) return null;
  const own = { purpose: 'other', stageName: null, key: `late ${invoice.id} ${today}`, lateFor: invoice.id } as const;
  return { ...own, netMinor: totalMinor, taxes: [], totalMinor, isReady: true, due: 'on-signature' };
}
