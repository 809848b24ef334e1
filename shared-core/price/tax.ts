/** Sales tax or value-added tax: one rate per line, rounded per line or per rate. */
import type { Pricing, TaxRate } from '../book/business.ts';
import { exact, roundHalfUp, times, type Exact } from './exact.ts';

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
 * The tax on each line and on each rate.
 * @param lines what is taxed; a negative net is a credit and is taxed as such
 * @param rates the business's rates; a line naming a rate that is not among them is listed in `unknown`
 * @param rounding `line`: each line's tax is rounded, a rate's is their sum. `total`: a rate's tax is rounded once.
 * @returns one total a rate in use, in the order of the rates; `lineTaxMinor` is null by line when rounding by total.
 */
export function taxOn(
  lines: readonly Taxed[],
  rates: readonly TaxRate[],
  rounding: Pricing['rounding'],
): { byRate: TaxTotal[]; lineTaxMinor: (number | null)[]; totalMinor: number; unknown: string[] } {
  const known = new Map(rates.map((rate) => [rate.id, rate]));
  const byLine = lines.map((line) => {
    const rate = line.taxId === null ? undefined : known.get(line.taxId);
    return rate === undefined ? 0 : roundHalfUp(exactTax(line.netMinor, rate.rate));
  });
  const byRate = rates.flatMap((rate) => {
    const taxedLines = lines.flatMap((line, index) =>
      line.taxId === rate.id ? [{ netMinor: line.netMinor, taxMinor: byLine[index] ?? 0 }] : [],
    );
    if (taxedLines.length === 0) return [];
    const baseMinor = taxedLines.reduce((sum, line) => sum + line.netMinor, 0);
    const summed = taxedLines.reduce((sum, line) => sum + line.taxMinor, 0);
    const taxMinor = rounding === 'line' ? summed : roundHalfUp(exactTax(baseMinor, rate.rate));
    return [{ taxId: rate.id, name: rate.name, rate: rate.rate, baseMinor, taxMinor }];
  });
  const unknown = lines.flatMap((line) => (line.taxId !== null && !known.has(line.taxId) ? [line.taxId] : []));
  return {
    byRate,
    lineTaxMinor: byLine.map((tax) => (rounding === 'line' ? tax : null)),
    totalMinor: byRate.reduce((sum, rate) => sum + rate.taxMinor, 0),
    unknown: [...new Set(unknown)],
  };
}

function exactTax(netMinor: number, rate: number): Exact {
  return times(exact(netMinor), exact(rate));
}
