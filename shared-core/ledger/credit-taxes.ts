/** The sales tax in a credit, by rate. */
import type { Credit, InvoiceTax, LedgerEntry } from '../book/ledger.ts';
import { exact, over, roundHalfUp, times } from '../price/exact.ts';
import { billedOf, counts, negated } from './account.ts';
import { type Agreed, mergedTaxes } from './contract.ts';

/** The taxes in a part of an amount, each rounded once. */
function taxesIn(partMinor: number, taxes: readonly InvoiceTax[], wholeMinor: number): InvoiceTax[] {
  const part = (minor: number): number =>
    wholeMinor === 0 ? 0 : roundHalfUp(over(times(exact(minor), exact(partMinor)), exact(wholeMinor)));
  return taxes
    .map((tax) => ({ ...tax, baseMinor: part(tax.baseMinor), taxMinor: part(tax.taxMinor) }))
    .filter((tax) => tax.baseMinor !== 0 || tax.taxMinor !== 0);
}

/**
 * The taxes in a credit or a write-off, in proportion to those of the invoice it names, else of all that is billed.
 * @param entries the entries of one job
 */
export function creditTaxes(
  entries: readonly LedgerEntry[],
  { amountMinor, invoiceId }: Pick<Credit, 'amountMinor' | 'invoiceId'>,
): InvoiceTax[] {
  const named = entries.filter((entry) => entry.kind === 'invoice' && entry.id === invoiceId && counts(entry));
  const billed = billedOf(named.length === 0 ? entries : named);
  const billedMinor = billed.reduce((sum, { totalMinor }) => sum + totalMinor, 0);
  return taxesIn(amountMinor, mergedTaxes(billed), billedMinor);
}

/**
 * The taxes in a credit for change orders: those billed beyond the contract's. A part of what is to be credited has its part of them.
 * @param entries the entries of one job
 */
export function orderCreditTaxes(contract: Agreed, entries: readonly LedgerEntry[], amountMinor: number): InvoiceTax[] {
  const beyond = [...billedOf(entries), negated(contract)];
  const beyondMinor = beyond.reduce((sum, { totalMinor }) => sum + totalMinor, 0);
  return taxesIn(amountMinor, mergedTaxes(beyond), beyondMinor);
}
