/** The sales tax in a credit, by rate. */
import type { Credit, InvoiceTax, LedgerEntry } from '../book/ledger.ts';
import { exact, over, roundHalfUp, times } from '../price/exact.ts';
import { type Billed, billedOf, counts, negated, writtenOff } from './account.ts';
import { type Agreed, mergedTaxes, total } from './contract.ts';

/** The taxes in a part of an amount, each rounded once. */
export function taxesIn(partMinor: number, taxes: readonly InvoiceTax[], wholeMinor: number): InvoiceTax[] {
  const part = (minor: number): number =>
    wholeMinor === 0 ? 0 : roundHalfUp(over(times(exact(minor), exact(partMinor)), exact(wholeMinor)));
  return taxes
    .map((tax) => ({ ...tax, baseMinor: part(tax.baseMinor), taxMinor: part(tax.taxMinor) }))
    .filter((tax) => tax.baseMinor !== 0 || tax.taxMinor !== 0);
}

/** True for a credit of sales tax alone, voided or not, as for a customer who is exempt. */
export function isTaxCredit(entry: LedgerEntry): boolean {
  return entry.kind === 'credit' && entry.amountMinor === total(entry.taxes, ({ taxMinor }) => taxMinor);
}

/** What is billed of the invoice named, else of all, less the credits and write-offs for it. */
function leftOf(entries: readonly LedgerEntry[], invoiceId: string | null): Pick<Billed, 'taxes' | 'totalMinor'>[] {
  const named = entries.filter((entry) => entry.kind === 'invoice' && entry.id === invoiceId && counts(entry));
  const off = writtenOff(entries);
  const credits = entries.flatMap((entry) => {
    if ((entry.kind !== 'credit' && entry.kind !== 'write-off') || !counts(entry) || entry.forChangeOrders === true) return [];
    if (named.length > 0 && entry.invoiceId !== invoiceId) return [];
    const totalMinor = entry.kind === 'credit' ? entry.amountMinor : (off.get(entry.id) ?? 0);
    return [negated({ netMinor: 0, taxes: taxesIn(totalMinor, entry.taxes, entry.amountMinor), totalMinor })];
  });
  return [...billedOf(named.length === 0 ? entries : named), ...credits];
}

/** The sales tax billed of the invoice named, else of all, less that in credits and write-offs for it. Whole minor units. */
export function taxLeftMinor(entries: readonly LedgerEntry[], invoiceId: string | null): number {
  return total(mergedTaxes(leftOf(entries, invoiceId)), ({ taxMinor }) => taxMinor);
}

/**
 * The taxes in a credit or a write-off, in proportion to those left of the invoice it names, else of all that is billed, and never more.
 * @param entries the entries of one job
 * @param isTaxOnly all of the amount is sales tax, as where the customer is exempt: the taxed amount goes with it
 */
export function creditTaxes(
  entries: readonly LedgerEntry[],
  { amountMinor, invoiceId }: Pick<Credit, 'amountMinor' | 'invoiceId'>,
  isTaxOnly = false,
): InvoiceTax[] {
  const left = leftOf(entries, invoiceId);
  const taxes = mergedTaxes(left);
  const leftMinor = Math.max(0, isTaxOnly ? total(taxes, ({ taxMinor }) => taxMinor) : total(left, ({ totalMinor }) => totalMinor));
  return taxesIn(Math.min(amountMinor, leftMinor), taxes, leftMinor);
}

/**
 * The taxes in a credit for change orders: those billed beyond the contract's. A part of what is to be credited has its part of them.
 * @param entries the entries of one job
 */
export function orderCreditTaxes(contract: Agreed, entries: readonly LedgerEntry[], amountMinor: number): InvoiceTax[] {
  const beyond = [...billedOf(entries), negated(contract)];
  return taxesIn(
    amountMinor,
    mergedTaxes(beyond),
    total(beyond, ({ totalMinor }) => totalMinor),
  );
}
