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
const rowsIn = (name: string, entries: readonly LedgerEntry[], from: string, to: string, zone = 'UTC') => {
  const job = () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null });
  const lists = yearLists({ entries, from, to, job, today: '2027-01-01', unitKm: 1, distanceUnit: 'km', zone, currency: 'USD' });
  return [...(lists.find((list) => list.name === name)?.rows ?? [])];
};
/** Day, type, amount, tax and income of each row. */
const incomeOf = (entries: readonly LedgerEntry[], from: string, to: string) =>
  rowsIn('income', entries, from, to).map((row) => [...row.slice(0, 2), ...row.slice(-3)]);
const ENTRIES: LedgerEntry[] = [
  invoice('i', 1, 106_000, taxed),
  payment('p', 53_000),
  payment('q', 53_000),
  refund('f', 10_600),
  { ...credit('c', 'credit', 10_600), taxes: [{ ...VERMONT, baseMinor: 10_000, taxMinor: 600 }] },
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
    expect(result.costMinor - result.laborMinor - result.drivesMinor).toBe(41_349);
    expect(result.profitMinor).toBe(result.incomeMinor - result.costMinor);
  });
});

describe('the year for the bookkeeper', () => {
  const tables = yearLists({
    entries: ENTRIES,
    from: '2026-01-01',
    to: '2026-12-31',
    job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
    today: '2027-01-01',
    unitKm: 1.609344,
    distanceUnit: 'mi',
    zone: 'UTC',
    currency: 'USD',
  });
  const table = (name: string) => [...(tables.find((t) => t.name === name)?.rows ?? [])];

  it('adds income up to what was received less refunded', () => {
    expect(table('income').reduce((sum, row) => sum + Number(row[7]), 0)).toBe(954);
  });
  it('names sales tax by jurisdiction, mileage in the chosen unit, and pay by person', () => {
    expect(table('sales tax')[0]).toEqual(['Vermont', 0.06, '900.00', '54.00']);
    // 48.28032 km is 30 miles (1 mi = 1.609344 km, NIST SP 811).
    expect(table('mileage')[0]?.[3]).toBe(30);
    expect(table('contractor payments')).toEqual([['Ines Calder', '198.00']]);
  });
  it('leaves card payments to contractors out, which the processor reports (IRS, Forms 1099-MISC and 1099-NEC, from memory)', () => {
    const pay = (method: PaymentMethod, amount: number) =>
      purchase(method, [amount], { category: 'Contract labor', supplier: 'Ines Calder', method });
    const list = yearLists({
      entries: [pay('check', 10_000), pay('card', 20_000), pay('transfer', 40_000)],
      ...{ from: '2026-01-01', to: '2026-12-31', today: '2027-01-01', unitKm: 1, distanceUnit: 'km', zone: 'UTC', currency: 'USD' },
      job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
    }).find(({ name }) => name === 'contractor payments');
    expect([...(list?.rows ?? [])]).toEqual([['Ines Calder', '500.00']]);
    expect(list?.about).toContain('Card payments are left out');
  });
  it('takes the tax of a credit or a write-off off what was invoiced for that job', () => {
    const taxOf = (...more: readonly LedgerEntry[]) =>
      yearLists({
        entries: [invoice('i', 1, 106_000, taxed), payment('p', 95_400), ...more],
        from: '2026-01-01',
        to: '2026-12-31',
        job: () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: null }),
        today: '2027-01-01',
        unitKm: 1,
        distanceUnit: 'km',
        zone: 'UTC',
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
      { ...payment('p', 462_000), onDay: '2026-03-20' },
    ];
    // 5,160.00 less 540.00 is 4,620.00, with 160.00 less 40.00 of tax. By hand.
    expect(jobResult(entries)).toMatchObject({ incomeMinor: 450_000, taxMinor: 12_000 });
    const lists = yearLists({
      ...{
        entries,
        from: '2026-01-01',
        to: '2026-12-31',
        today: '2027-01-01',
        unitKm: 1,
        distanceUnit: 'km',
        zone: 'UTC',
        currency: 'USD',
      },
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
    const partsOf = (all: LedgerEntry[], from: string, to: string) => incomeOf(all, from, to).map((row) => row.slice(-2).map(Number));
    const entries = [bill, ...parts.toReversed()];
    const rows = [...partsOf(entries, '2026-01-01', '2026-03-11'), ...partsOf(entries, '2026-03-12', '2026-12-31')];
    const sums = [0, 1].map((column) => Number(rows.reduce((sum, row) => sum.plus(row[column] ?? 0), new Big(0))));
    expect(sums).toEqual([62.5, 1_000]);
    expect(jobResult(entries)).toMatchObject({ taxMinor: 6_250, incomeMinor: 100_000 });
    // A voided payment takes no part, and what is refunded gives its tax back.
    const voided = { ...payment('v', 10_001), onDay: '2026-03-09', voidedAt: '2026-03-09T15:00:00Z' };
    const refunded = [...entries, voided, refund('f', 106_250)];
    expect(partsOf(refunded, '2026-01-01', '2026-12-31')).toEqual([...rows, [-62.5, -1_000]]);
  });
  it('keeps the tax of a payment, whatever is invoiced or voided in a later period', () => {
    // An invoice of 1,554.74 with 58.82 of tax, paid in full; 3,000.00 without tax are invoiced the year after. By hand.
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.08, baseMinor: 73_525, taxMinor: 5_882 };
    const first = invoice('a', 1, 155_474, { onDay: '2026-11-17', dueOn: '2026-12-01', netMinor: 149_592, taxes: [tax] });
    const paid = { ...payment('p', 155_474, 'a'), onDay: '2026-11-25' };
    const year = (entries: readonly LedgerEntry[], of: number) => incomeOf(entries, `${of}-01-01`, `${of}-12-31`);
    const closed = [['2026-11-25', 'Received', '1554.74', '58.82', '1495.92']];
    expect(year([first, paid], 2026)).toEqual(closed);
    const order = invoice('b', 2, 300_000, { onDay: '2027-01-10', dueOn: '2027-01-24' });
    expect([year([first, paid, order], 2026), year([first, paid, order], 2027)]).toEqual([closed, []]);
    // Voided in 2027 and the money kept: the tax goes out of it on the day of the void.
    const voided = { ...first, voidedAt: '2027-01-12T15:00:00Z' };
    expect([year([voided, paid], 2026), year([voided, paid], 2027)]).toEqual([
      closed,
      [['2027-01-12', 'Void: Invoice', '0.00', '-58.82', '58.82']],
    ]);
    // A payment that the bank returned the year after counts where it was received, and its return where it was voided.
    const returned = { ...paid, voidedAt: '2027-01-05T15:00:00Z' };
    expect([year([first, returned], 2026), year([first, returned], 2027)]).toEqual([
      closed,
      [['2027-01-05', 'Void: Received', '-1554.74', '-58.82', '-1495.92']],
    ]);
  });
  it('finds in a payment the tax of the invoice it settles, never more than was billed, and none before it is invoiced', () => {
    // 1,000.00 without tax, and 1,070.00 with 70.00 of tax. By hand.
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor: 100_000, taxMinor: 7_000 };
    const untaxed = invoice('a', 1, 100_000, { onDay: '2026-02-01' });
    const taxable = invoice('b', 2, 107_000, { onDay: '2026-02-01', netMinor: 100_000, taxes: [tax] });
    const on = (onDay: string, of: ReturnType<typeof payment>) => ({ ...of, onDay });
    const rows = (...entries: LedgerEntry[]) => incomeOf(entries, '2026-01-01', '2026-12-31').map((row) => row.slice(2));
    expect(rows(untaxed, taxable, on('2026-02-10', payment('p', 100_000, 'a')), on('2026-05-10', payment('q', 107_000, 'b')))).toEqual([
      ['1000.00', '0.00', '1000.00'],
      ['1070.00', '70.00', '1000.00'],
    ]);
    expect(rows(taxable, on('2026-02-10', payment('p', 120_000)))).toEqual([['1200.00', '70.00', '1130.00']]);
    expect(rows(taxable, on('2026-01-10', payment('p', 107_000)))).toEqual([
      ['1070.00', '0.00', '1070.00'],
      ['0.00', '70.00', '-70.00'],
    ]);
    // What was paid beyond the invoice belongs to the customer: the job earned 1,000.00.
    expect(jobResult([taxable, on('2026-02-10', payment('p', 120_000))])).toMatchObject({ incomeMinor: 100_000, taxMinor: 7_000 });
    // Paid in full, then 107.00 credited with 7.00 of tax, and paid back or not yet: 900.00 earned, with 63.00 of tax.
    const given = { ...credit('c', 'credit', 10_700), taxes: [{ ...tax, baseMinor: 10_000, taxMinor: 700 }] };
    for (const back of [[], [refund('f', 10_700)]])
      expect(jobResult([taxable, payment('p', 107_000), given, ...back])).toMatchObject({ incomeMinor: 90_000, taxMinor: 6_300 });
  });
  it('keeps the tax of a payment before a void of the same period, whichever of them was entered first', () => {
    // 1,070.00 with 70.00 of tax, paid in March; voided in April, and nothing issued again. By hand.
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor: 100_000, taxMinor: 7_000 };
    const voided = invoice('a', 1, 107_000, { netMinor: 100_000, taxes: [tax], voidedAt: '2026-04-12T15:00:00Z' });
    const march = ['2026-03-10', 'Received', '1070.00', '70.00', '1000.00'];
    for (const createdAt of ['2026-03-10T15:00:00Z', '2026-05-02T15:00:00Z']) {
      const entries = [voided, { ...payment('p', 107_000, 'a'), createdAt }];
      expect(incomeOf(entries, '2026-01-01', '2026-03-31')).toEqual([march]);
      expect(incomeOf(entries, '2026-01-01', '2026-12-31')).toEqual([march, ['2026-04-12', 'Void: Invoice', '0.00', '-70.00', '70.00']]);
    }
  });
  it('counts a void on the day it was voided, and the invoice in its own quarter', () => {
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor: 100_000, taxMinor: 7_000 };
    const billed = invoice('a', 1, 107_000, { onDay: '2026-02-05', netMinor: 100_000, taxes: [tax] });
    const voided = { ...billed, voidedAt: '2026-05-02T15:00:00Z' };
    const quarter = (entries: readonly LedgerEntry[], from: string, to: string) =>
      ['sales tax', 'unpaid invoices'].map((name) => rowsIn(name, entries, from, to).map((row) => row.at(name === 'sales tax' ? -1 : -2)));
    const q1 = [['70.00'], ['1070.00']];
    for (const entries of [[billed], [voided]]) expect(quarter(entries, '2026-01-01', '2026-03-31')).toEqual(q1);
    expect(quarter([voided], '2026-04-01', '2026-06-30')).toEqual([['-70.00'], []]);
    expect(quarter([voided], '2026-01-01', '2026-06-30')).toEqual([[], []]);
    // By the company's clock: 11 pm on March 31 in New York is April 1 in UTC.
    const late = { ...billed, voidedAt: '2026-04-01T03:00:00Z' };
    expect(rowsIn('sales tax', [late], '2026-01-01', '2026-03-31', 'America/New_York')).toEqual([]);
    // A purchase of 45.00 entered in March and voided in April.
    const bought = purchase('m', [4_500], { onDay: '2026-03-05', voidedAt: '2026-04-02T15:00:00Z', photoIds: ['photo'] });
    const spent = (from: string, to: string) => rowsIn('expenses', [bought], from, to).map((row) => [row[0], row[3], row[9], row[10]]);
    expect(spent('2026-01-01', '2026-03-31')).toEqual([['2026-03-05', 'Line 1', '45.00', 'Receipt 2026-03-05 1']]);
    expect(spent('2026-04-01', '2026-06-30')).toEqual([['2026-04-02', 'Void: Line 1', '-45.00', '']]);
  });
  it('counts the tax of a write-off again in the quarter in which it is paid after all', () => {
    // 107.00 of 1,070.00 is written off with 7.00 of tax. By hand.
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor: 100_000, taxMinor: 7_000 };
    const entries = [
      invoice('a', 1, 107_000, { netMinor: 100_000, taxes: [tax] }),
      payment('p', 96_300),
      { ...credit('w', 'write-off', 10_700, 'a'), taxes: [{ ...tax, baseMinor: 10_000, taxMinor: 700 }] },
      { ...payment('q', 10_700), onDay: '2026-04-20' },
    ];
    const taxIn = (from: string, to: string) => rowsIn('sales tax', entries, from, to).map((row) => row.slice(2));
    expect([taxIn('2026-01-01', '2026-03-31'), taxIn('2026-04-01', '2026-06-30')]).toEqual([[['900.00', '63.00']], [['100.00', '7.00']]]);
  });
  it('counts the retainage of an unpaid invoice from the day it was released, and as held before', () => {
    const entries = [invoice('i', 1, 10_000, { retainageMinor: 1_000, dueOn: '2026-03-01' }), payment('p', 9_000)];
    const unpaidOn = (to: string, today = to) => {
      const job = () => ({ number: '26-004', customerName: 'Ola Brandt', releasedOn: '2026-04-30' });
      const lists = yearLists({ entries, from: '2026-01-01', to, today, job, unitKm: 1, distanceUnit: 'km', zone: 'UTC', currency: 'USD' });
      return [...(lists.find(({ name }) => name === 'unpaid invoices')?.rows ?? [])].map((row) => row.slice(4));
    };
    // Ten days from April 30 to May 10, by the calendar.
    expect(unpaidOn('2026-03-31')).toEqual([['2026-03-01', 0, '100.00', '10.00', '10.00']]);
    expect(unpaidOn('2026-05-10')).toEqual([['2026-04-30', 10, '100.00', '10.00', '0.00']]);
    // A year that is not over yet: nothing is as late as on its last day.
    expect(unpaidOn('2026-12-31', '2026-05-10')).toEqual(unpaidOn('2026-05-10'));
  });
  it('names each receipt by its day and a number', () => {
    const bought = (id: string, onDay: string, ...photoIds: string[]) => purchase(id, [100], { onDay, photoIds });
    const files = receiptFiles({
      entries: [
        bought('b', '2026-03-02', 'p3'),
        bought('a', '2026-03-01', 'p1', 'p2'),
        bought('c', '2026-03-02', 'p4'),
        bought('early', '2026-02-28', 'p0'),
        bought('late', '2026-04-01', 'p5'),
        invoice('i', 1, 106_000, taxed),
      ],
      from: '2026-03-01',
      to: '2026-03-31',
      zone: 'UTC',
    });
    expect(Object.fromEntries(files)).toEqual({
      p1: 'Receipt 2026-03-01 1',
      p2: 'Receipt 2026-03-01 2',
      p3: 'Receipt 2026-03-02 1',
      p4: 'Receipt 2026-03-02 2',
    });
    expect(receiptFiles({ entries: [bought('a', '2026-03-01', 'p1')], from: '2026-03-01', to: '2026-03-01', zone: 'UTC' }).size).toBe(1);
  });
  it('excludes what is outside the period', () => {
    const q2 = yearLists({
      entries: ENTRIES,
      from: '2026-04-01',
      to: '2026-06-30',
      job: () => ({ number: '', customerName: '', releasedOn: null }),
      today: '2027-01-01',
      unitKm: 1,
      distanceUnit: 'km',
      zone: 'UTC',
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
    today: '2027-01-01',
    unitKm: 1.609344,
    distanceUnit: 'mi',
    zone: 'UTC',
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
    expect(sum('sales tax', 'Tax invoiced')).toBe(cents(add(raw('invoice'), (e) => e.totalMinor - e.netMinor)));
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
