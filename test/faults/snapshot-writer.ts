/** Writes copies one after another until it is killed, each with another record in every row; says which are on the disk. */
import { beginSnapshot } from '../../main/desk/snapshots/writing.ts';

const folder = process.argv[2] ?? '';
const start = Number(process.argv[3]);
for (let serial = start; ; serial += 1) {
  const customers = Array.from({ length: 200 }, (_, i) => ({
    id: `client-${String(i).padStart(4, '0')}`,
    name: `${serial}`,
    notes: 'x'.repeat(200),
  }));
  const copy = await beginSnapshot(folder, new Date(Date.UTC(2026, 0, 1) + serial).toISOString(), 'before-restoring', null);
  for (let from = 0; from < customers.length; from += 50) await copy.add('customers', customers.slice(from, from + 50));
  await copy.finish([]);
  process.stdout.write(`${serial}\n`);
}
