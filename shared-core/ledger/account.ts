/** The balance of one job, from its ledger entries. */
import { daysBetween } from '../measure/day.ts';
import type { Credit, Invoice, LedgerEntry, Payment, Refund } from '../book/ledger.ts';

/** Status of an invoice on a day. */
export type InvoiceState = 'void' | 'paid' | 'due' | 'overdue';

/** A part of an invoice that is open and has a due day, whole minor units. */
export type Due = { readonly minor: number; readonly dueOn: string; readonly isRetainage: boolean };

/** One invoice with the amounts applied to it. */
export type InvoiceBalance = {
  readonly invoice: Invoice;
  /** Payments, credits and write-offs applied to it, whole minor units. */
  readonly settledMinor: number;
  /** Still owed, retainage included; never below 0. */
  readonly openMinor: number;
  /** Part of the open amount that is retained and not due yet. */
  readonly retainedMinor: number;
  /** The open parts by their due days: the invoice's own, then that of its retainage once it is released. */
  readonly dues: readonly Due[];
  /** The first of these days, or else the invoice's own. */
  readonly dueOn: string;
  /** Open and due: `openMinor` less the retainage held. */
  readonly dueMinor: number;
  /** Of `dueMinor`, the parts past their due days. */
  readonly overdueMinor: number;
  readonly state: InvoiceState;
  /** Whole days past the due day; 0 when not overdue. */
  readonly daysOverdue: number;
};

/** A job's account. In whole minor units; `invoiced = received - refunded + credited + writtenOff + open - onAccount`. */
export type Account = {
  readonly invoices: readonly InvoiceBalance[];
  readonly invoicedMinor: number;
  readonly receivedMinor: number;
  readonly refundedMinor: number;
  readonly creditedMinor: number;
  /** Of `creditedMinor`, credits for change orders: they take back what was invoiced. */
  readonly orderCreditsMinor: number;
  readonly writtenOffMinor: number;
  readonly openMinor: number;
  /** Of `openMinor`, what is due, and the retainage that is held. */
  readonly dueMinor: number;
  readonly retainedMinor: number;
  /** Paid beyond what was invoiced: belongs to the customer until it is invoiced or refunded. */
  readonly onAccountMinor: number;
};

/** True for an entry that is not voided or archived. */
export function counts(entry: Pick<LedgerEntry, 'voidedAt' | 'deletedAt'>): boolean {
  return entry.voidedAt === null && entry.deletedAt === null;
}

/** True for a credit that takes back what was invoiced beyond a contract, because change orders reduced it. */
export function isOrderCredit(entry: LedgerEntry): entry is Credit {
  return entry.kind === 'credit' && entry.forChangeOrders === true && counts(entry);
}

/** Invoiced less the credits for change orders, whole minor units: what counts against the contract. */
export function billedMinor(account: Pick<Account, 'invoicedMinor' | 'orderCreditsMinor'>): number {
  return account.invoicedMinor - account.orderCreditsMinor;
}

/**
 * A job's account on a day.
 * Amounts for an invoice go to it first; the rest goes to the oldest open invoice, then on account.
 * @param entries the entries of one job, in any order
 * @param today `YYYY-MM-DD` in the business's time zone
 * @param releasedOn the day retainage became due, because the work was accepted; null while it is held back
 */
export function accountOf(entries: readonly LedgerEntry[], today: string, releasedOn: string | null = null): Account {
  const all = entries.filter((e) => e.deletedAt === null);
  const invoices = all.filter((e): e is Invoice => e.kind === 'invoice').sort(byDue);
  const payments = all.filter((e): e is Payment => e.kind === 'payment' && counts(e));
  const refunds = all.filter((e): e is Refund => e.kind === 'refund' && counts(e));
  const credits = all.filter((e): e is Credit => (e.kind === 'credit' || e.kind === 'write-off') && counts(e));
  const refundedMinor = sum(refunds);
  const settled = settle(invoices.filter(counts), [...credits, ...payments], refundedMinor);
  const balances = invoices.map((invoice) => balance(invoice, settled.byInvoice.get(invoice.id) ?? 0, today, releasedOn));
  return {
    invoices: balances,
    invoicedMinor: invoices.filter(counts).reduce((total, i) => total + i.totalMinor, 0),
    receivedMinor: sum(payments),
    refundedMinor,
    creditedMinor: sum(credits.filter((c) => c.kind === 'credit')),
    orderCreditsMinor: sum(credits.filter(isOrderCredit)),
    writtenOffMinor: sum(credits.filter((c) => c.kind === 'write-off')),
    openMinor: balances.reduce((total, b) => total + b.openMinor, 0),
    dueMinor: balances.reduce((total, b) => total + b.dueMinor, 0),
    retainedMinor: balances.reduce((total, b) => total + b.retainedMinor, 0),
    onAccountMinor: settled.leftMinor,
  };
}

/** The account as it stood at the end of a day: what came later is left out. */
export function accountAt(entries: readonly LedgerEntry[], day: string, releasedOn: string | null): Account {
  return accountOf(
    entries.filter((entry) => entry.onDay <= day),
    day,
    releasedOn,
  );
}

/** Applies amounts to invoices; a refund reduces the amount on account first, then the newest paid invoice. */
function settle(
  invoices: readonly Invoice[],
  amounts: readonly (Payment | Credit)[],
  refundedMinor: number,
): { byInvoice: Map<string, number>; leftMinor: number } {
  const byInvoice = new Map(invoices.map((invoice) => [invoice.id, 0]));
  const room = (invoice: Invoice): number => invoice.totalMinor - (byInvoice.get(invoice.id) ?? 0);
  const applyTo = (invoice: Invoice, minor: number): number => {
    const taken = Math.min(minor, room(invoice));
    byInvoice.set(invoice.id, (byInvoice.get(invoice.id) ?? 0) + taken);
    return minor - taken;
  };
  let unappliedMinor = 0;
  for (const item of [...amounts.filter((a) => a.invoiceId !== null), ...amounts.filter((a) => a.invoiceId === null)]) {
    const named = invoices.find((invoice) => invoice.id === item.invoiceId);
    unappliedMinor += named === undefined ? item.amountMinor : applyTo(named, item.amountMinor);
  }
  for (const invoice of invoices) unappliedMinor = applyTo(invoice, unappliedMinor);
  let refundMinor = refundedMinor;
  const fromAccount = Math.min(unappliedMinor, refundMinor);
  unappliedMinor -= fromAccount;
  refundMinor -= fromAccount;
  for (const invoice of [...invoices].reverse()) {
    const taken = Math.min(refundMinor, byInvoice.get(invoice.id) ?? 0);
    byInvoice.set(invoice.id, (byInvoice.get(invoice.id) ?? 0) - taken);
    refundMinor -= taken;
  }
  // A refund greater than all receipts is owed to the business.
  return { byInvoice, leftMinor: unappliedMinor - refundMinor };
}

function balance(invoice: Invoice, settledMinor: number, today: string, releasedOn: string | null): InvoiceBalance {
  const isVoid = invoice.voidedAt !== null;
  const openMinor = isVoid ? 0 : invoice.totalMinor - settledMinor;
  const retainageMinor = Math.min(invoice.retainageMinor, openMinor);
  const laterOn = releasedOn !== null && releasedOn > invoice.dueOn ? releasedOn : invoice.dueOn;
  const dues = [
    { minor: openMinor - retainageMinor, dueOn: invoice.dueOn, isRetainage: false },
    { minor: releasedOn === null ? 0 : retainageMinor, dueOn: laterOn, isRetainage: true },
  ].filter(({ minor }) => minor > 0);
  const dueMinor = dues.reduce((total, due) => total + due.minor, 0);
  const late = dues.filter(({ dueOn }) => dueOn < today);
  const [oldest] = late;
  const state = isVoid ? 'void' : openMinor === 0 ? 'paid' : oldest !== undefined ? 'overdue' : 'due';
  return {
    ...{ invoice, openMinor, dues, dueMinor, state },
    settledMinor: isVoid ? 0 : settledMinor,
    retainedMinor: openMinor - dueMinor,
    dueOn: dues[0]?.dueOn ?? invoice.dueOn,
    overdueMinor: late.reduce((total, due) => total + due.minor, 0),
    daysOverdue: oldest === undefined ? 0 : daysBetween(oldest.dueOn, today),
  };
}

/** The order invoices were issued in. Serials start again each year. */
export const byIssue = (a: Invoice, b: Invoice): number => a.createdAt.localeCompare(b.createdAt) || a.serial - b.serial;
const byDue = (a: Invoice, b: Invoice): number => a.dueOn.localeCompare(b.dueOn) || byIssue(a, b);
const sum = (items: readonly { readonly amountMinor: number }[]): number => items.reduce((total, item) => total + item.amountMinor, 0);
