/** Lists, reads and thins the backups of a folder, and measures its photos. */
import { lstat, readdir, readFile, rm, stat, statfs, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type BackupNaming, readBackupName, thinBackups } from '../../../shared-core/book/backup-names.ts';
import { DeskFailure, errno, explainDisk } from '../failure.ts';
import { PRIVATE_FILE, readyPlace, sweepHalfWritten } from '../files.ts';
import { type BackupKey, decrypt, isEncrypted } from './encryption.ts';
import { sweepPictures } from './photos.ts';
import { type OpenedBackup, openBackupBytes } from './read-backup.ts';
import { ZIP_LIMITS } from './read-zip.ts';

export type ListedBackup = BackupNaming & { readonly name: string; readonly bytes: number };
export type Opening = { readonly key: BackupKey | null; readonly passphrase: string | null };

const DAY_MS = 24 * 3_600_000;
/** When unused photos were last looked for. */
const SWEPT = '.swept';
export const FOLDER = 'The Backups folder';

export const readyFolder = (folder: string): Promise<void> => readyPlace(folder, FOLDER);

/** Backups of a folder, newest first. Other files are ignored and links are not followed. */
export async function listBackups(folder: string): Promise<ListedBackup[]> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (errno(error) === 'ENOENT') return [];
    throw explainDisk(error, FOLDER, 'opened');
  });
  const found: ListedBackup[] = [];
  for (const name of names) {
    const naming = readBackupName(name);
    if (naming === null) continue;
    const file = await lstat(join(folder, name)).catch(() => null);
    if (file !== null && file.isFile()) found.push({ ...naming, name, bytes: file.size });
  }
  return found.sort((a, b) => (a.madeAt < b.madeAt ? 1 : -1));
}

/** Free bytes on the disk of a folder; null where the system does not report them. */
export async function freeBytes(folder: string): Promise<number | null> {
  try {
    const { bavail, bsize } = await statfs(folder);
    return bavail * bsize;
  } catch {
    return null;
  }
}

/** Opens the bytes of a backup. */
export async function openBytes(bytes: Buffer, by: Opening, prove: 'all' | 'packed' = 'all'): Promise<OpenedBackup> {
  let plain = bytes;
  if (isEncrypted(bytes)) {
    const decrypted = await decrypt(bytes, by);
    if (!decrypted.ok)
      throw new DeskFailure(
        ({ encrypted: 'encrypted', wrong: 'wrong-passphrase', damaged: 'bad-input' } as const)[decrypted.why],
        decrypted.message,
      );
    plain = decrypted.value;
  }
  const backup = openBackupBytes(plain, prove);
  if (!backup.ok) throw new DeskFailure('bad-input', backup.message);
  return backup.value;
}

export async function openBackupFile(folder: string, name: string, by: Opening, prove: 'all' | 'packed' = 'all'): Promise<OpenedBackup> {
  const path = join(folder, name);
  let bytes: Buffer;
  try {
    if ((await stat(path)).size > ZIP_LIMITS.fileBytes)
      throw new DeskFailure('too-large', 'This file is larger than any backup. Your data was not changed.');
    bytes = await readFile(path);
  } catch (error) {
    if (errno(error) === 'ENOENT')
      throw new DeskFailure('not-found', 'This backup is no longer in the Backups folder. Choose another one.', error);
    throw explainDisk(error, name, 'opened');
  }
  return openBytes(bytes, by, prove);
}

/** Deletes the backups of a data set that need not be kept. Returns their names. A file that cannot be deleted is skipped. */
export async function thin(
  folder: string,
  of: { readonly dataset: string; readonly now: string; readonly limitBytes: number },
): Promise<string[]> {
  const removed = thinBackups(await listBackups(folder), of.dataset, of.now, of.limitBytes);
  for (const name of removed) await rm(join(folder, name), { force: true }).catch(() => undefined);
  return removed;
}

/** Once a day, deletes partial files of killed programs and photos that no backup reads. Deletes nothing if any backup cannot be read. */
export async function sweepFolder(folder: string, key: BackupKey | null, nowMs: number): Promise<void> {
  await sweepHalfWritten(folder, nowMs).catch(() => undefined);
  const note = join(folder, SWEPT);
  const last = await stat(note).then(
    (found) => found.mtimeMs,
    () => 0,
  );
  // A date in the future means that the clock was set back.
  if (nowMs - last < DAY_MS && last <= nowMs + DAY_MS) return;
  await writeFile(note, '', { mode: PRIVATE_FILE });
  await utimes(note, nowMs / 1000, nowMs / 1000);
  const known = { plain: new Set<string>(), encrypted: new Set<string>() };
  for (const { name } of await listBackups(folder)) {
    const backup = await openBackupFile(folder, name, { key, passphrase: null }, 'packed').catch(() => null);
    if (backup === null) return;
    const used = name.endsWith('.encrypted') ? known.encrypted : known.plain;
    for (const picture of backup.manifest.beside) used.add(picture);
  }
  await sweepPictures(folder, known, nowMs);
}
