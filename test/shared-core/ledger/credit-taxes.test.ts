/** Sales tax inside a credit, what becomes of a credit for change orders, and interest on what is late: by hand. */
import { describe, expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { type Contract, contractOf } from '../../../shared-core/ledger/contract.ts';
import { creditTaxes, orderCreditTaxes, taxLeftMinor } from '../../../shared-core/ledger/credit-taxes.ts';
import { lateChargeDraft, lateChargeMinor } from '../../../shared-core/ledger/late-charge.ts';
import { invoicesToIssue, NOTHING_REACHED } from '../../../shared-core/ledger/next-invoice.ts';
import { accountOf, taxReceivedMinor } from '../../../shared-core/ledger/account.ts';
import { creditsVoidedWith, overInvoicedMinor, stillToPayMinor } from '../../../shared-core/ledger/job-contract.ts';
import { credit, invoice, orderCredit, payment } from './entries.ts';

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

  it('are all of a credit for sales tax alone, after which none is left', () => {
    // 160.00 of tax on 2,000.00 of materials; half of it is half of them. By hand.
    const amounts = { amountMinor: 16_000, invoiceId: null };
    expect(taxLeftMinor(billed, null)).toBe(16_000);
    expect(creditTaxes(billed, amounts, true)).toEqual([tax(200_000)]);
    expect(creditTaxes(billed, { ...amounts, amountMinor: 8_000 }, true)).toEqual([tax(100_000)]);
    const exempt = [...billed, { ...credit('c', 'credit', 16_000), taxes: [tax(200_000)] }];
    expect(taxLeftMinor(exempt, null)).toBe(0);
    // What is credited later has no tax left to give back, and what is paid has none in it.
    expect(creditTaxes(exempt, { amountMinor: 51_600, invoiceId: null })).toEqual([]);
    expect(taxReceivedMinor([...exempt, payment('p', 500_000)])).toBe(0);
  });
});

describe('the tax that is left', () => {
  // 1,070.00 with 70.00 of tax. By hand.
  const seven = (baseMinor: number) => ({ taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor, taxMinor: (baseMinor * 7) / 100 });
  const bill = invoice('i', 1, 107_000, { netMinor: 100_000, taxes: [seven(100_000)] });

  it('is the most that a larger credit takes', () => {
    const most = { ...credit('c', 'credit', 96_300), taxes: [seven(90_000)] };
    expect(creditTaxes([bill, most], { amountMinor: 50_000, invoiceId: null })).toEqual([seven(10_000)]);
    const all = { ...credit('c', 'credit', 120_000), taxes: [seven(100_000)] };
    expect(creditTaxes([bill, all], { amountMinor: 50_000, invoiceId: null })).toEqual([]);
  });

  it('is in a part payment what it is of the invoice that is paid, whichever a credit settles', () => {
    // Beside 1,000.00 without tax, which is due first. Of 107.00 credited for the other one, 7.00 is tax; so it is of 207.00 for both.
    const untaxed = invoice('a', 2, 100_000, { dueOn: '2026-03-10' });
    const taxes = [seven(10_000)];
    for (const given of [credit('c', 'credit', 10_700, 'i'), credit('c', 'credit', 20_700)]) {
      const received = (...paid: LedgerEntry[]) => taxReceivedMinor([untaxed, bill, { ...given, taxes }, ...paid]);
      expect(received(payment('p', 107_000, 'i'))).toBe(6_300);
      expect(received(payment('p', 50_000, 'a'))).toBe(0);
      expect(received(payment('p', 107_000, 'i'), payment('q', 50_000))).toBe(6_300);
      expect(received(payment('p', 107_000, 'i'), payment('q', 100_000))).toBe(6_300);
    }
  });

  it('has that of a write-off again once it is paid after all', () => {
    const off = [bill, payment('p', 96_300), { ...credit('w', 'write-off', 10_700, 'i'), taxes: [seven(10_000)] }];
    expect(taxLeftMinor(off, 'i')).toBe(6_300);
    expect(taxLeftMinor([...off, payment('q', 10_700)], 'i')).toBe(7_000);
  });
});

describe('a credit for change orders', () => {
  // 1,000.00 in halves, before the pour and at the handover: both invoiced, then 600.00 less by a signed order. By hand.
  const half = { share: 0.5, amountMinor: 50_000 };
  const stages = [
    { ...half, name: 'Progress', due: 'before-pour' as const },
    { ...half, name: 'Final', due: 'on-handover' as const },
  ];
  const base = { netMinor: 100_000, taxes: [], totalMinor: 100_000, currency: 'USD', stages };
  const contract = contractOf(base, [{ netMinor: -60_000, taxes: [], totalMinor: -60_000 }]);
  const progress = invoice('a', 1, 50_000, { stageName: 'Progress' });
  const toIssue = (entries: readonly LedgerEntry[]) =>
    invoicesToIssue(contract, entries, NOTHING_REACHED).map(({ stageName, totalMinor }) => [stageName, totalMinor]);

  it('is voided with the invoice that was too large, which is issued again as the order says', () => {
    const entries = [progress, orderCredit('c', 10_000)];
    const credits = creditsVoidedWith(progress, contract, entries);
    expect(credits.map(({ id }) => id)).toEqual(['c']);
    // The order leaves 400.00, all of it before the pour.
    expect(toIssue([])).toEqual([['Progress', 40_000]]);
    // With the credit left standing, 100.00 of it would be asked for at the handover.
    expect(toIssue(entries.slice(1))).toEqual([
      ['Progress', 40_000],
      ['Final', 10_000],
    ]);
  });

  it('stays where as much is billed as the contract total without that invoice', () => {
    const final = invoice('b', 2, 50_000, { stageName: 'Final', createdAt: '2026-03-04T15:00:00Z' });
    // 500.00 is billed of 400.00 without the last invoice: of 600.00 in credits, 100.00 is still to be given.
    const parts = [progress, final, orderCredit('c', 10_000), orderCredit('d', 50_000, { createdAt: '2026-03-05T15:00:00Z' })];
    expect(creditsVoidedWith(final, contract, parts).map(({ id }) => id)).toEqual(['d']);
    const whole = [progress, final, orderCredit('c', 60_000)];
    expect(creditsVoidedWith(final, contract, whole).map(({ id }) => id)).toEqual(['c']);
    expect(overInvoicedMinor(contract, accountOf([progress], '2026-05-12'))).toBe(10_000);
    // 1,100.00 billed of 400.00 with 600.00 credited: without the 100.00 of the third invoice, nothing is to be credited or billed.
    const third = invoice('e', 3, 10_000);
    expect(creditsVoidedWith(third, contract, [...whole, third])).toEqual([]);
    // None is left of a contract that was canceled, and no other entry takes a credit with it.
    expect(creditsVoidedWith(final, null, parts).map(({ id }) => id)).toEqual(['d', 'c']);
    expect(creditsVoidedWith(payment('p', 50_000), null, parts)).toEqual([]);
  });
});

describe('credits and write-offs of a voided invoice', () => {
  // 6,000.00 in two payments of 3,000.00. By hand.
  const half = { share: 0.5, amountMinor: 300_000 };
  const stages = [
    { ...half, name: 'Progress', due: 'before-pour' as const },
    { ...half, name: 'Final', due: 'on-handover' as const },
  ];
  const contract = contractOf({ netMinor: 600_000, taxes: [], totalMinor: 600_000, currency: 'USD', stages }, []);
  const [progress, final] = [invoice('a', 1, 300_000, { stageName: 'Progress' }), invoice('b', 2, 300_000, { stageName: 'Final' })];
  const voided = (entries: readonly LedgerEntry[], of: Contract | null = contract) => {
    const ids = creditsVoidedWith(progress, of, entries).map(({ id }) => id);
    const at = '2026-04-01T15:00:00Z';
    const after = entries.map((entry) => (entry === progress || ids.includes(entry.id) ? { ...entry, voidedAt: at } : entry));
    return [ids, accountOf(after, '2026-05-12').onAccountMinor];
  };

  it('are voided with it, so that no balance appears that was never paid', () => {
    const [off, given] = [credit('w', 'write-off', 200_000, 'a'), credit('g', 'credit', 100_000, 'a')];
    expect(voided([progress, off, given])).toEqual([['w', 'g'], 0]);
    // What was paid belongs to the customer.
    expect(voided([progress, off, payment('p', 100_000, 'a')])).toEqual([['w'], 100_000]);
    // Those for another invoice, or for none while another stands, still count; one that was voided before is not voided again.
    const others = [credit('o', 'write-off', 100_000, 'b'), credit('n', 'credit', 100_000)];
    expect(voided([progress, final, off, ...others])).toEqual([['w'], 0]);
    expect(voided([progress, { ...off, voidedAt: '2026-03-20T15:00:00Z' }])).toEqual([[], 0]);
  });

  it('are voided where the invoices left are paid without them, the newest first', () => {
    // The other 3,000.00 are paid, and 2,000.00 of the invoice that is voided: those 2,000.00 belong to the customer, and no more.
    const later = { createdAt: '2026-03-03T15:00:00Z' };
    for (const kind of ['credit', 'write-off'] as const) {
      const paid = [progress, final, payment('p', 300_000, 'b'), credit('o', kind, 100_000), payment('q', 200_000)];
      for (const of of [contract, null]) expect(voided(paid, of)).toEqual([['o'], 200_000]);
      // Of 3,000.00, 1,000.00 are open without credits: one of two credits is enough.
      const open = [progress, final, payment('p', 200_000, 'b'), credit('o', kind, 100_000), { ...credit('n', kind, 100_000), ...later }];
      expect(voided(open)).toEqual([['n'], 0]);
      // The write-off for the invoice that is voided leaves the other 1,000.00 open.
      expect(voided([...open.slice(0, 4), credit('w', 'write-off', 200_000, 'a')])).toEqual([['w'], 0]);
    }
  });

  it('are all voided with the last invoice, whatever they were for', () => {
    const standing = [progress, { ...final, voidedAt: '2026-03-20T15:00:00Z' }, credit('n', 'write-off', 300_000)];
    expect([voided(standing), voided(standing, null)]).toEqual([
      [['n'], 0],
      [['n'], 0],
    ]);
    // An order that takes all of the work off leaves a contract of 0.00, and nothing to invoice again.
    const nothing = contractOf({ ...contract, totalMinor: 300_000 }, [{ netMinor: -300_000, taxes: [], totalMinor: -300_000 }]);
    expect(voided([progress, orderCredit('d', 300_000)], nothing)).toEqual([['d'], 0]);
  });
});

describe('a late charge', () => {
  it('is simple interest by the day after the days of grace', () => {
    // 1,000.00 at 1.5% for each 30 days, 20 days after 10 days of grace: 1000 × 0.015 × 20 / 30 = 10.00, by hand.
    expect(lateChargeMinor(100_000, 30, { monthShare: 0.015, graceDays: 10 })).toBe(1_000);
    expect(lateChargeMinor(100_000, 10, { monthShare: 0.015, graceDays: 10 })).toBe(0);
  });

  // 1,000.00 due on April 1, at 1.5% for each 30 days: 15.00 on May 1, and 30.00 on May 31. By hand.
  const stage = { name: 'Final', share: 1, due: 'on-handover' as const, amountMinor: 150_000 };
  const contract = contractOf({ netMinor: 150_000, taxes: [], totalMinor: 150_000, currency: 'USD', stages: [stage] }, []);
  const bill = invoice('i', 1, 100_000, { dueOn: '2026-04-01' });
  const charge = (entries: readonly LedgerEntry[], today: string, id = 'i', share: number | null = 0.015) => {
    const balance = accountOf(entries, today).invoices.find(({ invoice: { id: own } }) => own === id);
    return balance === undefined ? null : (lateChargeDraft(balance, entries, today, share)?.totalMinor ?? null);
  };
  const late = invoice('late', 2, 1_500, { dueOn: '2026-05-01', lateFor: 'i', purpose: 'other' });

  it('is billed once, without interest on it, and only where the contract has one', () => {
    expect([charge([bill], '2026-04-01'), charge([bill], '2026-05-01'), charge([bill], '2026-05-01', 'i', null)]).toEqual([
      null,
      1_500,
      null,
    ]);
    expect([charge([bill, late], '2026-05-01'), charge([bill, late], '2026-05-31'), charge([bill, late], '2026-05-31', 'late')]).toEqual([
      null,
      1_500,
      null,
    ]);
    expect(charge([bill, { ...late, voidedAt: '2026-05-02T15:00:00Z' }], '2026-05-31')).toBe(3_000);
  });

  it('is owed beside the contract, which is billed in full as before', () => {
    const entries = [bill, late];
    expect(invoicesToIssue(contract, entries, NOTHING_REACHED)).toEqual(invoicesToIssue(contract, [bill], NOTHING_REACHED));
    const account = accountOf(entries, '2026-05-31');
    expect([account.openMinor, account.lateChargesMinor, overInvoicedMinor(contract, account)]).toEqual([101_500, 1_500, 0]);
    expect(stillToPayMinor(contract, account)).toBe(151_500);
    expect(creditsVoidedWith(late, contract, [...entries, orderCredit('c', 10_000)])).toEqual([]);
  });
});
