/** Sales tax inside a credit, and interest on what is late: by hand. */
import { describe, expect, it } from 'vitest';
import { contractOf } from '../../../shared-core/ledger/contract.ts';
import { creditTaxes, orderCreditTaxes } from '../../../shared-core/ledger/credit-taxes.ts';
import { lateChargeMinor } from '../../../shared-core/ledger/late-charge.ts';
import { invoice } from './entries.ts';

describe('the taxes of a credit', () => {
  // 2,000.00 of materials at 8% and 3,000.00 of labor without tax.
  const tax = (baseMinor: number) => ({ taxId: 't', name: 'Sales tax', rate: 0.08, baseMinor, taxMinor: baseMinor * 0.08 });
  const billed = [invoice('i', 1, 516_000, { netMinor: 500_000, taxes: [tax(200_000)] })];
  const base = { netMinor: 500_000, taxes: [tax(200_000)], totalMinor: 516_000, currency: 'USD', stages: [] };

  it('for change orders are those the order states', () => {
    // 500.00 of materials with 40.00 of tax is taken off. By hand.
    const contract = contractOf(base, [{ netMinor: -50_000, taxes: [tax(-50_000)], totalMinor: -54_000 }]);
    expect(orderCreditTaxes(contract, billed, 54_000)).toEqual([tax(50_000)]);
    // Labor alone is taken off: no tax is given back.
    expect(orderCreditTaxes(contractOf(base, [{ netMinor: -50_000, taxes: [], totalMinor: -50_000 }]), billed, 50_000)).toEqual([]);
    // Less labor and more material: the tax on the material is owed.
    const more = contractOf(base, [{ netMinor: -50_000, taxes: [tax(10_000)], totalMinor: -49_200 }]);
    expect(orderCreditTaxes(more, billed, 49_200)).toEqual([tax(-10_000)]);
  });

  it('beside the contract are in proportion to what is billed', () => {
    // 516.00 is a tenth of the invoice, with a tenth of its tax. By hand.
    expect(creditTaxes(billed, { amountMinor: 51_600, invoiceId: null })).toEqual([tax(20_000)]);
    const untaxed = invoice('j', 2, 100_000);
    expect(creditTaxes([...billed, untaxed], { amountMinor: 51_600, invoiceId: 'j' })).toEqual([]);
  });
});

describe('a late charge', () => {
  it('is simple interest by the day after the days of grace', () => {
    // 1,000.00 at 1.5% for each 30 days, 20 days after 10 days of grace: 1000 × 0.015 × 20 / 30 = 10.00, by hand.
    expect(lateChargeMinor(100_000, 30, { monthShare: 0.015, graceDays: 10 })).toBe(1_000);
    expect(lateChargeMinor(100_000, 10, { monthShare: 0.015, graceDays: 10 })).toBe(0);
  });
});
