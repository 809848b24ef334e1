import Big from 'big.js';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { LedgerEntry, PaymentMethod } from '../../../shared-core/book/ledger.ts';
import { dataCsv } from '../../../shared-core/documents/lists/data-table.ts';
import { sampleAt } from '../../sample-at.ts';
import { jobResult } from '../../../shared-core/ledger/job-result.ts';
import { receiptFiles, yearIndexCsv, yearLists } from '../../../shared-core/documents/lists/year-lists.ts';
import { credit, drive, hours, invoice, orderCredit, payment, purchase, refund } from '../ledger/entries.ts';

const VERMONT = { taxId: 't', name: 'Vermont', rate: 0.06, baseMinor: 100_000, taxMinor: 6_000 };
const taxed = { taxes: [VERMONT], netMinor: 100_000 };
const ENTRIES: LedgerEntry[] = [
  invoice('i', 1, 106_000, taxed),
  payment('p', 53_000),
  payment('q', 53_000),
  refund('f', 10_600),
  credit('c', 'credit', 10_600),
  purchase('m', [21_350, 4_999]),
  purchase('s', [15_000], { category: 'Contract labor', supplier: 'Ines Calder', method: 'check' }),
  hours('h', 330, 6_500),
  hours('k', 90, 3_200, { who: 'Ines Calder', paidAs: 'contractor', task: 'Mixing' }),
  drive('d', 48.28032, 41.6),
];

describe('what a job earned', () => {
  it('is money received less purchases, hours at cost and drives, with sales tax excluded', () => {
    const result = jobResult(ENTRIES);
    // By decimal arithmetic of a general library: received 954.00, of which 6/106 is tax.
    const tax = new Big('954').times(6).div(106).round(2, Big.roundHalfUp);
    expect(result.taxMinor).toBe(tax.times(100).toNumber());
    expect(result.laborMinor).toBe(new Big('65').times(5.5).plus(new Big('32').times(1.5)).times(100).toNumber());
    expect(result.drivesMinor).toBe(new Big('48.28032').times('41.6').round(0, Big.roundHalfUp).toNumber());
    expect(result.purchasesMinor).toBe(41_349);
    expect(result.profitMinor).toBe(result.incomeMinor - result.costMinor);
  });
});

describe('the year for the bookkeeper', () => {
  const tables = yearLists({
    entries: ENTRIES,
    from: '2026-01-01',
    to: '2026-12-31',
    job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
    unitKm: 1.609344,
    distanceUnit: 'mi',
    currency: 'USD',
  });
  const table = (name: string) => [...(tables.find((t) => t.name === name)?.rows ?? [])];

  it('adds income up to what was received less refunded', () => {
    expect(table('income').reduce((sum, row) => sum + Number(row[7]), 0)).toBe(954);
  });
  it('names sales tax by jurisdiction, mileage in the chosen unit, and pay by person', () => {
    expect(table('sales tax')[0]).toEqual(['Vermont', 0.06, '1000.00', '60.00']);
    // 48.28032 km is 30 miles (1 mi = 1.609344 km, NIST SP 811).
    expect(table('mileage')[0]?.[3]).toBe(30);
    expect(table('contractor payments')).toEqual([['Ines Calder', '198.00']]);
  });
  it('leaves card payments to contractors out, which the processor reports (IRS, Forms 1099-MISC and 1099-NEC, from memory)', () => {
    const pay = (method: PaymentMethod, amount: number) =>
      purchase(method, [amount], { category: 'Contract labor', supplier: 'Ines Calder', method });
    const list = yearLists({
      entries: [pay('check', 10_000), pay('card', 20_000), pay('transfer', 40_000)],
      ...{ from: '2026-01-01', to: '2026-12-31', unitKm: 1, distanceUnit: 'km', currency: 'USD' },
      job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
    }).find(({ name }) => name === 'contractor payments');
    expect([...(list?.rows ?? [])]).toEqual([['Ines Calder', '500.00']]);
    expect(list?.about).toContain('Card payments are left out');
  });
  it('takes the tax of a credit or a write-off off what was invoiced for that job', () => {
    const taxOf = (...more: readonly LedgerEntry[]) =>
      yearLists({
        entries: [invoice('i', 1, 106_000, taxed), payment('p', 106_000), ...more],
        from: '2026-01-01',
        to: '2026-12-31',
        job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
        unitKm: 1,
        distanceUnit: 'km',
        currency: 'USD',
      }).find((t) => t.name === 'sales tax')?.rows;
    const credited = (kind: 'credit' | 'write-off', of: object = {}): LedgerEntry => ({
      ...credit('c', kind, 10_600),
      taxes: [{ ...VERMONT, baseMinor: 10_000, taxMinor: 600 }],
      ...of,
    });
    // 6.00 at 6% is the tax of 100.00.
    const less = [['Vermont', 0.06, '900.00', '54.00']];
    expect([...(taxOf(credited('credit')) ?? [])]).toEqual(less);
    expect([...(taxOf(credited('write-off', { invoiceId: 'i' })) ?? [])]).toEqual(less);
    // The invoice it names was voided, and issued again: the tax that was given back stays given back.
    const voided = invoice('v', 2, 106_000, { ...taxed, voidedAt: '2026-03-20T15:00:00Z' });
    expect([...(taxOf(voided, credited('credit', { invoiceId: 'v' })) ?? [])]).toEqual(less);
  });
  it('counts a credit for change orders as an invoice below 0 in the tax of what was received', () => {
    // 2,000.00 of materials at 8% and 3,000.00 of labor without tax; a change order took off 500.00 of materials with 40.00 of tax.
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.08, baseMinor: 200_000, taxMinor: 16_000 };
    const less = { ...tax, baseMinor: 50_000, taxMinor: 4_000 };
    const entries = [
      invoice('i', 1, 516_000, { netMinor: 500_000, taxes: [tax] }),
      orderCredit('c', 54_000, { taxes: [less] }),
      payment('p', 462_000),
    ];
    // 5,160.00 less 540.00 is 4,620.00, with 160.00 less 40.00 of tax. By hand.
    expect(jobResult(entries)).toMatchObject({ incomeMinor: 450_000, taxMinor: 12_000 });
    const lists = yearLists({
      ...{ entries, from: '2026-01-01', to: '2026-12-31', unitKm: 1, distanceUnit: 'km', currency: 'USD' },
      job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
    });
    const rowsOf = (name: string) => lists.find((list) => list.name === name)?.rows;
    expect([...(rowsOf('sales tax') ?? [])]).toEqual([['Sales tax', 0.08, '1500.00', '120.00']]);
    expect([...(rowsOf('income') ?? [])].map((row) => row.slice(-3))).toEqual([['4620.00', '120.00', '4500.00']]);
  });
  it('splits the tax over part payments to the cent, from one period to the next', () => {
    // 1,000.00 with 62.50 of tax at 6.25%, paid in three parts and partly refunded.
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.0625, baseMinor: 100_000, taxMinor: 6_250 };
    const bill = invoice('i', 1, 106_250, { netMinor: 100_000, taxes: [tax] });
    const parts = [35_417, 35_417, 35_416].map((minor, i) => ({ ...payment(`p${i}`, minor), onDay: `2026-03-1${i}` }));
    const incomeOf = (entries: LedgerEntry[], from: string, to: string) => {
      const job = () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null });
      const lists = yearLists({ entries, from, to, job, unitKm: 1, distanceUnit: 'km', currency: 'USD' });
      return [...(lists.find(({ name }) => name === 'income')?.rows ?? [])].map((row) => row.slice(-2).map(Number));
    };
    const entries = [bill, ...parts.toReversed()];
    const rows = [...incomeOf(entries, '2026-01-01', '2026-03-11'), ...incomeOf(entries, '2026-03-12', '2026-12-31')];
    const sums = [0, 1].map((column) => Number(rows.reduce((sum, row) => sum.plus(row[column] ?? 0), new Big(0))));
    expect(sums).toEqual([62.5, 1_000]);
    expect(jobResult(entries)).toMatchObject({ taxMinor: 6_250, incomeMinor: 100_000 });
    // A voided payment takes no part, and what is refunded gives its tax back.
    const voided = { ...payment('v', 10_001), onDay: '2026-03-09', voidedAt: '2026-03-09T15:00:00Z' };
    const refunded = [...entries, voided, refund('f', 106_250)];
    expect(incomeOf(refunded, '2026-01-01', '2026-12-31')).toEqual([...rows, [-62.5, -1_000]]);
  });
  it('counts the retainage of an unpaid invoice from the day it was released, and as held before', () => {
    const entries = [invoice('i', 1, 10_000, { retainageMinor: 1_000, dueOn: '2026-03-01' }), payment('p', 9_000)];
    const unpaidOn = (to: string) => {
      const job = () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: '2026-04-30' });
      const lists = yearLists({ entries, from: '2026-01-01', to, job, unitKm: 1, distanceUnit: 'km', currency: 'USD' });
      return [...(lists.find(({ name }) => name === 'unpaid invoices')?.rows ?? [])].map((row) => row.slice(4));
    };
    // Ten days from April 30 to May 10, by the calendar.
    expect(unpaidOn('2026-03-31')).toEqual([['2026-03-01', 0, '100.00', '10.00', '10.00']]);
    expect(unpaidOn('2026-05-10')).toEqual([['2026-04-30', 10, '100.00', '10.00', '0.00']]);
  });
  it('names each receipt by its day and a number', () => {
    const bought = (id: string, onDay: string, ...photoIds: string[]) => purchase(id, [100], { onDay, photoIds });
    const files = receiptFiles(
      [
        bought('b', '2026-03-02', 'p3'),
        bought('a', '2026-03-01', 'p1', 'p2'),
        bought('c', '2026-03-02', 'p4'),
        bought('early', '2026-02-28', 'p0'),
        bought('late', '2026-04-01', 'p5'),
        invoice('i', 1, 106_000, taxed),
      ],
      '2026-03-01',
      '2026-03-31',
    );
    expect(Object.fromEntries(files)).toEqual({
      p1: 'Receipt 2026-03-01 1',
      p2: 'Receipt 2026-03-01 2',
      p3: 'Receipt 2026-03-02 1',
      p4: 'Receipt 2026-03-02 2',
    });
    expect(receiptFiles([bought('a', '2026-03-01', 'p1')], '2026-03-01', '2026-03-01').size).toBe(1);
  });
  it('excludes what is outside the period', () => {
    const q2 = yearLists({
      entries: ENTRIES,
      from: '2026-04-01',
      to: '2026-06-30',
      job: () => ({ number: '', customerName: '', releasedOn: null }),
      unitKm: 1,
      distanceUnit: 'km',
      currency: 'USD',
    });
    expect(q2.filter((t) => t.name !== 'unpaid invoices').flatMap((t) => [...t.rows])).toEqual([]);
  });
});

/** The sample's year read independently: the files as a spreadsheet reads them (papaparse), beside plain sums of the raw entries. */
describe('the year of the sample', () => {
  const book = sampleAt('2026-05-12T15:00:00Z');
  const year = { from: '2026-01-01', to: '2026-12-31' };
  const tables = yearLists({
    ...year,
    entries: book.ledger,
    job: (id) => ({ number: book.jobs.find((job) => job.id === id)?.number ?? '', customerName: '=cmd', releasedOn: null }),
    unitKm: 1.609344,
    distanceUnit: 'mi',
    currency: 'USD',
  });
  const files = new Map(
    tables.map((t) => [t.name, Papa.parse<Record<string, string>>(dataCsv(t), { header: true, skipEmptyLines: true }).data]),
  );
  const sum = (file: string, column: string): number =>
    (files.get(file) ?? []).reduce((total, row) => total.plus(row[column] ?? 0), new Big(0)).toNumber();
  const cents = (minor: number): number => new Big(minor).div(100).toNumber();
  const raw = <K extends LedgerEntry['kind']>(kind: K) =>
    book.ledger.filter((e): e is Extract<LedgerEntry, { kind: K }> => e.kind === kind && e.voidedAt === null);
  const add = <T>(of: readonly T[], amount: (one: T) => number): number => of.reduce((total, one) => total + amount(one), 0);

  it('adds up to the money received and paid', () => {
    const received = add(raw('payment'), (e) => e.amountMinor) - add(raw('refund'), (e) => e.amountMinor);
    expect(sum('income', 'Amount')).toBe(cents(received));
    const spent = add(raw('purchase'), (e) => add(e.lines, (line) => line.amountMinor) + e.taxMinor);
    expect(sum('expenses', 'Total')).toBe(cents(spent));
    expect(sum('expenses by category', 'Total')).toBe(cents(spent));
    expect(new Set((files.get('expenses by category') ?? []).map((row) => row['Category']))).toEqual(
      new Set(raw('purchase').map((e) => e.category)),
    );
  });
  it('adds up to the sales tax invoiced, the miles driven and the hours worked', () => {
    expect(sum('sales tax', 'Tax collected')).toBe(cents(add(raw('invoice'), (e) => e.totalMinor - e.netMinor)));
    const miles = add(raw('drive'), (e) => e.distanceKm) / 1.609344;
    expect(Math.abs(sum('mileage', 'Distance (mi)') - miles)).toBeLessThan(0.05 * raw('drive').length);
    const hoursWorked = add(raw('hours'), (e) => e.minutes) / 60;
    expect(Math.abs(sum('labor', 'Hours') - hoursWorked)).toBeLessThan(0.005 * raw('hours').length + 1e-9);
  });
  it('lists what is unpaid: invoices and refunds less payments and credits', () => {
    const owed =
      add(raw('invoice'), (e) => e.totalMinor) + add(raw('refund'), (e) => e.amountMinor) - add(raw('payment'), (e) => e.amountMinor);
    const credited = book.ledger.reduce((total, e) => (e.kind === 'credit' || e.kind === 'write-off' ? total + e.amountMinor : total), 0);
    expect(sum('unpaid invoices', 'Open')).toBe(cents(owed - credited));
  });
  it('has an index of every column, and no cell that a spreadsheet would run', () => {
    const index = Papa.parse<Record<string, string>>(yearIndexCsv(tables, year.from, year.to), { header: true, skipEmptyLines: true }).data;
    for (const table of tables)
      expect(index.filter((row) => row['File'] === `${table.name}.csv`).map((row) => row['Column'])).toEqual(
        table.columns.map(({ title }) => title),
      );
    for (const rows of files.values())
      for (const row of rows) for (const text of Object.values(row)) expect(/^[=+@]/.test(text) || /^-[^0-9]/.test(text)).toBe(false);
  });
});
