/** Ledger entries: issuing, recording, voiding. Nothing is deleted; a mistake is voided with a reason. */
import type { Credit, Drive, Hours, Invoice, LedgerEntry, Payment, Purchase, Refund } from '../../shared-core/book/ledger.ts';
import { type InvoiceDraft, nextInvoiceNumber } from '../../shared-core/ledger/next-invoice.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { newId, nowInstant } from './moment.ts';
import { attempt, done, type Outcome } from './outcome.ts';
import { add, write } from './write.ts';

type Own = 'id' | 'createdAt' | 'changedAt' | 'deletedAt' | 'voidedAt' | 'voidReason';
/** What a person enters; the record adds its id and times. */
export type NewEntry = { [E in Payment | Refund | Credit | Purchase | Hours | Drive as E['kind']]: Omit<E, Own> }[Exclude<
  LedgerEntry['kind'],
  'invoice'
>];

const stamped = (now: string) => ({ id: newId(), createdAt: now, changedAt: now, deletedAt: null, voidedAt: null, voidReason: '' });

/** What a person chooses when an invoice is issued. */
export type InvoiceTerms = Pick<Invoice, 'onDay' | 'dueOn' | 'title' | 'retainageMinor' | 'note' | 'currency'>;

/** Issues an invoice under the next number of its year. */
export async function issueInvoice(jobId: string, draft: InvoiceDraft, terms: InvoiceTerms): Promise<Outcome<Invoice>> {
  const now = nowInstant();
  const read = await attempt(async () => done(await book().rowsOf('ledger').where('kind').equals('invoice').toArray()));
  if (!read.ok) return read;
  const invoices = readable('ledger', read.value).filter((e): e is Invoice => e.kind === 'invoice');
  const { purpose, stageName, netMinor, taxes, totalMinor } = draft;
  const number = nextInvoiceNumber(invoices, Number(terms.onDay.slice(0, 4)));
  const row: Invoice = { ...stamped(now), ...terms, ...number, kind: 'invoice', jobId, purpose, stageName, netMinor, taxes, totalMinor };
  const written = await write(`issued invoice ${row.number}`, now, { puts: [{ table: 'ledger', row }], isFinal: true });
  return written.ok ? done(row) : written;
}

const LABELS: Readonly<Record<NewEntry['kind'], string>> = {
  payment: 'recorded a payment',
  refund: 'recorded a refund',
  credit: 'recorded a credit',
  'write-off': 'wrote off an amount',
  purchase: 'recorded a purchase',
  hours: 'recorded hours',
  drive: 'recorded a drive',
};

/** Records a payment, refund, credit, write-off or cost. */
export async function recordEntry(entry: NewEntry): Promise<Outcome<LedgerEntry>> {
  const now = nowInstant();
  // The entry's own union member with its stamps is a member of the record's union.
  const row = { ...stamped(now), ...entry } as LedgerEntry;
  const written = await add('ledger', row, LABELS[entry.kind], now);
  return written.ok ? done(row) : written;
}

/** Voids an entry: it stays on the record and no longer counts. */
export function voidEntry(entry: LedgerEntry, reason: string): Promise<Outcome> {
  const now = nowInstant();
  const what = entry.kind === 'invoice' ? `invoice ${entry.number}` : `${entry.kind} of ${entry.onDay}`;
  return write(`voided ${what}`, now, {
    patches: [{ table: 'ledger', id: entry.id, change: (row) => ({ ...row, voidedAt: now, voidReason: reason }) }],
    isFinal: true,
  });
}
