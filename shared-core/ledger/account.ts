/** The balance of one job, from its ledger entries. */
import { daysBetween } from '../measure/day.ts';
import { type Exact, exact, minus, over, roundHalfUp, sumExact, times, ZERO } from '../price/exact.ts';
import type { Credit, Invoice, LedgerEntry, Payment, Refund } from '../book/ledger.ts';
import { type Agreed, total } from './contract.ts';

/** Status of an invoice on a day. */
export type InvoiceState = 'void' | 'paid' | 'due' | 'overdue';

/** A part of an invoice that is open and has a due day, whole minor units. */
export type Due = { readonly minor: number; readonly dueOn: string; readonly isRetainage: boolean };

/** One invoice with the amounts applied to it. */
export type InvoiceBalance = {
  readonly invoice: Invoice;
  /** Payments, credits and write-offs applied to it, whole minor units. */
  readonly settledMinor: number;
  /** Of `settledMinor`, payments and credits beside the contract: without write-offs and credits for change orders. */
  readonly paidMinor: number;
  /** Of `settledMinor`, written off and not paid after all. */
  readonly writtenOffMinor: number;
  /** When the last payment that went to it was entered; null while none did. */
  readonly paidAt: string | null;
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
  /** Of `invoicedMinor`, charges for paying late, which are beside the contract. */
  readonly lateChargesMinor: number;
  /** Less what was paid after all. */
  readonly writtenOffMinor: number;
  /** Written off, and paid after all with money beyond what is open. An invoice still to come takes that money first. */
  readonly recoveredMinor: number;
  /** Open on the invoices, and what was refunded beyond receipts. */
  readonly openMinor: number;
  /** Of `openMinor`, what was settled and is open again because it was refunded. */
  readonly reopenedMinor: number;
  /** Of `openMinor`, what is due, and the retainage that is held. */
  readonly dueMinor: number;
  readonly retainedMinor: number;
  /** Of `dueMinor`, refunded beyond what was received, as when the payment was returned later: the customer owes it back. */
  readonly overRefundedMinor: number;
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

/** An amount billed, in whole minor units; below 0 for a credit. */
export type Billed = Pick<Invoice, 'netMinor' | 'taxes' | 'totalMinor'>;

/** The same amount with the other sign. */
export function negated({ netMinor, taxes, totalMinor }: Agreed): Billed {
  return {
    netMinor: -netMinor,
    totalMinor: -totalMinor,
    taxes: taxes.map((tax) => ({ ...tax, baseMinor: -tax.baseMinor, taxMinor: -tax.taxMinor })),
  };
}

/** True for an invoice that charges for paying another one late. It is beside the contract. */
export function isLateCharge(invoice: Pick<Invoice, 'lateFor'>): boolean {
  return invoice.lateFor !== undefined;
}

/** What is billed of a contract: the invoices that count, without late charges, and the credits for change orders as invoices below 0. */
export function billedOf(entries: readonly LedgerEntry[]): Billed[] {
  return entries.flatMap((entry): Billed[] => {
    if (entry.kind === 'invoice') return counts(entry) && !isLateCharge(entry) ? [entry] : [];
    if (!isOrderCredit(entry)) return [];
    const { amountMinor, taxes } = entry;
    return [negated({ totalMinor: amountMinor, taxes, netMinor: amountMinor - total(taxes, (tax) => tax.taxMinor) })];
  });
}

/** The amounts that {@link billedMinor} reads. */
export type BilledAmounts = Pick<Account, 'invoicedMinor' | 'orderCreditsMinor' | 'lateChargesMinor'>;

/** Invoiced less late charges and the credits for change orders, whole minor units: what counts against the contract. */
export function billedMinor(account: BilledAmounts): number {
  return account.invoicedMinor - account.lateChargesMinor - account.orderCreditsMinor;
}

/**
 * The amount to propose for a payment, whole minor units; null for none.
 * @param invoiceId the invoice it is for; null where none was chosen, so that only a single one with an amount due tells
 */
export function proposedMinor({ invoices }: Pick<Account, 'invoices'>, invoiceId: string | null): number | null {
  const due = invoices.filter(({ dueMinor, invoice }) => dueMinor > 0 && (invoiceId === null || invoice.id === invoiceId));
  return due.length === 1 ? (due[0]?.dueMinor ?? null) : null;
}

/**
 * The most that a write-off may be, whole minor units: what is open of an invoice.
 * @param invoiceId the invoice it is for; null for all of them
 */
export function openToWriteOffMinor({ invoices }: Pick<Account, 'invoices'>, invoiceId: string | null): number {
  return total(invoices, ({ invoice, openMinor }) => (invoiceId === null || invoice.id === invoiceId ? openMinor : 0));
}

/** Received and not paid back, whole minor units. */
export function netReceivedMinor(account: Pick<Account, 'receivedMinor' | 'refundedMinor'>): number {
  return account.receivedMinor - account.refundedMinor;
}

/**
 * A job's account on a day.
 * Amounts for an invoice go to it first, and the rest to what is due first. Retainage that is held comes after all that is due. What is left
 * takes back what was written off, and the rest of it is on account. A write-off settles what is open, and what is left of it does not count.
 * @param entries the entries of one job, in any order
 * @param today `YYYY-MM-DD` in the business's time zone
 * @param releasedOn the day retainage became due, because the work was accepted; null while it is held back
 */
export function accountOf(entries: readonly LedgerEntry[], today: string, releasedOn: string | null = null): Account {
  const { invoices, payments, credits, refundedMinor, settled } = settledOf(entries, releasedOn);
  const balances = invoices.map((invoice) => balance(invoice, settled, today));
  const overRefundedMinor = Math.max(0, -settled.leftMinor);
  return {
    invoices: balances,
    invoicedMinor: total(invoices.filter(counts), (i) => i.totalMinor),
    lateChargesMinor: total(
      invoices.filter((i) => counts(i) && isLateCharge(i)),
      (i) => i.totalMinor,
    ),
    receivedMinor: sum(payments),
    refundedMinor,
    creditedMinor: sum(credits.filter((c) => c.kind === 'credit')),
    orderCreditsMinor: sum(credits.filter(isOrderCredit)),
    writtenOffMinor: total(settled.opens.filter(isWriteOff), takenMinor),
    recoveredMinor: settled.recoveredMinor,
    openMinor: total(balances, (b) => b.openMinor) + overRefundedMinor,
    reopenedMinor: total(settled.reopenedMinor, (minor) => minor),
    dueMinor: total(balances, (b) => b.dueMinor) + overRefundedMinor,
    retainedMinor: total(balances, (b) => b.retainedMinor),
    overRefundedMinor,
    onAccountMinor: Math.max(0, settled.leftMinor),
  };
}

/** The entries of one job that count, by kind, and how they settle one another. */
function settledOf(entries: readonly LedgerEntry[], releasedOn: string | null) {
  const all = entries.filter((e) => e.deletedAt === null);
  const invoices = all.filter((e): e is Invoice => e.kind === 'invoice').sort(byDue);
  const payments = all.filter((e): e is Payment => e.kind === 'payment' && counts(e));
  const credits = all.filter((e): e is Credit => (e.kind === 'credit' || e.kind === 'write-off') && counts(e));
  const refundedMinor = sum(all.filter((e): e is Refund => e.kind === 'refund' && counts(e)));
  const [given, off] = [credits.filter(({ kind }) => kind === 'credit'), credits.filter(({ kind }) => kind === 'write-off')];
  const amounts = [...[...payments, ...off].sort(byDay), ...given];
  return {
    invoices,
    payments,
    credits,
    refundedMinor,
    settled: settle(partsOf(invoices.filter(counts), releasedOn), amounts, refundedMinor),
  };
}

/**
 * What each write-off of a job takes of its invoices, whole minor units, by its id: never more than was open, and less what was paid after
 * all.
 */
export function writtenOff(entries: readonly LedgerEntry[], releasedOn: string | null = null): ReadonlyMap<string, number> {
  return new Map(
    settledOf(entries, releasedOn).settled.opens.flatMap((open) => (isWriteOff(open) ? [[open.entry.id, takenMinor(open)]] : [])),
  );
}

/**
 * The sales tax in the payments that settle a job's invoices, whole minor units: of each invoice, in proportion to what is paid of it. The
 * tax of a credit or a write-off for an invoice comes off that invoice, whichever it settles; that of the others off all invoices, in
 * proportion to their tax. What is on account settles no invoice and has none. Common practice on a cash basis, no source.
 */
export function taxReceivedMinor(entries: readonly LedgerEntry[], releasedOn: string | null = null): number {
  const { invoices, settled } = settledOf(entries, releasedOn);
  const { parts, opens } = settled;
  const taxOf = (taxes: readonly { readonly taxMinor: number }[]): Exact => exact(total(taxes, ({ taxMinor }) => taxMinor));
  const paidBy = opens.filter(({ entry }) => entry.kind === 'payment');
  const standing = invoices.filter(counts);
  const isOf = ({ entry }: Open, { id }: Invoice): boolean => entry.invoiceId === id && !isOrderCredit(entry);
  const credits = opens.flatMap((open) =>
    open.entry.kind === 'payment'
      ? []
      : [{ open, tax: over(times(taxOf(open.entry.taxes), exact(takenMinor(open))), exact(open.entry.amountMinor)) }],
  );
  const bills = standing.map((invoice) => {
    const own = parts.map((part, i) => ({ part, i })).filter(({ part }) => part.invoice.id === invoice.id);
    const paidMinor = total(paidBy, ({ taken }) => total(own, ({ i }) => taken[i] ?? 0));
    const credited = credits.flatMap(({ open, tax }) => (isOf(open, invoice) ? [tax] : []));
    return { paidMinor, netMinor: paidMinor + total(own, ({ part }) => part.minor), tax: minus(taxOf(invoice.taxes), sumExact(credited)) };
  });
  const others = sumExact(credits.flatMap(({ open, tax }) => (standing.some((invoice) => isOf(open, invoice)) ? [] : [tax])));
  const billed = sumExact(bills.map(({ tax }) => tax));
  const netMinor = total(bills, (bill) => bill.netMinor);
  const taxes = bills.map((bill): Exact => {
    if (bill.paidMinor <= 0) return ZERO;
    const off = billed.num === 0n ? over(times(others, exact(bill.netMinor)), exact(netMinor)) : over(times(others, bill.tax), billed);
    return over(times(minus(bill.tax, off), exact(bill.paidMinor)), exact(bill.netMinor));
  });
  return roundHalfUp(sumExact(taxes));
}

/** A part of an invoice with what is still open of it. Retainage is held, without a due day to wait for, until it is released. */
type Part = Due & { readonly invoice: Invoice; readonly isHeld: boolean };
/** What is left of an amount, and what each part took of it. */
type Open = { minor: number; readonly entry: Payment | Credit; readonly taken: number[] };

const isWriteOff = ({ entry }: Open): boolean => entry.kind === 'write-off';
const takenMinor = ({ taken }: Open): number => total(taken, (minor) => minor);

/** The parts of invoices by their due days, retainage that is held last. */
function partsOf(invoices: readonly Invoice[], releasedOn: string | null): Part[] {
  return invoices
    .flatMap((invoice): Part[] => {
      const { dueOn, totalMinor } = invoice;
      const retainageMinor = Math.min(invoice.retainageMinor, totalMinor);
      const laterOn = releasedOn !== null && releasedOn > dueOn ? releasedOn : dueOn;
      return [
        { invoice, minor: totalMinor - retainageMinor, dueOn, isRetainage: false, isHeld: false },
        { invoice, minor: retainageMinor, dueOn: laterOn, isRetainage: true, isHeld: releasedOn === null },
      ];
    })
    .sort((a, b) => Number(a.isHeld) - Number(b.isHeld) || a.dueOn.localeCompare(b.dueOn));
}

const isFor = ({ entry }: Open, { invoice }: Part): boolean => entry.invoiceId === invoice.id;

/** A write-off gives up what was open when it was recorded. */
const mayTake = ({ entry }: Open, { invoice }: Part): boolean =>
  entry.kind !== 'write-off' || (entry.invoiceId === null ? invoice.createdAt <= entry.createdAt : entry.invoiceId === invoice.id);

/**
 * What an amount may settle, in turn. A credit for no invoice goes first, so that it stays where it is when another invoice comes. A payment
 * for an invoice goes before what was written off of it. Payments leave retainage that is held to the last; a credit for an invoice takes
 * that back too.
 */
const TURNS: readonly ((open: Open, part: Part) => boolean)[] = [
  ({ entry }, part) => entry.kind === 'credit' && entry.invoiceId === null && !part.isHeld,
  (open, part) => isFor(open, part) && open.entry.kind === 'payment' && !part.isHeld,
  (open, part) => isFor(open, part) && open.entry.kind !== 'payment',
  (_, part) => !part.isHeld,
  isFor,
  () => true,
];

type SettledPart = Part & { readonly paidMinor: number };
type Settled = {
  readonly parts: readonly SettledPart[];
  readonly opens: readonly Open[];
  /** What a refund opened again of each part, and was not written off. */
  readonly reopenedMinor: readonly number[];
  readonly recoveredMinor: number;
  readonly paidAt: ReadonlyMap<string, string>;
  readonly leftMinor: number;
};

/**
 * Applies amounts to the parts of invoices. A refund reduces what is left first; what is left then takes back what was written off. A refund
 * of more opens again what was settled last.
 */
function settle(due: readonly Part[], amounts: readonly (Payment | Credit)[], refundedMinor: number): Settled {
  const paidAt = new Map<string, string>();
  const openMinor = due.map(({ minor }) => minor);
  const paidMinor = due.map(() => 0);
  const reopenedMinor = due.map(() => 0);
  const opens = amounts.map((entry): Open => ({ entry, minor: entry.amountMinor, taken: due.map(() => 0) }));
  const take = (open: Open, part: Part, i: number, most: number): void => {
    const taken = Math.min(open.minor, most);
    if (taken <= 0) return;
    move(open, i, taken);
    openMinor[i] = (openMinor[i] ?? 0) - taken;
    const { kind, createdAt } = open.entry;
    if (kind !== 'write-off' && !isOrderCredit(open.entry)) paidMinor[i] = (paidMinor[i] ?? 0) + taken;
    if (kind === 'payment' && createdAt > (paidAt.get(part.invoice.id) ?? '')) paidAt.set(part.invoice.id, createdAt);
  };
  for (const fits of TURNS)
    for (const open of opens)
      due.forEach((part, i) => {
        if (mayTake(open, part) && fits(open, part)) take(open, part, i, openMinor[i] ?? 0);
      });
  replacePayments(opens);
  const others = opens.filter((open) => !isWriteOff(open));
  let refundLeftMinor = refundedMinor;
  for (const open of others) {
    const back = Math.min(open.minor, refundLeftMinor);
    open.minor -= back;
    refundLeftMinor -= back;
  }
  let recoveredMinor = 0;
  for (const open of others)
    for (const off of opens.filter(isWriteOff))
      due.forEach((part, i) => {
        const back = Math.min(open.minor, off.taken[i] ?? 0);
        recoveredMinor += back;
        move(off, i, -back);
        openMinor[i] = (openMinor[i] ?? 0) + back;
        take(open, part, i, back);
      });
  for (let i = due.length - 1; i >= 0; i -= 1)
    for (const payment of opens.filter(({ entry }) => entry.kind === 'payment').toReversed()) {
      const back = Math.min(refundLeftMinor, payment.taken[i] ?? 0);
      payment.taken[i] = (payment.taken[i] ?? 0) - back;
      refundLeftMinor -= back;
      reopenedMinor[i] = (reopenedMinor[i] ?? 0) + back;
      openMinor[i] = (openMinor[i] ?? 0) + back;
      paidMinor[i] = Math.max(0, (paidMinor[i] ?? 0) - back);
    }
  // What a refund opened again may have been written off.
  for (const off of opens.filter(isWriteOff))
    due.forEach((part, i) => {
      if (mayTake(off, part)) take(off, part, i, openMinor[i] ?? 0);
      reopenedMinor[i] = Math.min(reopenedMinor[i] ?? 0, openMinor[i] ?? 0);
    });
  // Below 0 when more was refunded than was received.
  const leftMinor = total(others, ({ minor }) => minor) - refundLeftMinor;
  const parts = due.map((part, i) => ({ ...part, minor: openMinor[i] ?? 0, paidMinor: paidMinor[i] ?? 0 }));
  return { parts, opens, reopenedMinor, recoveredMinor, paidAt, leftMinor };
}

/** Moves an amount between what is left of it and what a part took of it. */
function move(open: Open, i: number, minor: number): void {
  open.minor -= minor;
  open.taken[i] = (open.taken[i] ?? 0) + minor;
}

/** What is left of a credit was given after the invoice was paid: the credit takes the place of the payment, which is left instead. */
function replacePayments(opens: readonly Open[]): void {
  for (const credit of opens.filter(({ entry }) => entry.kind === 'credit'))
    for (const payment of opens.filter(({ entry }) => entry.kind === 'payment'))
      for (let i = payment.taken.length - 1; i >= 0; i -= 1) {
        const minor = Math.min(credit.minor, payment.taken[i] ?? 0);
        move(credit, i, minor);
        move(payment, i, -minor);
      }
}

function balance(invoice: Invoice, { parts, opens, paidAt }: Settled, today: string): InvoiceBalance {
  const isVoid = invoice.voidedAt !== null;
  const own = parts.filter((part) => part.invoice.id === invoice.id);
  const open = own.filter((part) => part.minor > 0);
  const openMinor = total(open, ({ minor }) => minor);
  const dues = open.filter(({ isHeld }) => !isHeld).map(({ minor, dueOn, isRetainage }) => ({ minor, dueOn, isRetainage }));
  const dueMinor = total(dues, ({ minor }) => minor);
  const late = dues.filter(({ dueOn }) => dueOn < today);
  const [oldest] = late;
  const state = isVoid ? 'void' : openMinor === 0 ? 'paid' : oldest !== undefined ? 'overdue' : 'due';
  return {
    ...{ invoice, openMinor, dues, dueMinor, state },
    settledMinor: isVoid ? 0 : invoice.totalMinor - openMinor,
    paidMinor: total(own, (part) => part.paidMinor),
    writtenOffMinor: total(opens.filter(isWriteOff), ({ taken }) => total(own, (part) => taken[parts.indexOf(part)] ?? 0)),
    paidAt: paidAt.get(invoice.id) ?? null,
    retainedMinor: openMinor - dueMinor,
    dueOn: dues[0]?.dueOn ?? invoice.dueOn,
    overdueMinor: total(late, ({ minor }) => minor),
    daysOverdue: oldest === undefined ? 0 : daysBetween(oldest.dueOn, today),
  };
}

/** The order invoices were issued in. Serials start again each year. */
export const byIssue = (a: Invoice, b: Invoice): number => a.createdAt.localeCompare(b.createdAt) || a.serial - b.serial;
const byDay = (a: LedgerEntry, b: LedgerEntry): number => a.onDay.localeCompare(b.onDay) || a.createdAt.localeCompare(b.createdAt);
const byDue = (a: Invoice, b: Invoice): number => a.dueOn.localeCompare(b.dueOn) || byIssue(a, b);
const sum = (items: readonly { readonly amountMinor: number }[]): number => total(items, (item) => item.amountMinor);
