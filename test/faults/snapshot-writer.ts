/** Writes snapshots one after another until it is killed, each with one record more; says which are on the disk. */
import { keepSnapshot } from '../../main/desk/snapshots/folder.ts';
import type { BookRows } from '../../shared-core/book/snapshot.ts';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';

const folder = process.argv[2] ?? '';
const start = Number(process.argv[3]);
for (let serial = start; ; serial += 1) {
  const clients = Array.from({ length: 200 }, (_, i) => ({ id: `client-${i}`, name: `${serial}`, notes: 'x'.repeat(200) }));
  const rows = { ...Object.fromEntries(TABLE_NAMES.map((table) => [table, []])), clients } as unknown as BookRows;
  await keepSnapshot(folder, rows, new Date(Date.UTC(2026, 0, 1) + serial).toISOString(), 'before-restoring');
  process.stdout.write(`${serial}\n`);
}
