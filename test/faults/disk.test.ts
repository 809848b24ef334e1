/** A full or read-only disk: a small one is mounted where the tests run as root; elsewhere a folder without permissions replaces it. */
import { spawnSync } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { listBackups, openBackupFile } from '../../main/desk/backups/backups-folder.ts';
import { beginBackup } from '../../main/desk/backups/writing.ts';
import { workingDesk } from '../main/desk/working-desk.ts';
import { rangeBytes } from '../main/desk/backups/pack-rows.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const disk = mkdtempSync(join(tmpdir(), 'straightedge-disk-'));
const mounted = process.getuid?.() === 0 && spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', disk]).status === 0;
afterAll(() => {
  if (mounted) spawnSync('umount', [disk]);
  removeFolder(disk);
});
const instantOf = (serial: number): string => new Date(Date.UTC(2026, 0, 1) + serial * 60_000).toISOString();
/** Rows that do not compress. */
const rows = (many: number) =>
  Array.from({ length: many }, (_, i) => ({ id: `c${String(i).padStart(6, '0')}`, notes: randomBytes(300).toString('base64') }));
const copy = async (folder: string, serial: number, many: number): Promise<string> => {
  const writing = await beginBackup(folder, { dataset: '0a1b2c3d', madeAt: instantOf(serial), reason: 'before-restore' }, null);
  await writing.add('customers', rangeBytes(rows(many)));
  return (await writing.finish()).name;
};

describe.runIf(mounted)('a full disk', () => {
  const folder = join(disk, 'Backups');
  let first = '';
  beforeAll(async () => {
    first = await copy(folder, 1, 20);
  });

  it('a backup is refused in a sentence, leaves no partial file and keeps the older backups', async () => {
    await expect(copy(folder, 2, 6000)).rejects.toMatchObject({ code: 'disk-full', message: expect.stringMatching(/disk is full/i) });
    expect((await listBackups(folder)).map(({ name }) => name)).toEqual([first]);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
    expect((await openBackupFile(folder, first, { key: null, passphrase: null })).count('customers')).toBe(20);
  });

  it('a document and a photo are refused in a sentence, and the earlier file stays', async () => {
    const { dispatch } = workingDesk({ papersFolder: join(disk, 'Papers'), usualBackups: folder });
    const saveFile = (bytes: Buffer) => dispatch('file.save', { name: 'Quote.pdf', base64: bytes.toString('base64') });
    expect(await saveFile(Buffer.from('the paper before'))).toMatchObject({ ok: true });
    expect(await saveFile(randomBytes(2_000_000))).toMatchObject({
      ok: false,
      error: { code: 'disk-full', message: expect.stringContaining('Quote.pdf') },
    });
    expect(readdirSync(join(disk, 'Papers'))).toEqual(['Quote.pdf']);
    const photo = randomBytes(2_000_000);
    const name = `photos/${createHash('sha256').update(photo).digest('hex')}.jpg`;
    expect(await dispatch('backup.add-photos', { photos: [{ name, base64: photo.toString('base64') }], encrypted: false })).toMatchObject({
      ok: false,
      error: { code: 'disk-full' },
    });
  });

  it('backups work again when there is space', async () => {
    writeFileSync(join(disk, 'ballast'), Buffer.alloc(100_000));
    rmSync(join(disk, 'ballast'));
    const retried = await copy(folder, 3, 20);
    expect((await listBackups(folder))[0]?.name).toBe(retried);
  });
});

describe.runIf(mounted)('a disk that became read-only', () => {
  it('backups and documents are refused in a sentence, and backups on it can still be read', async () => {
    const folder = join(disk, 'Backups');
    const before = await listBackups(folder);
    expect(spawnSync('mount', ['-o', 'remount,ro', disk]).status).toBe(0);
    try {
      await expect(copy(folder, 9, 5)).rejects.toMatchObject({ code: 'read-only', message: expect.stringMatching(/cannot write/) });
      const { dispatch } = workingDesk({ papersFolder: join(disk, 'Papers') });
      expect(await dispatch('file.save', { name: 'Prep.pdf', base64: '' })).toMatchObject({ ok: false, error: { code: 'read-only' } });
      expect(await listBackups(folder)).toEqual(before);
      await openBackupFile(folder, before[0]?.name ?? '', { key: null, passphrase: null });
    } finally {
      spawnSync('mount', ['-o', 'remount,rw', disk]);
    }
  });
});
