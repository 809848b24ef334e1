/** A large backup beside a plain zip of the same bytes, reading it beside parsing the same text, and the next backup after one edit. */
import { crc32, deflateRawSync } from 'node:zlib';
import { openBackupBytes } from '../../main/desk/backups/read-backup.ts';
import { BackupWriter } from '../../main/desk/backups/write-backup.ts';
import { rangeText } from '../../shared-core/book/backup.ts';

const AT = '2026-05-12T11:05:00.000Z';
const PIECE = 1000;
const NAMING = { dataset: '0a1b2c3d', madeAt: AT, reason: 'automatic' } as const;
const TABLES = { customers: 3000, properties: 4000, rooms: 20_000, jobs: 5000, pourEvents: 100_000 } as const;

type BenchResult = {
  readonly title: string;
  readonly rows: readonly { readonly what: string; readonly ms: number; readonly ratio: number | null }[];
  readonly notes: readonly string[];
};

const rangeOf = (rows: readonly unknown[]): Buffer => Buffer.from(rangeText(rows.map((row) => JSON.stringify(row))));
const rowsOf = (many: number): { id: string }[] =>
  Array.from({ length: many }, (_, i) => ({
    id: `row-${String(i).padStart(7, '0')}`,
    createdAt: AT,
    changedAt: AT,
    deletedAt: null,
    name: `Row ${i} of the book`,
    values: [i * 0.1, i * 0.2, Math.sin(i)],
    notes: `Side door, key with the neighbor at number ${i % 97}.`,
  }));

/** Measured once, because large sizes keep the noise small. */
export function run(): BenchResult {
  const book = Object.entries(TABLES).map(([table, many]) => ({ table: table as keyof typeof TABLES, rows: rowsOf(many) }));
  let start = performance.now();
  const writer = new BackupWriter(NAMING);
  const order = ['customers', 'properties', 'rooms', 'jobs', 'pourEvents'] as const;
  for (const name of order) {
    const rows = book.find(({ table }) => table === name)?.rows ?? [];
    for (let from = 0; from < rows.length; from += PIECE) writer.add(name, rangeOf(rows.slice(from, from + PIECE)));
  }
  writer.finish([]);
  const bytes = writer.take();
  const writing = performance.now() - start;
  start = performance.now();
  const texts = book.map(({ rows }) => Buffer.from(JSON.stringify(rows)));
  const packed = texts.map((text) => ({ crc: crc32(text), data: deflateRawSync(text, { level: 6 }) }));
  const plain = performance.now() - start;
  start = performance.now();
  const read = openBackupBytes(bytes);
  if (!read.ok) throw new Error(read.message);
  let many = 0;
  for (const name of order) many += read.value.rows(name, 0, Number.MAX_SAFE_INTEGER).many;
  const reading = performance.now() - start;
  start = performance.now();
  const base = openBackupBytes(bytes, 'packed');
  if (!base.ok) throw new Error(base.message);
  const next = new BackupWriter(NAMING);
  for (const name of order)
    for (const [index] of base.value.ranges(name).entries()) {
      const found = base.value.packed(name, index);
      if (found === null) throw new Error('A range was changed.');
      if (name === 'jobs' && index === 2) next.add(name, rangeOf(base.value.rangeRows(name, index)));
      else next.copy(found.range, found.packed);
    }
  next.finish([]);
  next.take();
  const copying = performance.now() - start;
  start = performance.now();
  for (const text of texts) JSON.parse(text.toString('utf8'));
  const parsing = performance.now() - start;
  if (many !== Object.values(TABLES).reduce((a, b) => a + b, 0)) throw new Error('Not every row came back.');
  return {
    title: 'A backup of 132,000 records',
    rows: [
      { what: 'deflating the same text whole', ms: plain, ratio: null },
      { what: 'writing the backup: rows in pieces, checksums, manifest', ms: writing, ratio: plain / writing },
      { what: 'the next backup after one edit: unchanged ranges copied', ms: copying, ratio: plain / copying },
      { what: 'parsing the same text', ms: parsing, ratio: null },
      { what: 'reading the backup: every checksum and record proven, rows handed out', ms: reading, ratio: parsing / reading },
    ],
    notes: [
      `${Math.round(bytes.length / 1000)} kB; deflated whole ${Math.round(packed.reduce((sum, p) => sum + p.data.length, 0) / 1000)} kB.`,
    ],
  };
}
