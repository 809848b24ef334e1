/** A year or quarter for the bookkeeper, as plain tables: income, expenses, sales tax, mileage, contractor payments, unpaid invoices. */
import type { Credit, Invoice, LedgerEntry } from '../book/ledger.ts';
import { daysBetween } from '../measure/day.ts';
import { apportion } from '../price/apportion.ts';
import { exact, over, roundHalfUp } from '../price/exact.ts';
import { accountOf, counts } from './account.ts';
import { driveMinor, hoursMinor, purchaseMinor, taxInside } from './job-result.ts';

export type YearCell = string | number | null;

/** One table: column heads, rows, and which columns hold money in minor units. */
export type YearTable = {
  readonly name:
    | 'income'
    | 'expenses'
    | 'expenses by category'
    | 'sales tax'
    | 'mileage'
    | 'labor'
    | 'contractor payments'
    | 'unpaid invoices';
  readonly columns: readonly { readonly title: string; readonly holds: 'text' | 'day' | 'money' | 'number' }[];
  readonly rows: readonly (readonly YearCell[])[];
};

export type YearInput = {
  readonly entries: readonly LedgerEntry[];
  /** First and last day, `YYYY-MM-DD`, both included. */
  readonly from: string;
  readonly to: string;
  readonly job: (jobId: string) => { readonly number: string; readonly customerName: string };
  /** Kilometers in one unit of the mileage column: 1.609344 for miles, 1 for kilometers. */
  readonly unitKm: number;
  readonly distanceUnit: 'mi' | 'km';
};

/** The category whose purchases count as payments to a contractor. */
export const CONTRACT_LABOR = 'Contract labor';

/**
 * The year's tables. Income and expenses count on the day they were received or paid; sales tax on the day it was
 * invoiced, less credits. Check with the tax office which basis applies.
 */
export function yearTables(input: YearInput): YearTable[] {
  const within = input.entries.filter((e) => counts(e) && e.onDay >= input.from && e.onDay <= input.to);
  return [
    income(within, input),
    expenses(within, input),
    byCategory(within),
    salesTax(within, input.entries),
    mileage(within, input),
    labor(within, input),
    contractors(within),
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

function income(within: readonly LedgerEntry[], { entries, job }: YearInput): YearTable {
  const invoicesOf = (jobId: string): Invoice[] => entriesOf(entries, 'invoice').filter((i) => i.jobId === jobId && counts(i));
  const invoiceNumber = (id: string | null): string => entriesOf(entries, 'invoice').find((i) => i.id === id)?.number ?? '';
  const rows = [...entriesOf(within, 'payment'), ...entriesOf(within, 'refund')].sort(byDay).map((e): YearCell[] => {
    const amount = e.kind === 'payment' ? e.amountMinor : -e.amountMinor;
    const tax = taxInside(amount, invoicesOf(e.jobId));
    const invoice = e.kind === 'payment' ? invoiceNumber(e.invoiceId) : '';
    const { number, customerName } = job(e.jobId);
    return [
      e.onDay,
      e.kind === 'payment' ? 'Received' : 'Refunded',
      number,
      customerName,
      invoice,
      e.method,
      e.reference,
      amount,
      tax,
      amount - tax,
    ];
  });
  return {
    name: 'income',
    columns: [
      { title: 'Date', holds: 'day' },
      { title: 'Type', holds: 'text' },
      { title: 'Job', holds: 'text' },
      { title: 'Customer', holds: 'text' },
      { title: 'Invoice', holds: 'text' },
      { title: 'Method', holds: 'text' },
      { title: 'Reference', holds: 'text' },
      { title: 'Amount', holds: 'money' },
      { title: 'Sales tax in amount', holds: 'money' },
      { title: 'Income', holds: 'money' },
    ],
    rows,
  };
}

function expenses(within: readonly LedgerEntry[], { job, from, to }: YearInput): YearTable {
  const receipts = receiptFiles(within, from, to);
  const rows = entriesOf(within, 'purchase')
    .sort(byDay)
    .map((p): YearCell[] => [
      p.onDay,
      p.supplier,
      p.category,
      p.lines.map((line) => line.text).join('; '),
      p.jobId === null ? '' : job(p.jobId).number,
      p.method,
      p.reference,
      purchaseMinor(p) - p.taxMinor,
      p.taxMinor,
      purchaseMinor(p),
      p.photoIds.flatMap((id) => receipts.get(id) ?? []).join('; '),
    ]);
  return {
    name: 'expenses',
    columns: [
      { title: 'Date', holds: 'day' },
      { title: 'Supplier', holds: 'text' },
      { title: 'Category', holds: 'text' },
      { title: 'Description', holds: 'text' },
      { title: 'Job', holds: 'text' },
      { title: 'Method', holds: 'text' },
      { title: 'Reference', holds: 'text' },
      { title: 'Amount before tax', holds: 'money' },
      { title: 'Tax paid', holds: 'money' },
      { title: 'Total', holds: 'money' },
      { title: 'Receipt photos', holds: 'text' },
    ],
    rows,
  };
}

function byCategory(within: readonly LedgerEntry[]): YearTable {
  const sums = summed(entriesOf(within, 'purchase').map((p) => [p.category, purchaseMinor(p)]));
  return {
    name: 'expenses by category',
    columns: [
      { title: 'Category', holds: 'text' },
      { title: 'Total', holds: 'money' },
    ],
    rows: sums,
  };
}

/**
 * Tax of each rate: a rate that changed within the year has a row for each percentage. Tax in credits and write-offs is taken off in
 * proportion to the rates of the job's invoices.
 */
function salesTax(within: readonly LedgerEntry[], all: readonly LedgerEntry[]): YearTable {
  const rows = new Map<string, { name: string; rate: number; base: number; tax: number }>();
  for (const tax of entriesOf(within, 'invoice').flatMap((i) => i.taxes)) {
    const key = `${tax.name}/${tax.rate}`;
    const row = rows.get(key) ?? { name: tax.name, rate: tax.rate, base: 0, tax: 0 };
    rows.set(key, { ...row, base: row.base + tax.baseMinor, tax: row.tax + tax.taxMinor });
  }
  for (const credit of within.filter((e): e is Credit => e.kind === 'credit' || e.kind === 'write-off')) {
    const taxes = entriesOf(all, 'invoice')
      .filter((i) => counts(i) && i.jobId === credit.jobId && (credit.invoiceId === null || i.id === credit.invoiceId))
      .flatMap((i) => i.taxes);
    const parts = apportion(
      credit.taxMinor,
      taxes.map((tax) => exact(Math.max(0, tax.taxMinor))),
    );
    taxes.forEach((tax, i) => {
      const row = rows.get(`${tax.name}/${tax.rate}`) ?? { name: tax.name, rate: tax.rate, base: 0, tax: 0 };
      const part = parts[i] ?? 0;
      const base = tax.rate === 0 ? 0 : roundHalfUp(over(exact(part), exact(tax.rate)));
      rows.set(`${tax.name}/${tax.rate}`, { ...row, base: row.base - base, tax: row.tax - part });
    });
  }
  return {
    name: 'sales tax',
    columns: [
      { title: 'Jurisdiction', holds: 'text' },
      { title: 'Rate', holds: 'number' },
      { title: 'Taxable amount', holds: 'money' },
      { title: 'Tax collected', holds: 'money' },
    ],
    rows: [...rows.values()].map((row): YearCell[] => [row.name, row.rate, row.base, row.tax]),
  };
}

function mileage(within: readonly LedgerEntry[], { job, unitKm, distanceUnit }: YearInput): YearTable {
  return {
    name: 'mileage',
    columns: [
      { title: 'Date', holds: 'day' },
      { title: 'Purpose', holds: 'text' },
      { title: 'Job', holds: 'text' },
      { title: `Distance (${distanceUnit})`, holds: 'number' },
      { title: 'Cost at your rate', holds: 'money' },
    ],
    rows: entriesOf(within, 'drive')
      .sort(byDay)
      .map((d) => [
        d.onDay,
        d.purpose,
        d.jobId === null ? '' : job(d.jobId).number,
        Number((d.distanceKm / unitKm).toFixed(1)),
        driveMinor(d),
      ]),
  };
}

function labor(within: readonly LedgerEntry[], { job }: YearInput): YearTable {
  return {
    name: 'labor',
    columns: [
      { title: 'Date', holds: 'day' },
      { title: 'Worker', holds: 'text' },
      { title: 'Paid as', holds: 'text' },
      { title: 'Task', holds: 'text' },
      { title: 'Job', holds: 'text' },
      { title: 'Hours', holds: 'number' },
      { title: 'Cost', holds: 'money' },
    ],
    rows: entriesOf(within, 'hours')
      .sort(byDay)
      .map((h) => [h.onDay, h.who, h.paidAs, h.task, job(h.jobId).number, Number((h.minutes / 60).toFixed(2)), hoursMinor(h)]),
  };
}

function contractors(within: readonly LedgerEntry[]): YearTable {
  const paid = [
    ...entriesOf(within, 'purchase')
      .filter((p) => p.category === CONTRACT_LABOR)
      .map((p): [string, number] => [p.supplier, purchaseMinor(p)]),
    ...entriesOf(within, 'hours')
      .filter((h) => h.paidAs === 'contractor')
      .map((h): [string, number] => [h.who, hoursMinor(h)]),
  ];
  return {
    name: 'contractor payments',
    columns: [
      { title: 'Paid to', holds: 'text' },
      { title: 'Total', holds: 'money' },
    ],
    rows: summed(paid),
  };
}

/** Open invoices at the end of the period, each with how late it is. */
function unpaid({ entries, to, job }: YearInput): YearTable {
  const upTo = entries.filter((e) => e.onDay <= to);
  const jobIds = [...new Set(entriesOf(upTo, 'invoice').map((i) => i.jobId))];
  const open = jobIds.flatMap((jobId) =>
    accountOf(
      upTo.filter((e) => e.jobId === jobId),
      to,
      to,
    ).invoices.filter((b) => b.openMinor > 0),
  );
  return {
    name: 'unpaid invoices',
    columns: [
      { title: 'Invoice', holds: 'text' },
      { title: 'Job', holds: 'text' },
      { title: 'Customer', holds: 'text' },
      { title: 'Issued', holds: 'day' },
      { title: 'Due', holds: 'day' },
      { title: 'Days overdue', holds: 'number' },
      { title: 'Total', holds: 'money' },
      { title: 'Open', holds: 'money' },
    ],
    rows: open.map(({ invoice, openMinor }) => [
      invoice.number,
      job(invoice.jobId).number,
      job(invoice.jobId).customerName,
      invoice.onDay,
      invoice.dueOn,
      Math.max(0, daysBetween(invoice.dueOn, to)),
      invoice.totalMinor,
      openMinor,
    ]),
  };
}

/** Sums by name, largest first. */
function summed(pairs: readonly (readonly [string, number])[]): [string, number][] {
  const sums = new Map<string, number>();
  for (const [name, minor] of pairs) sums.set(name, (sums.get(name) ?? 0) + minor);
  return [...sums].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]));
}

const byDay = (a: LedgerEntry, b: LedgerEntry): number => a.onDay.localeCompare(b.onDay) || a.createdAt.localeCompare(b.createdAt);
