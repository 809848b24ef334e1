/** Sales tax or value-added tax: one rate per line, rounded per line or per rate. */
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
 * The tax of each rate.
 * @param lines what is taxed; a negative net is a credit and is taxed as such
 * @param rates the business's rates; a line naming a rate that is not among them is listed in `unknown`
 * @param rounding `line`: each line's tax is rounded, a rate's is their sum. `total`: a rate's tax is rounded once.
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
    const taxOf = (netMinor: number): number => roundHalfUp(times(exact(netMinor), exact(rate)));
    const baseMinor = taxed.reduce((sum, netMinor) => sum + netMinor, 0);
    const taxMinor = rounding === 'line' ? taxed.reduce((sum, netMinor) => sum + taxOf(netMinor), 0) : taxOf(baseMinor);
    return [{ taxId: id, name, rate, baseMinor, taxMinor }];
  });
  const unknown = lines.flatMap((line) => (line.taxId !== null && !known.has(line.taxId) ? [line.taxId] : []));
  return { byRate, totalMinor: byRate.reduce((sum, rate) => sum + rate.taxMinor, 0), unknown: [...new Set(unknown)] };
}
