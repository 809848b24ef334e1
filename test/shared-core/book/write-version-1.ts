/**
 * Writes the stored data of version 1 from the sample, until version 1 is released; after that the file does not change. `npx esbuild
 * test/shared-core/book/write-version-1.ts --bundle --platform=node --format=esm --log-level=error | node --input-type=module -
 * test/shared-core/book/version-1.fixture.json`
 */
import { writeFileSync } from 'node:fs';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';

const NOW = '2026-05-12T15:05:00.000Z';
const READINGS_KEPT = 4;
const EVENTS_KEPT = 3;
const JOBS = new Set(['sample-job-abara', 'sample-job-tremaine']);
const stamps = { createdAt: NOW, changedAt: NOW, deletedAt: null };
const sha256 = 'a'.repeat(64);

/** Rows that the sample lacks, so that every table has one. */
const ADDED: Partial<Record<TableName, StoredRow[]>> = {
  ledger: [
    {
      ...stamps,
      ...{
        id: 'stored-invoice',
        kind: 'invoice',
        jobId: 'sample-job-abara',
        onDay: '2026-05-12',
        note: '',
        voidedAt: null,
        voidReason: '',
      },
      ...{ serial: 1, number: 'INV-2026-001', purpose: 'deposit', stageName: null, title: 'Deposit', netMinor: 100000, totalMinor: 108000 },
      taxes: [{ taxId: 'sales', name: 'Sales tax', rate: 0.08, baseMinor: 100000, taxMinor: 8000 }],
      ...{ retainageMinor: 0, dueOn: '2026-06-11', currency: 'USD' },
    },
    {
      ...stamps,
      ...{
        id: 'stored-payment',
        kind: 'payment',
        jobId: 'sample-job-abara',
        onDay: '2026-05-14',
        note: '',
        voidedAt: null,
        voidReason: '',
      },
      ...{ amountMinor: 108000, method: 'check', reference: '1042', invoiceId: 'stored-invoice' },
    },
  ],
  documents: [
    {
      ...stamps,
      ...{ id: 'stored-document', jobId: 'sample-job-abara', kind: 'handover', revision: 1, title: 'Handover 26-001', madeAt: NOW },
      ...{ changes: [], content: '{}', quoteId: null, entryId: null, sha256, programVersion: '0.1.0', sent: [], signatures: [] },
    },
  ],
  photos: [
    {
      ...stamps,
      ...{ id: 'stored-photo', jobId: 'sample-job-abara', roomId: 'sample-living', caption: 'By the door', takenAt: NOW },
      ...{ mediaType: 'image/jpeg', widthPx: 800, heightPx: 600, sha256 },
    },
  ],
  calendarEntries: [
    {
      ...stamps,
      ...{ id: 'stored-entry', jobId: 'sample-job-abara', uid: 'stored-entry@straightedge', sequence: 1, fingerprint: 'x' },
      ...{ cancelled: false, lastSentAt: NOW, note: '' },
    },
  ],
};

const shortened = (value: unknown, key = ''): unknown => {
  if (Array.isArray(value)) {
    const stored = key === 'readings' ? value.slice(0, READINGS_KEPT) : value;
    return stored.map((item) => shortened(item));
  }
  if (key === 'content') return '{}';
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, shortened(inner, name)]));
};

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const book = sampleBook(NOW);
const pours = new Set(book.pours.filter((pour) => JOBS.has(pour.jobId)).map((pour) => pour.id));
const isKept = (table: TableName, row: StoredRow): boolean => {
  if (table === 'jobs') return JOBS.has(text(row['id']));
  if (table === 'pourEvents') return pours.has(text(row['pourId']));
  return row['jobId'] === undefined || row['jobId'] === null || JOBS.has(text(row['jobId']));
};
const firstOfEachKind = (rows: readonly StoredRow[]): StoredRow[] => {
  const seen = new Map<unknown, number>();
  return rows.filter((row) => {
    const many = (seen.get(row['kind']) ?? 0) + 1;
    seen.set(row['kind'], many);
    return many <= EVENTS_KEPT;
  });
};

const stored = Object.fromEntries(
  TABLE_NAMES.map((table) => {
    const rows = [...(book[table] as readonly StoredRow[]), ...(ADDED[table] ?? [])].filter((row) => isKept(table, row));
    return [table, (table === 'pourEvents' ? firstOfEachKind(rows) : rows).map((row) => shortened(row))];
  }),
);
for (const table of TABLE_NAMES) if ((stored[table] ?? []).length === 0) throw new Error(`No row of ${table}.`);
const lines = TABLE_NAMES.map(
  (table) => `${JSON.stringify(table)}: [\n${(stored[table] ?? []).map((row) => JSON.stringify(row)).join(',\n')}\n]`,
);
writeFileSync(process.argv[2] ?? '', `{\n${lines.join(',\n')}\n}\n`);
