/** The contract's amounts: the accepted quote and the signed change orders. */
import type { TaxTotal } from '../price/tax.ts';
import type { PaymentStage } from '../price/stages.ts';

/** One agreed amount: the accepted quote, or a signed change order (of either sign). */
export type Agreed = {
  readonly netMinor: number;
  readonly taxes: readonly TaxTotal[];
  readonly totalMinor: number;
};

/** The agreed total, whole minor units. */
export type Contract = Agreed & {
  readonly currency: string;
  /** The payments of the accepted quote; the last ones include the change orders. Adds up to `totalMinor` while that is positive. */
  readonly stages: readonly PaymentStage[];
  /** When its quote was issued: what was invoiced before, under a contract that was canceled, counts toward its payments in their order. */
  readonly quotedAt: string;
};

/**
 * Adds the signed change orders to the accepted quote.
 * @param base the accepted quote's price
 * @param orders signed change orders; a deduction is negative
 * @param quotedAt as in {@link Contract}; empty where nothing was invoiced before
 * @returns totals with one tax line per rate
 */
export function contractOf(base: Agreed & Pick<Contract, 'currency' | 'stages'>, orders: readonly Agreed[], quotedAt = ''): Contract {
  const all = [base, ...orders];
  return {
    quotedAt,
    currency: base.currency,
    stages: withOrders(
      base.stages,
      total(orders, (a) => a.totalMinor),
    ),
    netMinor: total(all, (a) => a.netMinor),
    taxes: mergedTaxes(all),
    totalMinor: total(all, (a) => a.totalMinor),
  };
}

/** Change orders go to the last payment; a deduction larger than it goes on to the one before. */
function withOrders(stages: readonly PaymentStage[], ordersMinor: number): PaymentStage[] {
  let remainingMinor = ordersMinor;
  return stages
    .toReversed()
    .map((stage) => {
      const amountMinor = Math.max(0, stage.amountMinor + remainingMinor);
      remainingMinor -= amountMinor - stage.amountMinor;
      return { ...stage, amountMinor };
    })
    .toReversed();
}

/** The taxes of several amounts, one for each rate. */
export function mergedTaxes(all: readonly Pick<Agreed, 'taxes'>[]): TaxTotal[] {
  const byKey = new Map<string, TaxTotal>();
  for (const tax of all.flatMap((a) => a.taxes)) {
    // A rate that changed between the quote and an order has its own line.
    const key = `${tax.taxId}/${tax.rate}`;
    const before = byKey.get(key);
    byKey.set(
      key,
      before === undefined ? tax : { ...before, baseMinor: before.baseMinor + tax.baseMinor, taxMinor: before.taxMinor + tax.taxMinor },
    );
  }
  return [...byKey.values()];
}

/** The sum of one amount of each item. */
export function total<T>(items: readonly T[], amount: (item: T) => number): number {
  return items.reduce((sum, item) => sum + amount(item), 0);
}
