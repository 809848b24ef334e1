import { spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { listBackups, openBackupFile } from '../../main/desk/backups/backups-folder.ts';
import { moments, SEED } from '../moments.ts';
import { tableOf } from '../main/desk/backups/pack-rows.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

/** `STRAIGHTEDGE_KILLS=200` runs more. */
const KILLS = Number(process.env['STRAIGHTEDGE_KILLS'] ?? 8);
const WINDOW_MS = 60;
const random = moments(SEED);

it(`a program killed ${KILLS} times while writing never damages a backup, and loses none it reported as saved (seed ${SEED})`, async () => {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-kill-'));
  const writer = join(folder, 'writer.mjs');
  await build({
    entryPoints: [join(import.meta.dirname, 'backup-writer.ts')],
    outfile: writer,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'error',
  });
  let killed = 0;
  let acknowledged = -1;
  let next = 0;
  const once = async (home: string): Promise<void> => {
    const child = spawn(process.execPath, [writer, home, String(next)], { stdio: ['ignore', 'pipe', 'inherit'] });
    let output = '';
    await new Promise<void>((resolve) => {
      let timer: ReturnType<typeof setTimeout> | null = null;
      child.stdout.on('data', (part: Buffer) => {
        output += part.toString();
        // A kill before it writes would prove nothing.
        timer ??= setTimeout(() => child.kill('SIGKILL'), random() * WINDOW_MS);
      });
      child.once('close', (_code, signal) => {
        if (signal === 'SIGKILL') killed += 1;
        if (timer !== null) clearTimeout(timer);
        resolve();
      });
    });
    acknowledged = Number(output.trimEnd().split('\n').at(-1));
  };
  for (let i = 0; i < KILLS; i += 1) {
    const home = join(folder, 'Backups');
    await once(home);
    const [newest] = await listBackups(home);
    if (newest === undefined) throw new Error('No backup is left.');
    const serial = Date.parse(newest.madeAt) - Date.UTC(2026, 0, 1);
    expect(serial).toBeGreaterThanOrEqual(acknowledged);
    const copy = await openBackupFile(home, newest.name, { key: null, passphrase: null });
    expect(copy.count('customers')).toBe(200);
    expect(tableOf(copy, 'rooms')).toEqual([{ id: 'room-0001', name: 'Hall' }]);
    expect((tableOf(copy, 'customers') as { name: string }[]).every(({ name }) => name === String(serial))).toBe(true);
    next = serial + 1;
    if (i % 10 === 9) removeFolder(home);
  }
  expect(killed).toBe(KILLS);
  removeFolder(folder);
}, 600_000);
