/** Ledger entries: issuing, recording, voiding. Nothing is deleted; a mistake is voided with a reason. */
import type { Credit, Drive, Hours, Invoice, LedgerEntry, Payment, Purchase, Refund, StockChange } from '../../shared-core/book/ledger.ts';
import type { PricePaid } from '../../shared-core/ledger/purchase-prices.ts';
import { isLateCharge } from '../../shared-core/ledger/account.ts';
import { type InvoiceDraft, invoiceOf, nextInvoiceNumber } from '../../shared-core/ledger/next-invoice.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { withPrice } from './material-commands.ts';
import { nowInstant, attempt, done, type Outcome, refused, stamps } from './command.ts';
import { mayReopen, reopened } from './job-commands.ts';
import { issuedBefore } from './record-rules.ts';
import { add, type Patch, write } from './write.ts';

type Own = 'id' | 'createdAt' | 'changedAt' | 'deletedAt' | 'voidedAt' | 'voidReason';
/** The fields that a user enters; the record adds an id and times. */
export type NewEntry = { [E in Payment | Refund | Credit | Purchase | Hours | Drive | StockChange as E['kind']]: Omit<E, Own> }[Exclude<
  LedgerEntry['kind'],
  'invoice'
>];

const stamped = (now: string) => ({ ...stamps(now), voidedAt: null, voidReason: '' });

/** The choices made when an invoice is issued. */
export type InvoiceTerms = Pick<Invoice, 'onDay' | 'dueOn' | 'title' | 'retainageMinor' | 'note' | 'currency'>;

/** Issues an invoice under the next number of its year. */
export async function issueInvoice(jobId: string, draft: InvoiceDraft, terms: InvoiceTerms): Promise<Outcome<Invoice>> {
  const now = nowInstant();
  const read = await attempt(async () => done(await book().rowsOf('ledger').where('kind').equals('invoice').toArray()));
  if (!read.ok) return read;
  const invoices = readable('ledger', read.value).filter((e): e is Invoice => e.kind === 'invoice');
  const billed = invoiceOf(
    invoices.filter((invoice) => invoice.jobId === jobId),
    draft.key,
  );
  if (billed !== undefined) return refused(issuedBefore(`Invoice ${billed.number}`));
  const { purpose, stageName, key, netMinor, taxes, totalMinor, lateFor } = draft;
  // A row that cannot be read keeps its number.
  const number = nextInvoiceNumber(read.value, Number(terms.onDay.slice(0, 4)));
  const billing = { purpose, stageName, key, netMinor, taxes, totalMinor, ...(lateFor !== undefined && { lateFor }) };
  const row: Invoice = { ...stamped(now), ...terms, ...number, kind: 'invoice', jobId, ...billing };
  const written = await write(`issue invoice ${row.number}`, now, { puts: [{ table: 'ledger', row }], final: 'Void it if it is wrong.' });
  return written.ok ? done(row) : written;
}

const LABELS: Readonly<Record<NewEntry['kind'], string>> = {
  payment: 'record a payment',
  refund: 'record a refund',
  credit: 'record a credit',
  'write-off': 'write off an amount',
  purchase: 'record a purchase',
  hours: 'record hours',
  drive: 'record a drive',
  stock: 'record stock',
};

/** Records several entries as one step of undo. */
export function recordEntries(entries: readonly NewEntry[]): Promise<Outcome> {
  const now = nowInstant();
  const [first] = entries;
  const label = first === undefined ? 'record entries' : LABELS[first.kind];
  return write(label, now, { puts: entries.map((entry) => ({ table: 'ledger', row: { ...stamped(now), ...entry } as LedgerEntry })) });
}

export async function recordEntry(entry: NewEntry): Promise<Outcome<LedgerEntry>> {
  const now = nowInstant();
  // The entry's own union member with its stamps is a member of the record's union.
  const row = { ...stamped(now), ...entry } as LedgerEntry;
  const written = await add('ledger', row, LABELS[entry.kind], now);
  return written.ok ? done(row) : written;
}

/**
 * Records a purchase, and its supplier on data sheets without one.
 * @param prices paid prices to store in the data sheets
 */
export function recordPurchase(entry: Extract<NewEntry, { kind: 'purchase' }>, prices: readonly PricePaid[]): Promise<Outcome> {
  const now = nowInstant();
  const ids = [...new Set(entry.lines.flatMap((line) => line.materialId ?? []))];
  const patches = ids.map((id): Patch => {
    const paid = prices.find(({ material }) => material.id === id);
    return {
      table: 'materials',
      id,
      change: (m) => {
        const priced =
          paid === undefined ? m : { ...m, prices: withPrice(m.prices, { from: paid.from, minor: paid.minor, note: entry.supplier }) };
        return priced.supplier === '' ? { ...priced, supplier: entry.supplier } : priced;
      },
    };
  });
  return write(LABELS.purchase, now, { puts: [{ table: 'ledger', row: { ...stamped(now), ...entry } }], patches });
}

/**
 * Voids an entry: it stays on record and no longer counts. A finished job that has to be invoiced or credited again is open again, unless
 * its rooms are in a newer job.
 * @param credits credits and write-offs that are voided with an invoice
 */
export async function voidEntry(entry: LedgerEntry, reason: string, credits: readonly Credit[] = []): Promise<Outcome> {
  const now = nowInstant();
  const entryName = entry.kind === 'invoice' ? `invoice ${entry.number}` : entry.kind;
  const voided = [entry, ...credits].map(
    ({ id }): Patch => ({ table: 'ledger', id, change: (row) => ({ ...row, voidedAt: now, voidReason: reason }) }),
  );
  const bills = (entry.kind === 'invoice' && !isLateCharge(entry)) || entry.kind === 'credit';
  const { jobId } = entry;
  const free = await attempt(async () => done(bills && jobId !== null && (await mayReopen(jobId))));
  if (!free.ok) return free;
  const job: Patch[] = free.value && jobId !== null ? [{ table: 'jobs', id: jobId, change: (stored) => reopened(stored, 'finished') }] : [];
  return write(`void ${entryName}`, now, {
    patches: [...voided, ...job],
    final: 'Record or issue it again if it still counts.',
  });
}
