/** A year or quarter for the bookkeeper, as lists: income, expenses, sales tax, mileage, contractor payments, unpaid invoices. */
import type { InvoiceTax, LedgerEntry } from '../../book/ledger.ts';
import { counts, taxReceivedMinor, writtenOff } from '../../ledger/account.ts';
import { accountAt, releasedBy, standingOn } from '../../ledger/account-at.ts';
import { taxesIn } from '../../ledger/credit-taxes.ts';
import { driveMinor, hoursMinor, purchaseMinor } from '../../ledger/job-result.ts';
import { addDaysToDay } from '../../measure/day.ts';
import { dayOfInstant } from '../../measure/moment.ts';
import { csvText } from '../../table/csv.ts';
import { type ColumnOf, type DataTable, dataTable, day, type Holds, money, number, text } from './data-table.ts';

export type YearInput = {
  readonly entries: readonly LedgerEntry[];
  /** First and last day, `YYYY-MM-DD`, both included. */
  readonly from: string;
  readonly to: string;
  /** Unpaid invoices are those of this day, where the period is not over yet. */
  readonly today: string;
  readonly currency: string;
  /** The business's time zone: an entry counts as voided from the day it was voided there. */
  readonly zone: string;
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

/** An entry on its day, or its void on the day it was voided, which takes it back. */
type Line<E extends LedgerEntry = LedgerEntry> = { readonly e: E; readonly onDay: string; readonly at: string; readonly sign: 1 | -1 };

/** Entries and voids in their order; on one day, invoices first, so that a payment of that day settles them. */
function linesOf(entries: readonly LedgerEntry[], zone: string): Line[] {
  const turn = ({ e, sign }: Line): number => (e.kind === 'invoice' && sign === 1 ? 0 : 1);
  return entries
    .flatMap((e): Line[] => {
      if (e.deletedAt !== null) return [];
      const line: Line = { e, onDay: e.onDay, at: e.createdAt, sign: 1 };
      return e.voidedAt === null ? [line] : [line, { e, onDay: voidDay(e.voidedAt, e.onDay, zone), at: e.voidedAt, sign: -1 }];
    })
    .sort((a, b) => a.onDay.localeCompare(b.onDay) || turn(a) - turn(b) || a.at.localeCompare(b.at));
}

/** The day an entry was voided, never before its own. */
function voidDay(voidedAt: string, onDay: string, zone: string): string {
  const day = dayOfInstant(voidedAt, zone);
  return day < onDay ? onDay : day;
}

type Period = Pick<YearInput, 'entries' | 'from' | 'to' | 'zone'>;

/** Whether an entry came and was voided within the period, so that it adds nothing to it. */
const isVoidedWithin = ({ voidedAt, onDay }: LedgerEntry, { from, to, zone }: Period): boolean =>
  voidedAt !== null && onDay >= from && voidDay(voidedAt, onDay, zone) <= to;

const linesWithin = (period: Period): Line[] =>
  linesOf(
    period.entries.filter((e) => !isVoidedWithin(e, period)),
    period.zone,
  ).filter(({ onDay }) => onDay >= period.from && onDay <= period.to);

/**
 * The year's lists. Income and expenses count on the day they were received or paid; sales tax on the day it was
 * invoiced, less credits. A void counts on its own day, so that an earlier period does not change. Check with the tax office which basis
 * applies.
 */
export function yearLists(input: YearInput): readonly DataTable[] {
  const within = linesWithin(input);
  const { currency } = input;
  return [
    income(input),
    expenses(within, input),
    sums('expenses by category', 'Purchases added up by category.', 'Category', linesFor(within, 'purchase').map(byCategory), currency),
    salesTax(input),
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

/** The receipt photos of a period's purchases, each with the name of its file: the day and a number, without an ending. */
export function receiptFiles(period: Period): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  const numbers = new Map<string, number>();
  for (const { e, onDay, sign } of linesFor(linesWithin(period), 'purchase'))
    for (const id of sign === 1 ? e.photoIds : []) {
      const n = (numbers.get(onDay) ?? 0) + 1;
      numbers.set(onDay, n);
      names.set(id, `Receipt ${onDay} ${n}`);
    }
  return names;
}

const entriesOf = <K extends LedgerEntry['kind']>(entries: readonly LedgerEntry[], kind: K) =>
  entries.filter((e): e is Extract<LedgerEntry, { kind: K }> => e.kind === kind);
const linesFor = <K extends LedgerEntry['kind']>(lines: readonly Line[], kind: K) =>
  lines.filter((line): line is Line<Extract<LedgerEntry, { kind: K }>> => line.e.kind === kind);

/** A text of an entry, or of its void. */
const orVoid = ({ sign }: Line, words: string): string => (sign === 1 ? words : `Void: ${words}`);

const inMoney =
  (currency: string) =>
  <Row>(title: string, minorOf: (row: Row) => number): ColumnOf<Row> =>
    money(title, (row) => [minorOf(row), currency]);

const MOVED: Readonly<Partial<Record<LedgerEntry['kind'], string>>> = {
  payment: 'Received',
  refund: 'Refunded',
  invoice: 'Invoice',
  credit: 'Credit',
  'write-off': 'Write-off',
};

/**
 * Money as it moved, each row with the sales tax that the money of the job has after it and did not have before. The tax is what it is by
 * what was issued up to then, so that later invoices change no earlier row. A row without an amount is an invoice, credit or void that
 * changed the tax in money received before it.
 */
function income(input: YearInput): DataTable {
  const { from, to, currency, job, zone } = input;
  // An invoice that was voided counts until then: a payment has the tax of its own day.
  const entries = input.entries.filter((e) => (e.kind !== 'payment' && e.kind !== 'refund') || !isVoidedWithin(e, input));
  const invoiceNumber = (id: string | null): string => entriesOf(entries, 'invoice').find((i) => i.id === id)?.number ?? '';
  const rows = [...new Set(entries.flatMap((e) => (MOVED[e.kind] === undefined ? [] : (e.jobId ?? []))))].flatMap((jobId) => {
    const { releasedOn } = job(jobId);
    const lines = linesOf(
      entries.filter((e) => e.jobId === jobId && MOVED[e.kind] !== undefined),
      zone,
    );
    const taxAfter = (i: number): number => {
      return taxReceivedMinor(standingAfter(lines, i), releasedBy(lines[i]?.onDay ?? '', releasedOn));
    };
    return lines.flatMap((line, i) => {
      const { e, onDay, sign } = line;
      if (onDay < from || onDay > to) return [];
      const amount = e.kind === 'payment' ? sign * e.amountMinor : e.kind === 'refund' ? -sign * e.amountMinor : 0;
      const tax = taxAfter(i) - (i === 0 ? 0 : taxAfter(i - 1));
      return amount === 0 && tax === 0 ? [] : [{ ...line, jobId, amount, tax }];
    });
  });
  const amountIn = inMoney(currency);
  return dataTable(
    'income',
    'Money received and refunded, on the day it moved. A row without an amount changes the sales tax in money received before.',
    rows.sort((a, b) => a.onDay.localeCompare(b.onDay) || a.at.localeCompare(b.at)),
    [
      day('Date', ({ onDay }) => onDay),
      text('Type', (line) => orVoid(line, MOVED[line.e.kind] ?? '')),
      text('Job', ({ jobId }) => job(jobId).number),
      text('Customer', ({ jobId }) => job(jobId).customerName),
      text('Invoice', ({ e }) => (e.kind === 'invoice' ? e.number : 'invoiceId' in e ? invoiceNumber(e.invoiceId) : '')),
      text('Method', ({ e }) => ('method' in e ? e.method : '')),
      text('Reference', ({ e }) => ('reference' in e ? e.reference : '')),
      amountIn('Amount', ({ amount }) => amount),
      amountIn('Sales tax in amount', ({ tax }) => tax),
      amountIn('Income', ({ amount, tax }) => amount - tax),
    ],
  );
}

/** The entries as they stood after a line: those that came and were not voided. */
function standingAfter(lines: readonly Line[], i: number): LedgerEntry[] {
  const upTo = lines.slice(0, i + 1);
  const voided = new Set(upTo.flatMap(({ e, sign }) => (sign === -1 ? [e.id] : [])));
  return upTo.flatMap(({ e, sign }) => (sign === 1 && !voided.has(e.id) ? [{ ...e, voidedAt: null }] : []));
}

function expenses(within: readonly Line[], input: YearInput): DataTable {
  const { job, currency } = input;
  const receipts = receiptFiles(input);
  const amountIn = inMoney(currency);
  return dataTable('expenses', 'Purchases, on the day they were paid.', linesFor(within, 'purchase'), [
    day('Date', ({ onDay }) => onDay),
    text('Supplier', ({ e }) => e.supplier),
    text('Category', ({ e }) => e.category),
    text('Description', (line) => orVoid(line, line.e.lines.map((one) => one.text).join('; '))),
    text('Job', ({ e }) => (e.jobId === null ? '' : job(e.jobId).number)),
    text('Method', ({ e }) => e.method),
    text('Reference', ({ e }) => e.reference),
    amountIn('Amount before tax', ({ e, sign }) => sign * (purchaseMinor(e) - e.taxMinor)),
    amountIn('Tax paid', ({ e, sign }) => sign * e.taxMinor),
    amountIn('Total', ({ e, sign }) => sign * purchaseMinor(e)),
    text('Receipt photos', ({ e, sign }) => (sign === 1 ? e.photoIds.flatMap((id) => receipts.get(id) ?? []).join('; ') : '')),
  ]);
}

/** Tax of each rate up to the end of the period, less that before it. A rate that changed within the year has a row for each percentage. */
function salesTax(input: YearInput): DataTable {
  const { from, to, currency } = input;
  const rows = new Map<string, { name: string; rate: number; base: number; tax: number }>();
  const add = ({ name, rate, baseMinor, taxMinor }: InvoiceTax, sign: 1 | -1): void => {
    const key = `${name}/${rate}`;
    const row = rows.get(key) ?? { name, rate, base: 0, tax: 0 };
    rows.set(key, { ...row, base: row.base + sign * baseMinor, tax: row.tax + sign * taxMinor });
  };
  for (const tax of taxInvoiced(to, input)) add(tax, 1);
  for (const tax of taxInvoiced(addDaysToDay(from, -1), input)) add(tax, -1);
  const amountIn = inMoney(currency);
  return dataTable(
    'sales tax',
    'Sales tax invoiced, less credits and write-offs, by jurisdiction.',
    [...rows.values()].filter(({ base, tax }) => base !== 0 || tax !== 0),
    [
      text('Jurisdiction', (row) => row.name),
      number('Rate', 8, (row) => row.rate),
      amountIn('Taxable amount', (row) => row.base),
      amountIn('Tax invoiced', (row) => row.tax),
    ],
  );
}

/** The taxes of all that was invoiced up to a day, and below 0 those of credits and of what was written off and not paid after all. */
function taxInvoiced(to: string, { entries, zone }: YearInput): InvoiceTax[] {
  const standing = standingOn(entries, to, zone).filter(counts);
  const off = writtenOffByJob(standing);
  return standing.flatMap((e) => {
    if (e.kind === 'invoice') return e.taxes;
    if (e.kind !== 'credit' && e.kind !== 'write-off') return [];
    const minor = e.kind === 'credit' ? e.amountMinor : (off.get(e.id) ?? 0);
    return taxesIn(-minor, e.taxes, e.amountMinor);
  });
}

/** What each write-off of the entries takes, by its id. */
function writtenOffByJob(entries: readonly LedgerEntry[]): ReadonlyMap<string, number> {
  const jobIds = new Set(entriesOf(entries, 'write-off').map(({ jobId }) => jobId));
  return new Map([...jobIds].flatMap((jobId) => [...writtenOff(entries.filter((e) => e.jobId === jobId))]));
}

function workLists(within: readonly Line[], { job, unitKm, distanceUnit, currency }: YearInput): readonly DataTable[] {
  const amountIn = inMoney(currency);
  return [
    dataTable('mileage', 'Drives with date, purpose, and distance.', linesFor(within, 'drive'), [
      day('Date', ({ onDay }) => onDay),
      text('Purpose', (line) => orVoid(line, line.e.purpose)),
      text('Job', ({ e }) => (e.jobId === null ? '' : job(e.jobId).number)),
      number(`Distance (${distanceUnit})`, 1, ({ e, sign }) => (sign * e.distanceKm) / unitKm),
      amountIn('Cost at your rate', ({ e, sign }) => sign * driveMinor(e)),
    ]),
    dataTable('labor', 'Hours worked by person and task, at cost.', linesFor(within, 'hours'), [
      day('Date', ({ onDay }) => onDay),
      text('Worker', ({ e }) => e.who),
      text('Paid as', ({ e }) => e.paidAs),
      text('Task', (line) => orVoid(line, line.e.task)),
      text('Job', ({ e }) => job(e.jobId).number),
      number('Hours', 2, ({ e, sign }) => (sign * e.minutes) / 60),
      amountIn('Cost', ({ e, sign }) => sign * hoursMinor(e)),
    ]),
  ];
}

const byCategory = ({ e, sign }: Line<Extract<LedgerEntry, { kind: 'purchase' }>>): [string, number] => [
  e.category,
  sign * purchaseMinor(e),
];
/** Card payments are reported on Form 1099-K instead. IRS, Instructions for Forms 1099-MISC and 1099-NEC, from memory. */
const contractorPay = (within: readonly Line[]): [string, number][] => [
  ...linesFor(within, 'purchase')
    .filter(({ e }) => e.category === CONTRACT_LABOR && e.method !== 'card')
    .map(({ e, sign }): [string, number] => [e.supplier, sign * purchaseMinor(e)]),
  ...linesFor(within, 'hours')
    .filter(({ e }) => e.paidAs === 'contractor')
    .map(({ e, sign }): [string, number] => [e.who, sign * hoursMinor(e)]),
];

/** Open invoices at the end of the period, each with how late it is. */
function unpaid({ entries, to, today, job, currency, zone }: YearInput): DataTable {
  const onDay = to < today ? to : today;
  const upTo = standingOn(entries, onDay, zone);
  const jobIds = [...new Set(entriesOf(upTo, 'invoice').map((i) => i.jobId))];
  const ofJob = (jobId: string) => upTo.filter((e) => e.jobId === jobId);
  const open = jobIds.flatMap((jobId) => accountAt(ofJob(jobId), onDay, job(jobId).releasedOn).invoices.filter((b) => b.openMinor > 0));
  const amountIn = inMoney(currency);
  return dataTable('unpaid invoices', `Invoices open on ${onDay}.`, open, [
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
