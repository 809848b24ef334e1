/** The invoices not issued yet, in amounts that add up exactly to the contract. */
import type { Invoice, InvoiceTax, LedgerEntry } from '../book/ledger.ts';
import { exact, over, roundHalfUp, times } from '../price/exact.ts';
import type { PaymentStage } from '../price/stages.ts';
import { byIssue, counts } from './account.ts';
import type { Contract } from './contract.ts';

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
export type InvoiceDraft = Pick<Invoice, 'purpose' | 'stageName' | 'netMinor' | 'taxes' | 'totalMinor'> & {
  /** Tells the payments of a job apart, whatever their names; as in `invoiceOf`. */
  readonly key: string;
  /** True once the event that makes the payment due has happened. */
  readonly isReady: boolean;
  readonly due: PaymentStage['due'];
};

/** Invoices of a job that count, in the order they were issued. */
export function standingInvoices(entries: readonly LedgerEntry[]): Invoice[] {
  return entries.filter((e): e is Invoice => e.kind === 'invoice' && counts(e)).sort(byIssue);
}

/** A key for each name in a list: the name, and from its second time on a number too. Null is for change orders. */
function keysOf(names: readonly (string | null)[]): string[] {
  const times = new Map<string, number>();
  return names.map((name) => {
    const key = name ?? 'change-orders';
    const time = (times.get(key) ?? 0) + 1;
    times.set(key, time);
    return time === 1 ? key : `${key}/${time}`;
  });
}

/** The issued invoice of a payment by its key. Invoices of one name bill the payments of that name in their order. */
export function invoiceOf(entries: readonly LedgerEntry[], key: string): Invoice | undefined {
  const issued = standingInvoices(entries);
  return issued[keysOf(issued.map(({ stageName }) => stageName)).indexOf(key)];
}

/**
 * Invoices not issued yet, in the order of the payments. The last one bills the rest of the contract, including change orders and rounding.
 * @param entries the job's entries
 */
export function invoicesToIssue(contract: Contract, entries: readonly LedgerEntry[], milestones: Milestones): InvoiceDraft[] {
  const issued = standingInvoices(entries);
  const names = issued.map(({ stageName }) => stageName);
  const billed = new Set(keysOf(names));
  const keys = keysOf(contract.stages.map(({ name }) => name));
  const open = contract.stages.flatMap((stage, i) => (billed.has(keys[i] ?? '') ? [] : [{ stage, key: keys[i] ?? '' }]));
  const drafts: InvoiceDraft[] = [];
  const before = [...issued] as Pick<Invoice, 'totalMinor' | 'taxes'>[];
  const last = open.at(-1)?.stage;
  for (const { stage, key } of open) {
    const remainingMinor = contract.totalMinor - totalOf(before);
    const totalMinor = stage === last ? remainingMinor : Math.min(stage.amountMinor, remainingMinor);
    if (totalMinor <= 0) continue;
    const amounts = amountsOf(contract, before, totalMinor);
    const purpose = stage === contract.stages.at(-1) ? 'final' : stage.due === 'on-acceptance' ? 'deposit' : 'stage';
    drafts.push({ ...amounts, key, purpose, stageName: stage.name, due: stage.due, isReady: isReady(stage.due, milestones) });
    before.push(amounts);
  }
  const restMinor = contract.totalMinor - totalOf(before);
  if (open.length === 0 && restMinor > 0) {
    const key = keysOf([...names, null]).at(-1) ?? '';
    const amounts = amountsOf(contract, before, restMinor);
    drafts.push({ ...amounts, key, purpose: 'change-order', stageName: null, due: 'on-handover', isReady: true });
  }
  return drafts;
}

/**
 * The tax inside the next invoice. A rate's tax is billed in proportion to the contract billed so far, each running
 * total rounded once, so the last invoice completes every rate exactly.
 * @param before invoices that count
 * @param totalMinor total of the next one, tax included
 */
export function amountsOf(
  contract: Contract,
  before: readonly Pick<Invoice, 'totalMinor' | 'taxes'>[],
  totalMinor: number,
): Pick<Invoice, 'netMinor' | 'taxes' | 'totalMinor'> {
  const upTo = totalOf(before) + totalMinor;
  const share = (minor: number): number =>
    contract.totalMinor === 0 ? 0 : roundHalfUp(over(times(exact(minor), exact(upTo)), exact(contract.totalMinor)));
  const invoicedTax = (tax: { taxId: string; rate: number }, amount: 'taxMinor' | 'baseMinor'): number =>
    before.flatMap((i) => i.taxes).reduce((sum, t) => (t.taxId === tax.taxId && t.rate === tax.rate ? sum + t[amount] : sum), 0);
  const taxes: InvoiceTax[] = contract.taxes.map((tax) => ({
    taxId: tax.taxId,
    name: tax.name,
    rate: tax.rate,
    baseMinor: share(tax.baseMinor) - invoicedTax(tax, 'baseMinor'),
    taxMinor: share(tax.taxMinor) - invoicedTax(tax, 'taxMinor'),
  }));
  return { totalMinor, taxes, netMinor: totalMinor - taxes.reduce((sum, tax) => sum + tax.taxMinor, 0) };
}

/**
 * The next invoice number of a year: one past the highest ever given, voided ones included, so there is no gap.
 * @param invoices every invoice of the business
 */
export function nextInvoiceNumber(
  invoices: readonly Pick<Invoice, 'serial' | 'number'>[],
  year: number,
): { serial: number; number: string } {
  const prefix = `INV-${year}-`;
  const serial = 1 + Math.max(0, ...invoices.filter((i) => i.number.startsWith(prefix)).map((i) => i.serial));
  return { serial, number: `${prefix}${String(serial).padStart(3, '0')}` };
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

const totalOf = (invoices: readonly Pick<Invoice, 'totalMinor'>[]): number => invoices.reduce((sum, i) => sum + i.totalMinor, 0);
