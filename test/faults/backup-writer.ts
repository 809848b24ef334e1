/** Writes incremental backups until it is killed, and prints which are on the disk. */
import { listBackups } from '../../main/desk/backups/backups-folder.ts';
import { beginBackup } from '../../main/desk/backups/writing.ts';
import { rangeBytes } from '../main/desk/backups/pack-rows.ts';

const folder = process.argv[2] ?? '';
const start = Number(process.argv[3]);
for (let serial = start; ; serial += 1) {
  const customers = Array.from({ length: 200 }, (_, i) => ({
    id: `customer-${String(i).padStart(4, '0')}`,
    name: `${serial}`,
    notes: 'x'.repeat(200),
  }));
  const naming = { dataset: '0a1b2c3d', madeAt: new Date(Date.UTC(2026, 0, 1) + serial).toISOString(), reason: 'before-restore' } as const;
  const base = (await listBackups(folder))[0]?.name ?? null;
  const backup = await beginBackup(folder, naming, null, base);
  for (let from = 0; from < customers.length; from += 50) await backup.add('customers', rangeBytes(customers.slice(from, from + 50)));
  const rooms = backup.baseRanges()?.some(({ table }) => table === 'rooms') ?? false;
  if (rooms) await backup.copy('rooms', 0, 1);
  else await backup.add('rooms', rangeBytes([{ id: 'room-0001', name: 'Hall' }]));
  await backup.finish();
  process.stdout.write(`${serial}\n`);
}
