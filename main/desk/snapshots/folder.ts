/** The folder of snapshots: listing, reading, thinning, and what the photos beside them take. */
import { mkdir, readdir, readFile, rm, stat, statfs, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { snapshotMoment, thinSnapshots } from '../../../shared-core/book/snapshot-names.ts';
import { DeskFailure, explainDisk } from '../failure.ts';
import { isLocked, type Lock, unlock } from './lock.ts';
import { picturesBytes, sweepPictures } from './pictures.ts';
import { type OpenedBook, openBookBytes } from './read-book.ts';
import { ZIP_LIMITS } from './read-zip.ts';
import { sweepHalfWritten } from './whole-file.ts';

export type ListedSnapshot = { readonly name: string; readonly madeAt: string; readonly bytes: number };
export type Opening = { readonly lock: Lock | null; readonly passphrase: string | null };

const DAY_MS = 24 * 3_600_000;
/** When photos were last looked through for ones that no snapshot names. */
const SWEPT = '.swept';

const isMissing = (error: unknown): boolean => error instanceof Error && 'code' in error && error.code === 'ENOENT';

/** Makes sure the folder is there. */
export async function readyFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    throw explainDisk(error, 'The Backups folder');
  }
}

/** The snapshots of a folder, newest first; other files are not looked at. */
export async function listSnapshots(folder: string): Promise<ListedSnapshot[]> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (isMissing(error)) return [];
    throw explainDisk(error, 'The Backups folder');
  });
  const found: ListedSnapshot[] = [];
  for (const name of names) {
    const madeAt = snapshotMoment(name);
    if (madeAt === null) continue;
    const there = await stat(join(folder, name)).catch(() => null);
    if (there !== null && there.isFile()) found.push({ name, madeAt, bytes: there.size });
  }
  return found.sort((a, b) => (a.madeAt < b.madeAt ? 1 : -1));
}

/** The room left on the disk the folder is on; null where the system does not say. */
export async function roomLeft(folder: string): Promise<number | null> {
  try {
    const { bavail, bsize } = await statfs(folder);
    return bavail * bsize;
  } catch {
    return null;
  }
}

/** Opens a snapshot's bytes, wherever they came from. */
export async function openBytes(bytes: Buffer, by: Opening): Promise<OpenedBook> {
  let plain = bytes;
  if (isLocked(bytes)) {
    const unlocked = await unlock(bytes, by);
    if (!unlocked.ok)
      throw new DeskFailure(
        ({ locked: 'locked', wrong: 'wrong-passphrase', damaged: 'bad-input' } as const)[unlocked.why],
        unlocked.message,
      );
    plain = unlocked.value;
  }
  const book = openBookBytes(plain);
  if (!book.ok) throw new DeskFailure('bad-input', book.message);
  return book.value;
}

/** Reads one snapshot by name. */
export async function openSnapshot(folder: string, name: string, by: Opening): Promise<OpenedBook> {
  const path = join(folder, name);
  let bytes: Buffer;
  try {
    if ((await stat(path)).size > ZIP_LIMITS.fileBytes)
      throw new DeskFailure('too-large', 'This file is larger than any backup. Nothing in the book was changed.');
    bytes = await readFile(path);
  } catch (error) {
    if (isMissing(error))
      throw new DeskFailure('not-found', 'This backup is not in the Backups folder any more. Choose another one.', error);
    throw explainDisk(error, name);
  }
  return openBytes(bytes, by);
}

/** Removes what the calendar of copies does not keep. Gives the names. An old one that will not go is no reason to call a new one failed. */
export async function thin(folder: string, now: string, limitBytes: number, keep: string): Promise<string[]> {
  const [newest, ...older] = await listSnapshots(folder);
  if (newest === undefined) return [];
  const room = Math.max(0, limitBytes - (await picturesBytes(folder)));
  const removed = thinSnapshots([newest, ...older], now, room).filter((name) => name !== keep);
  for (const gone of removed) await rm(join(folder, gone), { force: true }).catch(() => undefined);
  return removed;
}

/** Once a day: what killed programs left, and photos that no snapshot names. Nothing goes when any snapshot cannot be read. */
export async function sweepFolder(folder: string, lock: Lock | null, nowMs: number): Promise<void> {
  await sweepHalfWritten(folder, nowMs).catch(() => undefined);
  const note = join(folder, SWEPT);
  const last = await stat(note).then(
    (found) => found.mtimeMs,
    () => 0,
  );
  if (nowMs - last < DAY_MS) return;
  await writeFile(note, '');
  const known = new Set<string>();
  for (const { name } of await listSnapshots(folder)) {
    const book = await openSnapshot(folder, name, { lock, passphrase: null }).catch(() => null);
    if (book === null) return;
    for (const picture of book.manifest.beside) known.add(picture);
  }
  await sweepPictures(folder, known, nowMs);
}
