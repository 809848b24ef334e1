import Big from 'big.js';
import { describe, expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { jobResult } from '../../../shared-core/ledger/job-result.ts';
import { yearTables } from '../../../shared-core/ledger/year-tables.ts';
import { credit, drive, hours, invoice, payment, purchase, refund } from './entries.ts';

const taxed = { taxes: [{ taxId: 't', name: 'Vermont', rate: 0.06, baseMinor: 100_000, taxMinor: 6_000 }], netMinor: 100_000 };
const ENTRIES: LedgerEntry[] = [
  invoice('i', 1, 106_000, taxed),
  payment('p', 53_000),
  payment('q', 53_000),
  refund('f', 10_600),
  credit('c', 'credit', 10_600),
  purchase('m', [21_350, 4_999]),
  purchase('s', [15_000], { category: 'Contract labor', supplier: 'Ines Calder' }),
  hours('h', 330, 6_500),
  hours('k', 90, 3_200, { who: 'Ines Calder', paidAs: 'contractor', task: 'Mixing' }),
  drive('d', 48.28032, 41.6),
];

describe('what a job earned', () => {
  it('is money received less purchases, hours at cost and drives, with the sales tax taken out', () => {
    const result = jobResult(ENTRIES);
    // By decimal arithmetic of a general library: received 954.00, 6/106 of it is tax.
    const tax = new Big('954').times(6).div(106).round(2, Big.roundHalfUp);
    expect(result.taxMinor).toBe(tax.times(100).toNumber());
    expect(result.laborMinor).toBe(new Big('65').times(5.5).plus(new Big('32').times(1.5)).times(100).toNumber());
    expect(result.drivesMinor).toBe(new Big('48.28032').times('41.6').round(0, Big.roundHalfUp).toNumber());
    expect(result.purchasesMinor).toBe(41_349);
    expect(result.profitMinor).toBe(result.incomeMinor - result.costMinor);
    expect(result.minutesByTask).toEqual([
      { task: 'Grinding', minutes: 330 },
      { task: 'Mixing', minutes: 90 },
    ]);
  });
});

describe('the year for the bookkeeper', () => {
  const tables = yearTables({
    entries: ENTRIES,
    from: '2026-01-01',
    to: '2026-12-31',
    job: () => ({ number: '26-004', customerName: 'Ola Brandt' }),
    unitKm: 1.609344,
    distanceUnit: 'mi',
  });
  const table = (name: string) => tables.find((t) => t.name === name)?.rows ?? [];

  it('adds income up to what was received less refunded', () => {
    expect(table('income').reduce((sum, row) => sum + Number(row[7]), 0)).toBe(95_400);
  });
  it('names sales tax by jurisdiction, mileage in the unit chosen, and pay by person', () => {
    expect(table('sales tax')[0]).toEqual(['Vermont', 0.06, 100_000, 6_000]);
    // 48.28032 km is 30 miles (1 mi = 1.609344 km, NIST SP 811).
    expect(table('mileage')[0]?.[3]).toBe(30);
    expect(table('contractor payments')).toEqual([['Ines Calder', 19_800]]);
  });
  it('leaves out what lies outside the period', () => {
    const q2 = yearTables({
      entries: ENTRIES,
      from: '2026-04-01',
      to: '2026-06-30',
      job: () => ({ number: '', customerName: '' }),
      unitKm: 1,
      distanceUnit: 'km',
    });
    expect(q2.filter((t) => t.name !== 'unpaid invoices').flatMap((t) => t.rows)).toEqual([]);
  });
});
