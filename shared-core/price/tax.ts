/** Sales tax or value-added tax: one rate per line, rounded per rate or per line. */
import type { Pricing, TaxRate } from '../book/business.ts';
import { formatPercent } from '../measure/percent.ts';
import { exact, roundHalfUp, times } from './exact.ts';

/** A tax rate with up to four decimals of a percent, which local rates have: `8.1875%`. */
export function formatTaxRate(rate: number, locale: string): string {
  return formatPercent(rate, 4, locale);
}

/** A taxed amount and its rate's id (null is untaxed). */
export type Taxed = { readonly netMinor: number; readonly taxId: string | null };

/** One rate with its taxed total. */
export type TaxTotal = {
  readonly taxId: string;
  readonly name: string;
  readonly rate: number;
  readonly baseMinor: number;
  readonly taxMinor: number;
};

/**
 * The tax on an amount, rounded half up to the minor unit.
 * Source: R.I. Gen. Laws § 44-18.1-25, K.S.A. 79-3676, and Mass. G.L. c. 64I § 5 have one rule: carry the tax to the third decimal and
 * round up where it is more than 4; the seller chooses to compute on each item or on the invoice.
 */
export function taxOf(netMinor: number, rate: number): number {
  return roundHalfUp(times(exact(netMinor), exact(rate)));
}

/**
 * A tax as a row of a document names it: `Sales tax, 8.25% of $1,000.00`. Without the amount where the tax is not the rate of it to the
 * cent, as where each line was rounded, or in a part of a contract that has no such amount.
 * @param money formats whole minor units
 */
export function taxWords(
  { name, rate, baseMinor, taxMinor }: Omit<TaxTotal, 'taxId'>,
  money: (minor: number) => string,
  locale: string,
): string {
  const words = `${name}, ${formatTaxRate(rate, locale)}`;
  return taxOf(baseMinor, rate) === taxMinor ? `${words} of ${money(baseMinor)}` : words;
}

/**
 * The tax of each rate.
 * @param lines what is taxed; a negative net is a credit and is taxed as such
 * @param rates the business's rates; a line naming a rate that is not among them is listed in `unknown`
 * @param rounding `line`: each line's tax is rounded, a rate's is their sum. Otherwise a rate's tax is rounded once.
 * @returns one total a rate in use, in the order of the rates
 */
export function taxOn(
  lines: readonly Taxed[],
  rates: readonly TaxRate[],
  rounding: Pricing['rounding'],
): { byRate: TaxTotal[]; totalMinor: number; unknown: string[] } {
  const known = new Set(rates.map(({ id }) => id));
  const byRate = rates.flatMap(({ id, name, rate }) => {
    const taxed = lines.filter((line) => line.taxId === id).map((line) => line.netMinor);
    if (taxed.length === 0) return [];
    const baseMinor = taxed.reduce((sum, netMinor) => sum + netMinor, 0);
    const taxMinor = rounding === 'line' ? taxed.reduce((sum, netMinor) => sum + taxOf(netMinor, rate), 0) : taxOf(baseMinor, rate);
    return [{ taxId: id, name, rate, baseMinor, taxMinor }];
  });
  const unknown = lines.flatMap((line) => (line.taxId !== null && !known.has(line.taxId) ? [line.taxId] : []));
  return { byRate, totalMinor: byRate.reduce((sum, rate) => sum + rate.taxMinor, 0), unknown: [...new Set(unknown)] };
}
