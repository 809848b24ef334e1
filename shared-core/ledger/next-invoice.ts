/** The invoices not issued yet, in amounts that add up exactly to the contract. */
import type { Invoice, InvoiceTax, LedgerEntry } from '../book/ledger.ts';
import { addDaysToDay } from '../measure/day.ts';
import { exact, over, roundHalfUp, times } from '../price/exact.ts';
import type { PaymentStage } from '../price/stages.ts';
import { taxOf } from '../price/tax.ts';
import { type Billed, billedOf, byIssue, counts, negated } from './account.ts';
import { type Contract, mergedTaxes } from './contract.ts';

/** Events of the job that make payments due. */
export type Milestones = {
  readonly accepted: boolean;
  /** Every room of the contract is fully poured. */
  readonly poured: boolean;
  readonly handedOver: boolean;
  /** Thirty days have passed since the handover. */
  readonly thirtyDaysPast: boolean;
};

/** An invoice to issue: its amounts, without a number. */
export type InvoiceDraft = Pick<Invoice, 'purpose' | 'stageName' | 'netMinor' | 'taxes' | 'totalMinor' | 'lateFor'> & {
  /** Tells the payments of a job apart, whatever their names; as in `invoiceOf`. */
  readonly key: string;
  /** True once the event that makes the payment due has happened. */
  readonly isReady: boolean;
  /** `on-signature` is for change orders once every payment of the contract is billed. */
  readonly due: PaymentStage['due'] | 'on-signature';
};

/** Invoices of a job that count, in the order they were issued. */
export function standingInvoices(entries: readonly LedgerEntry[]): Invoice[] {
  return entries.filter((e): e is Invoice => e.kind === 'invoice' && counts(e)).sort(byIssue);
}

/** The first key of a name that is not taken: the name, or from its second time on with a number. Null is for change orders. */
function freeKey(name: string | null, taken: { has: (key: string) => boolean }): string {
  const first = name ?? 'change-orders';
  let key = first;
  for (let time = 2; taken.has(key); time += 1) key = `${first}/${time}`;
  return key;
}

/** What was entered before the quote of a contract, so under one that was canceled. */
const earlierOf = ({ quotedAt }: Contract, entries: readonly LedgerEntry[]): LedgerEntry[] =>
  entries.filter(({ createdAt }) => createdAt < quotedAt);

/** The keys of the payments of a contract, in their order. None is that of an invoice under an earlier contract, voided or not. */
export function keysOf(contract: Contract, entries: readonly LedgerEntry[]): string[] {
  const earlier = earlierOf(contract, entries).filter((entry): entry is Invoice => entry.kind === 'invoice');
  const taken = new Set(byKey(earlier.sort(byIssue)).keys());
  return contract.stages.map(({ name }) => {
    const key = freeKey(name, taken);
    taken.add(key);
    return key;
  });
}

/** What invoices under an earlier contract take off each payment, the first one first. Whole minor units. */
export function earlierByStage(contract: Contract, entries: readonly LedgerEntry[]): number[] {
  let leftMinor = Math.max(0, totalOf(billedOf(earlierOf(contract, entries))));
  return contract.stages.map(({ amountMinor }) => {
    const takenMinor = Math.min(leftMinor, amountMinor);
    leftMinor -= takenMinor;
    return takenMinor;
  });
}

/** Standing invoices by the key of the payment they bill. Those stored without one bill the payments of their name in their order. */
function byKey(issued: readonly Invoice[]): Map<string, Invoice> {
  const found = new Map(issued.flatMap((invoice) => (invoice.key === undefined ? [] : [[invoice.key, invoice] as const])));
  for (const invoice of issued) if (invoice.key === undefined) found.set(freeKey(invoice.stageName, found), invoice);
  return found;
}

/** The standing invoice of a payment by its key. */
export function invoiceOf(entries: readonly LedgerEntry[], key: string): Invoice | undefined {
  return byKey(standingInvoices(entries)).get(key);
}

/**
 * Invoices not issued yet, in the order of the payments. The last one bills the rest of the contract, including change orders and rounding.
 * @param entries the job's entries
 */
export function invoicesToIssue(contract: Contract, entries: readonly LedgerEntry[], milestones: Milestones): InvoiceDraft[] {
  const issued = standingInvoices(entries);
  const billed = byKey(issued);
  const keys = keysOf(contract, entries);
  const earlier = earlierByStage(contract, entries);
  const open = contract.stages.flatMap((stage, i) =>
    billed.has(keys[i] ?? '') ? [] : [{ stage, key: keys[i] ?? '', amountMinor: stage.amountMinor - (earlier[i] ?? 0) }],
  );
  const drafts: InvoiceDraft[] = [];
  const before = billedOf(entries);
  const last = open.at(-1)?.stage;
  for (const { stage, key, amountMinor } of open) {
    const remainingMinor = contract.totalMinor - totalOf(before);
    const totalMinor = stage === last ? remainingMinor : Math.min(amountMinor, remainingMinor);
    if (totalMinor <= 0) continue;
    const amounts = amountsOf(contract, before, totalMinor);
    const purpose = stage === contract.stages.at(-1) ? 'final' : stage.due === 'on-acceptance' ? 'deposit' : 'stage';
    drafts.push({ ...amounts, key, purpose, stageName: stage.name, due: stage.due, isReady: isReady(stage.due, milestones) });
    before.push(amounts);
  }
  const restMinor = contract.totalMinor - totalOf(before);
  if (open.length === 0 && restMinor > 0) {
    const key = freeKey(null, billed);
    const amounts = amountsOf(contract, before, restMinor);
    drafts.push({ ...amounts, key, purpose: 'change-order', stageName: null, due: 'on-signature', isReady: true });
  }
  return drafts;
}

/** Only when a payment is ready depends on these. */
export const NOTHING_REACHED: Milestones = { accepted: false, poured: false, handedOver: false, thirtyDaysPast: false };

/**
 * The payments of a contract with what is paid with each; while the contract total is not below 0 they add up to it. One that is invoiced stays
 * as it was invoiced: what a later change order adds is in those still to be invoiced, as the order says. Where none is, it is in the last one.
 * What is invoiced beyond the contract comes off the last ones invoiced. What was invoiced under an earlier contract is in the first ones.
 * @param entries the job's entries
 */
export function stagesNow(contract: Contract, entries: readonly LedgerEntry[]): PaymentStage[] {
  const billed = byKey(standingInvoices(entries));
  const toIssue = new Map(invoicesToIssue(contract, entries, NOTHING_REACHED).map(({ key, totalMinor }) => [key, totalMinor]));
  const keys = keysOf(contract, entries);
  const earlier = earlierByStage(contract, entries);
  const amounts = keys.map((key, i) => (earlier[i] ?? 0) + (billed.get(key)?.totalMinor ?? toIssue.get(key) ?? 0));
  let overMinor = amounts.reduce((sum, minor) => sum + minor, 0) - contract.totalMinor;
  const lastFirst = [...keys.keys()].toReversed();
  const isBilled = (i: number): boolean => billed.has(keys[i] ?? '');
  const reduced = overMinor < 0 ? lastFirst : [...lastFirst.filter(isBilled), ...lastFirst.filter((i) => !isBilled(i))];
  for (const i of reduced) {
    const takenMinor = Math.min(overMinor, amounts[i] ?? 0);
    overMinor -= takenMinor;
    amounts[i] = (amounts[i] ?? 0) - takenMinor;
  }
  return contract.stages.map((stage, i) => ({ ...stage, amountMinor: amounts[i] ?? 0 }));
}

/**
 * The tax inside the next invoice. A rate's tax is billed in proportion to the contract billed so far, each running
 * total rounded once, so the last invoice completes every rate exactly. A rate that was billed and is not in the contract is given back.
 * The taxed amount is the nearest one whose tax at its rate, rounded, is the tax billed, on this invoice and on the rest of the contract.
 * @param before what is billed
 * @param totalMinor total of the next one, tax included
 */
export function amountsOf(contract: Contract, before: readonly Billed[], totalMinor: number): Billed {
  const upTo = totalOf(before) + totalMinor;
  const share = (minor: number): number =>
    contract.totalMinor === 0 ? 0 : roundHalfUp(over(times(exact(minor), exact(upTo)), exact(contract.totalMinor)));
  const due = contract.taxes.map((tax) => ({ ...tax, baseMinor: share(tax.baseMinor), taxMinor: share(tax.taxMinor) }));
  const shares = mergedTaxes([{ taxes: due }, ...before.map(negated)]);
  const left = mergedTaxes([contract, ...before.map(negated)]);
  const untaxedMinor = totalMinor - withTax(shares);
  const untaxedLeftMinor = contract.totalMinor - totalOf(before) - withTax(left);
  const taxes = shares
    .map((share, i) =>
      upTo === contract.totalMinor
        ? share
        : taxedPart(share, left[i] ?? share, { leastMinor: untaxedMinor - untaxedLeftMinor, mostMinor: untaxedMinor }),
    )
    .filter((tax) => tax.baseMinor !== 0 || tax.taxMinor !== 0);
  return { totalMinor, taxes, netMinor: totalMinor - taxes.reduce((sum, tax) => sum + tax.taxMinor, 0) };
}

const withTax = (taxes: readonly InvoiceTax[]): number => taxes.reduce((sum, { baseMinor, taxMinor }) => sum + baseMinor + taxMinor, 0);

/**
 * A part of a tax whose taxed amount times the rate is its tax, and so is that of the rest; else at least its own, else the share, on no more than the invoice comes to.
 * @param share the part in proportion
 * @param left what is to be billed of this tax, this part included
 * @param room how much less and more it may be, tax included: neither this invoice nor the rest is taxed on more than it comes to
 */
function taxedPart(
  share: InvoiceTax,
  left: InvoiceTax,
  { leastMinor, mostMinor }: { readonly leastMinor: number; readonly mostMinor: number },
): InvoiceTax {
  const exactLeftMinor = taxOf(left.baseMinor, share.rate);
  // Within this many minor units the tax goes through a whole one.
  const reach = share.rate === 0 ? 0 : Math.min(100, Math.ceil(1 / share.rate));
  let ownExact: InvoiceTax | null = null;
  for (let step = 0; step <= 2 * reach; step += 1) {
    const baseMinor = share.baseMinor + (step % 2 === 0 ? step : -step - 1) / 2;
    const taxMinor = taxOf(baseMinor, share.rate);
    const moreMinor = baseMinor + taxMinor - share.baseMinor - share.taxMinor;
    if (baseMinor <= 0 || baseMinor > left.baseMinor || moreMinor < leastMinor || moreMinor > mostMinor) continue;
    const exactPart = { ...share, baseMinor, taxMinor };
    if (taxMinor + taxOf(left.baseMinor - baseMinor, share.rate) === exactLeftMinor) return exactPart;
    ownExact ??= exactPart;
  }
  return ownExact ?? { ...share, baseMinor: share.baseMinor + Math.min(Math.max(0, leastMinor), mostMinor) };
}

/**
 * The next invoice number of a year: one past the highest ever given, voided ones included, so there is no gap.
 * @param invoices every invoice of the business as stored, those that cannot be read too: a number is never given twice
 */
export function nextInvoiceNumber(
  invoices: readonly Readonly<Record<string, unknown>>[],
  year: number,
): { serial: number; number: string } {
  const prefix = `INV-${year}-`;
  // Of a damaged row, the serial and the number each may be all that is left.
  const given = invoices.flatMap(({ serial, number }) => {
    if (typeof number !== 'string') return [serial];
    return number.startsWith(prefix) ? [serial, Number(number.slice(prefix.length))] : [];
  });
  const serial = 1 + Math.max(0, ...given.filter((one): one is number => Number.isSafeInteger(one)));
  return { serial, number: `${prefix}${String(serial).padStart(3, '0')}` };
}

/** Days to pay an invoice for which the quote names no day. Common practice, no source. */
const USUAL_DAYS = 14;

/**
 * The due day to propose for an invoice: the day it is issued, once what the quote or the change order names for the payment has happened, as
 * `at handover`; before that, the usual days later. `Before the pour` is due on the day of the pour, `30 days after handover` on that day.
 * @param onDay day it is issued, `2026-05-12`
 * @param days day of the first pour, and the thirtieth after the handover; null while it is not known
 */
export function proposedDueDay(
  draft: Pick<InvoiceDraft, 'due' | 'isReady'>,
  onDay: string,
  days: { readonly pour: string | null; readonly thirtyDays: string | null },
): string {
  const named = draft.due === 'before-pour' ? days.pour : draft.due === 'thirty-days' ? days.thirtyDays : null;
  if (named !== null) return named > onDay ? named : onDay;
  return draft.isReady && draft.due !== 'before-pour' ? onDay : addDaysToDay(onDay, USUAL_DAYS);
}

function isReady(due: PaymentStage['due'], milestones: Milestones): boolean {
  switch (due) {
    case 'on-acceptance':
    case 'before-pour':
      return milestones.accepted;
    case 'after-pour':
      return milestones.poured;
    case 'on-handover':
      return milestones.handedOver;
    case 'thirty-days':
      return milestones.thirtyDaysPast;
  }
}

const totalOf = (invoices: readonly Pick<Billed, 'totalMinor'>[]): number => invoices.reduce((sum, i) => sum + i.totalMinor, 0);
