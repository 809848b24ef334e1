/** A year or quarter for the bookkeeper, as lists: income, expenses, sales tax, mileage, contractor payments, unpaid invoices. */
import type { InvoiceTax, LedgerEntry } from '../../book/ledger.ts';
import { accountOf, billedOf, counts } from '../../ledger/account.ts';
import { driveMinor, hoursMinor, purchaseMinor, taxInside } from '../../ledger/job-result.ts';
import { csvText } from '../../table/csv.ts';
import { type ColumnOf, type DataTable, dataTable, day, type Holds, money, number, text } from './data-table.ts';

export type YearInput = {
  readonly entries: readonly LedgerEntry[];
  /** First and last day, `YYYY-MM-DD`, both included. */
  readonly from: string;
  readonly to: string;
  readonly currency: string;
  readonly job: (jobId: string) => {
    readonly number: string;
    readonly customerName: string;
    /** The day its retainage became due; null while it is held. */
    readonly releasedOn: string | null;
  };
  /** Kilometers in one unit of the mileage column: 1.609344 for miles, 1 for kilometers. */
  readonly unitKm: number;
  readonly distanceUnit: 'mi' | 'km';
};

/** The category whose purchases count as payments to a contractor. */
const CONTRACT_LABOR = 'Contract labor';

/**
 * The year's lists. Income and expenses count on the day they were received or paid; sales tax on the day it was
 * invoiced, less credits. Check with the tax office which basis applies.
 */
export function yearLists(input: YearInput): readonly DataTable[] {
  const within = input.entries.filter((e) => counts(e) && e.onDay >= input.from && e.onDay <= input.to);
  const { currency } = input;
  return [
    income(input),
    expenses(within, input),
    sums('expenses by category', 'Purchases added up by category.', 'Category', entriesOf(within, 'purchase').map(byCategory), currency),
    salesTax(within, input),
    ...workLists(within, input),
    sums(
      'contractor payments',
      'Amounts paid to each contractor, for Form 1099-NEC. Card payments are left out: the card processor reports them.',
      'Paid to',
      contractorPay(within),
      currency,
    ),
    unpaid(input),
  ];
}

/**
 * The receipt photos of a period's purchases, each with the name of its file: the day and a number, without an ending.
 * @param from first and last day, `YYYY-MM-DD`, both included
 */
export function receiptFiles(entries: readonly LedgerEntry[], from: string, to: string): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  const numbers = new Map<string, number>();
  for (const { onDay, photoIds } of entriesOf(entries, 'purchase')
    .filter((p) => counts(p) && p.onDay >= from && p.onDay <= to)
    .sort(byDay))
    for (const id of photoIds) {
      const n = (numbers.get(onDay) ?? 0) + 1;
      numbers.set(onDay, n);
      names.set(id, `Receipt ${onDay} ${n}`);
    }
  return names;
}

const entriesOf = <K extends LedgerEntry['kind']>(entries: readonly LedgerEntry[], kind: K) =>
  entries.filter((e): e is Extract<LedgerEntry, { kind: K }> => e.kind === kind);

const inMoney =
  (currency: string) =>
  <Row>(title: string, minorOf: (row: Row) => number): ColumnOf<Row> =>
    money(title, (row) => [minorOf(row), currency]);

function income({ entries, from, to, currency, job }: YearInput): DataTable {
  const ofJob = (jobId: string): LedgerEntry[] => entries.filter((e) => e.jobId === jobId);
  const invoiceNumber = (id: string | null): string => entriesOf(entries, 'invoice').find((i) => i.id === id)?.number ?? '';
  const live = entries.filter(counts);
  const received = new Map<string, number>();
  const rows = [...entriesOf(live, 'payment'), ...entriesOf(live, 'refund')].sort(byDay).flatMap((e) => {
    const amount = e.kind === 'payment' ? e.amountMinor : -e.amountMinor;
    const before = received.get(e.jobId) ?? 0;
    received.set(e.jobId, before + amount);
    if (e.onDay < from || e.onDay > to) return [];
    // Running totals are rounded, so that the parts add up to the tax of the whole.
    const billed = billedOf(ofJob(e.jobId));
    return [{ e, amount, tax: taxInside(before + amount, billed) - taxInside(before, billed) }];
  });
  const amountIn = inMoney(currency);
  return dataTable('income', 'Money received and refunded, on the day it moved.', rows, [
    day('Date', ({ e }) => e.onDay),
    text('Type', ({ e }) => (e.kind === 'payment' ? 'Received' : 'Refunded')),
    text('Job', ({ e }) => job(e.jobId).number),
    text('Customer', ({ e }) => job(e.jobId).customerName),
    text('Invoice', ({ e }) => (e.kind === 'payment' ? invoiceNumber(e.invoiceId) : '')),
    text('Method', ({ e }) => e.method),
    text('Reference', ({ e }) => e.reference),
    amountIn('Amount', ({ amount }) => amount),
    amountIn('Sales tax in amount', ({ tax }) => tax),
    amountIn('Income', ({ amount, tax }) => amount - tax),
  ]);
}

function expenses(within: readonly LedgerEntry[], { job, from, to, currency }: YearInput): DataTable {
  const receipts = receiptFiles(within, from, to);
  const amountIn = inMoney(currency);
  return dataTable('expenses', 'Purchases, on the day they were paid.', entriesOf(within, 'purchase').sort(byDay), [
    day('Date', (p) => p.onDay),
    text('Supplier', (p) => p.supplier),
    text('Category', (p) => p.category),
    text('Description', (p) => p.lines.map((line) => line.text).join('; ')),
    text('Job', (p) => (p.jobId === null ? '' : job(p.jobId).number)),
    text('Method', (p) => p.method),
    text('Reference', (p) => p.reference),
    amountIn('Amount before tax', (p) => purchaseMinor(p) - p.taxMinor),
    amountIn('Tax paid', (p) => p.taxMinor),
    amountIn('Total', purchaseMinor),
    text('Receipt photos', (p) => p.photoIds.flatMap((id) => receipts.get(id) ?? []).join('; ')),
  ]);
}

/** Tax of each rate, less that in credits and write-offs. A rate that changed within the year has a row for each percentage. */
function salesTax(within: readonly LedgerEntry[], { currency }: YearInput): DataTable {
  const rows = new Map<string, { name: string; rate: number; base: number; tax: number }>();
  const add = ({ name, rate, baseMinor, taxMinor }: InvoiceTax, sign: 1 | -1): void => {
    const key = `${name}/${rate}`;
    const row = rows.get(key) ?? { name, rate, base: 0, tax: 0 };
    rows.set(key, { ...row, base: row.base + sign * baseMinor, tax: row.tax + sign * taxMinor });
  };
  for (const entry of within) {
    if (entry.kind === 'invoice') for (const tax of entry.taxes) add(tax, 1);
    if (entry.kind === 'credit' || entry.kind === 'write-off') for (const tax of entry.taxes) add(tax, -1);
  }
  const amountIn = inMoney(currency);
  return dataTable(
    'sales tax',
    'Sales tax invoiced, by jurisdiction.',
    [...rows.values()],
    [
      text('Jurisdiction', (row) => row.name),
      number('Rate', 8, (row) => row.rate),
      amountIn('Taxable amount', (row) => row.base),
      amountIn('Tax collected', (row) => row.tax),
    ],
  );
}

function workLists(within: readonly LedgerEntry[], { job, unitKm, distanceUnit, currency }: YearInput): readonly DataTable[] {
  const amountIn = inMoney(currency);
  return [
    dataTable('mileage', 'Drives with date, purpose, and distance.', entriesOf(within, 'drive').sort(byDay), [
      day('Date', (d) => d.onDay),
      text('Purpose', (d) => d.purpose),
      text('Job', (d) => (d.jobId === null ? '' : job(d.jobId).number)),
      number(`Distance (${distanceUnit})`, 1, (d) => d.distanceKm / unitKm),
      amountIn('Cost at your rate', driveMinor),
    ]),
    dataTable('labor', 'Hours worked by person and task, at cost.', entriesOf(within, 'hours').sort(byDay), [
      day('Date', (h) => h.onDay),
      text('Worker', (h) => h.who),
      text('Paid as', (h) => h.paidAs),
      text('Task', (h) => h.task),
      text('Job', (h) => job(h.jobId).number),
      number('Hours', 2, (h) => h.minutes / 60),
      amountIn('Cost', hoursMinor),
    ]),
  ];
}

const byCategory = (p: Extract<LedgerEntry, { kind: 'purchase' }>): [string, number] => [p.category, purchaseMinor(p)];
/** Card payments are reported on Form 1099-K instead. IRS, Instructions for Forms 1099-MISC and 1099-NEC, from memory. */
const contractorPay = (within: readonly LedgerEntry[]): [string, number][] => [
  ...entriesOf(within, 'purchase')
    .filter((p) => p.category === CONTRACT_LABOR && p.method !== 'card')
    .map((p): [string, number] => [p.supplier, purchaseMinor(p)]),
  ...entriesOf(within, 'hours')
    .filter((h) => h.paidAs === 'contractor')
    .map((h): [string, number] => [h.who, hoursMinor(h)]),
];

/** Open invoices at the end of the period, each with how late it is. */
function unpaid({ entries, to, job, currency }: YearInput): DataTable {
  const upTo = entries.filter((e) => e.onDay <= to);
  const jobIds = [...new Set(entriesOf(upTo, 'invoice').map((i) => i.jobId))];
  const ofJob = (jobId: string) => upTo.filter((e) => e.jobId === jobId);
  const open = jobIds.flatMap((jobId) => {
    const { releasedOn } = job(jobId);
    const isReleased = releasedOn !== null && releasedOn <= to;
    return accountOf(ofJob(jobId), to, isReleased ? releasedOn : null).invoices.filter((b) => b.openMinor > 0);
  });
  const amountIn = inMoney(currency);
  return dataTable('unpaid invoices', 'Invoices open on the last day.', open, [
    text('Invoice', ({ invoice }) => invoice.number),
    text('Job', ({ invoice }) => job(invoice.jobId).number),
    text('Customer', ({ invoice }) => job(invoice.jobId).customerName),
    day('Issued', ({ invoice }) => invoice.onDay),
    day('Due', ({ dueOn }) => dueOn),
    number('Days overdue', 0, ({ daysOverdue }) => daysOverdue),
    amountIn('Total', ({ invoice }) => invoice.totalMinor),
    amountIn('Open', ({ openMinor }) => openMinor),
    amountIn('Retainage held', ({ retainedMinor }) => retainedMinor),
  ]);
}

/** Sums by name, largest first. */
function sums(name: string, about: string, title: string, pairs: readonly (readonly [string, number])[], currency: string): DataTable {
  const found = new Map<string, number>();
  for (const [key, minor] of pairs) found.set(key, (found.get(key) ?? 0) + minor);
  const rows = [...found].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]));
  return dataTable(name, about, rows, [text(title, ([key]) => key), money('Total', ([, minor]) => [minor, currency])]);
}

const byDay = (a: LedgerEntry, b: LedgerEntry): number => a.onDay.localeCompare(b.onDay) || a.createdAt.localeCompare(b.createdAt);

const FORMATS: Readonly<Partial<Record<Holds, string>>> = {
  text: 'Text',
  day: 'Date, YYYY-MM-DD',
  money: 'Amount, decimal point, no thousands separator',
  number: 'Number, decimal point',
};

/** An index of the folder, as CSV: each file, its contents, its rows, and a row for each of its columns. */
export function yearIndexCsv(lists: readonly DataTable[], from: string, to: string): string {
  const rows = lists.flatMap(({ name, about, columns, rows: { length } }) =>
    columns.map(({ title, holds }, i) => [`${name}.csv`, ...(i === 0 ? [about, String(length)] : ['', '']), title, FORMATS[holds] ?? '']),
  );
  return csvText([['File', `Contents, ${from} to ${to}`, 'Rows', 'Column', 'Format'], ...rows]);
}
