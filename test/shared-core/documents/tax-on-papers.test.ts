/**
 * A printed base times its printed rate is the printed tax. Reference: big.js, rounded half up, as R.I. Gen. Laws § 44-18.1-25,
 * K.S.A. 79-3676 and Mass. G.L. c. 64I § 5 round sales tax: to the third decimal, and up where it is more than 4.
 */
import Big from 'big.js';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { changeOrderSheet } from '../../../shared-core/documents/change-order-sheet.ts';
import { invoicePaper } from '../../../shared-core/documents/money-papers.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { contractOf, total } from '../../../shared-core/ledger/contract.ts';
import { invoicesToIssue } from '../../../shared-core/ledger/next-invoice.ts';
import { payments } from '../../../shared-core/price/stages.ts';
import { taxOn } from '../../../shared-core/price/tax.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { sampleAt } from '../../sample-at.ts';
import { invoice } from '../ledger/entries.ts';
import { issue, NOW } from '../price/an-order.ts';
import { textOf } from './tree-text.ts';

const [job] = wholeJobsOf(sampleAt(NOW));
if (job === undefined) throw new Error('The sample has a job.');
const source = { ...job, now: NOW, today: NOW.slice(0, 10) };
const cents = (text = ''): number => Number(text.replace(/[$,.]/g, ''));

/** The rows of tax on a paper: those with a base have the tax that big.js finds. Returns how many have one, and how many have none. */
function checked(tree: DocumentTree): { withBase: number; without: number } {
  const rows = textOf(tree)
    .split('\n')
    .filter((row) => row.startsWith('Sales tax, '));
  const bases = rows.flatMap((row) => {
    const read = /^Sales tax, ([\d.]+)% of (-?\$[\d,.]+) \| (-?\$[\d,.]+)$/.exec(row);
    if (read === null) return [];
    const exactTax = new Big(read[1] ?? '').div(100).times(cents(read[2]));
    expect(exactTax.round(0, Big.roundHalfUp).eq(cents(read[3])), row).toBe(true);
    return [row];
  });
  return { withBase: bases.length, without: rows.length - bases.length };
}

/** Up to four decimals of a percent, as local rates have; and prices of lines, each for material or labor. */
const rateOf = fc.integer({ min: 5_000, max: 110_000 }).map((n) => n / 1_000_000);
const linesOf = fc.array(fc.record({ netMinor: fc.integer({ min: 1_000, max: 300_000 }), isLabor: fc.boolean() }), {
  minLength: 2,
  maxLength: 14,
});
const sharesOf = fc.constantFrom([0.3, 0.7], [0.1, 0.6, 0.3], [0.5, 0.4, 0.1], [1]);
type Priced = { readonly netMinor: number; readonly isLabor: boolean };

/** Every invoice of a contract as printed. */
function invoicesOf(lines: readonly Priced[], rate: number, shares: readonly number[], isLaborTaxed: boolean) {
  const taxes = [{ id: 'sales', name: 'Sales tax', rate }];
  const taxed = lines.map(({ netMinor, isLabor }) => ({ netMinor, taxId: isLabor && !isLaborTaxed ? null : 'sales' }));
  const { byRate, totalMinor: taxMinor } = taxOn(taxed, taxes, newBusiness(NOW, 'America/Denver', 'en-US').pricing.rounding);
  const netMinor = total(lines, (line) => line.netMinor);
  const totalMinor = netMinor + taxMinor;
  const asked = shares.map((share, i) => ({ name: `Payment ${i}`, share, due: 'after-pour' as const }));
  const { stages } = payments(totalMinor, asked, { depositShare: 0.3 });
  const contract = contractOf({ netMinor, taxes: byRate, totalMinor, currency: 'USD', stages }, []);
  const entries: LedgerEntry[] = [];
  const drafts = invoicesToIssue(contract, entries, { accepted: true, poured: true, handedOver: true, thirtyDaysPast: true });
  expect(total(drafts, (draft) => draft.totalMinor)).toBe(totalMinor);
  for (const part of ['baseMinor', 'taxMinor'] as const)
    expect(
      total(
        drafts.flatMap((draft) => draft.taxes),
        (tax) => tax[part],
      ),
    ).toBe(total(byRate, (tax) => tax[part]));
  return drafts.map(({ isReady: _, due: __, ...draft }, i) => {
    // Nothing is taxed beyond what the invoice comes to.
    expect(total(draft.taxes, (tax) => tax.baseMinor)).toBeLessThanOrEqual(draft.netMinor);
    return checked(invoicePaper(source, { ...invoice(`i${i}`, i + 1, draft.totalMinor), ...draft }, null));
  });
}

it('on every invoice of a contract that taxes the materials, each with its base', () => {
  fc.assert(
    fc.property(linesOf, rateOf, sharesOf, (lines, rate, shares) => {
      // Labor enough that the taxed amount of a payment can move by the cents that make its tax whole.
      const all = [...lines, { netMinor: 100_000, isLabor: true }, { netMinor: 60_000, isLabor: false }];
      for (const { without } of invoicesOf(all, rate, shares, false)) expect(without).toBe(0);
    }),
    { numRuns: 200 },
  );
});

it('on every invoice of a contract that taxes all of it: without a base where none has that tax', () => {
  let withBase = 0;
  fc.assert(
    fc.property(linesOf, rateOf, sharesOf, (lines, rate, shares) => {
      const papers = invoicesOf(lines, rate, shares, true);
      withBase += total(papers, (one) => one.withBase);
      // One invoice for the whole is the contract itself.
      if (shares.length === 1) expect(papers).toEqual([{ withBase: 1, without: 0 }]);
    }),
    { numRuns: 200 },
  );
  expect(withBase).toBeGreaterThan(0);
});

it('on a change order, whose tax is what the tax of the contract changes by', () => {
  const seen = { withBase: 0, without: 0 };
  fc.assert(
    fc.property(rateOf, fc.integer({ min: 1, max: 900_000 }), fc.integer({ min: 1, max: 900_000 }), (rate, was, now) => {
      const taxed = (netMinor: number) =>
        taxOn([{ netMinor, taxId: 'sales' }], [{ id: 'sales', name: 'Sales tax', rate }], 'rate').totalMinor;
      const [netMinor, taxMinor] = [now - was, taxed(now) - taxed(was)];
      const tax = { taxId: 'sales', name: 'Sales tax', rate, baseMinor: netMinor, taxMinor };
      const quote = issue({ netMinor, taxes: [tax], totalMinor: netMinor + taxMinor });
      const [order] = quote.orders;
      if (order === undefined) throw new Error('no order');
      const { withBase, without } = checked(changeOrderSheet({ quote, order, photos: [], ledger: [] }));
      expect(withBase + without).toBe(1);
      seen.withBase += withBase;
      seen.without += without;
    }),
    { numRuns: 40 },
  );
  expect(seen.withBase).toBeGreaterThan(0);
});
