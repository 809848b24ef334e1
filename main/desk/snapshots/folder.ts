/** The folder of snapshots: writing one so that it is there whole or not at all, listing, reading, thinning. */
import { randomBytes } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { snapshotMoment, snapshotName, thinSnapshots } from '../../../shared-core/book/snapshot-names.ts';
import type { BookRows, SnapshotReason } from '../../../shared-core/book/snapshot.ts';
import { DeskFailure, explainDisk } from '../failure.ts';
import { packBook, sha256Of, type UnpackedBook, unpackBook } from './pack.ts';
import { ZIP_LIMITS } from './read-zip.ts';

/** The room all snapshots together may take. */
export const BACKUPS_LIMIT_BYTES = 2 * 1024 ** 3;
/** What a killed program left half written is swept up after this long. */
const STALE_MS = 10 * 60_000;
const HALF_WRITTEN = /^\.[0-9a-f]{16}\.part$/;

export type KeptSnapshot = { readonly name: string; readonly bytes: number; readonly sha256: string; readonly removed: string[] };
export type ListedSnapshot = { readonly name: string; readonly madeAt: string; readonly bytes: number };

/** On systems that cannot flush a folder the rename alone has to do. */
const flushFolder = async (folder: string): Promise<void> => {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch {
    // Windows refuses to open a folder for this.
  }
};

const writeWhole = async (folder: string, name: string, bytes: Uint8Array): Promise<void> => {
  const beside = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  try {
    const file = await open(beside, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    // Read back before it takes the name: a disk that lies is found out while the older snapshots still stand.
    if (sha256Of(await readFile(beside)) !== sha256Of(bytes))
      throw new DeskFailure(
        'failed',
        'The disk did not give back what was written to it. Use another disk for the backups, and have this one checked.',
      );
    await rename(beside, join(folder, name));
    await flushFolder(folder);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw explainDisk(error, name);
  }
};

const sweep = async (folder: string, nowMs: number): Promise<void> => {
  for (const name of await readdir(folder)) {
    if (!HALF_WRITTEN.test(name)) continue;
    const path = join(folder, name);
    const age = await stat(path).then(
      (found) => nowMs - found.mtimeMs,
      () => 0,
    );
    if (age > STALE_MS) await rm(path, { force: true });
  }
};

/** The snapshots of a folder, newest first; other files are not looked at. */
export async function listSnapshots(folder: string): Promise<ListedSnapshot[]> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
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

/**
 * Writes a snapshot, checks what stands on the disk, then thins out the older ones.
 * @throws DeskFailure with a sentence when the disk refuses; older snapshots then stand untouched
 */
export async function keepSnapshot(
  folder: string,
  rows: BookRows,
  madeAt: string,
  reason: SnapshotReason,
  limitBytes = BACKUPS_LIMIT_BYTES,
): Promise<KeptSnapshot> {
  const bytes = packBook(rows, madeAt, reason);
  if (bytes.length > ZIP_LIMITS.fileBytes)
    throw new DeskFailure(
      'too-large',
      'The book with its photos is larger than one backup can hold. Take old photos out of finished jobs, then try again.',
    );
  const name = snapshotName(madeAt, reason);
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    throw explainDisk(error, 'The Backups folder');
  }
  await writeWhole(folder, name, bytes);
  const back = unpackBook(await readFile(join(folder, name)));
  if (!back.ok) {
    await rm(join(folder, name), { force: true });
    throw new DeskFailure(
      'failed',
      'The backup could not be read back after it was written, so it was removed. The older ones stand; try again.',
    );
  }
  const removed = thinSnapshots(await listSnapshots(folder), madeAt, limitBytes).filter((gone) => gone !== name);
  // The new one is safe by now: an old one that will not go is no reason to call it failed.
  for (const gone of removed) await rm(join(folder, gone), { force: true }).catch(() => undefined);
  await sweep(folder, Date.now()).catch(() => undefined);
  return { name, bytes: bytes.length, sha256: sha256Of(bytes), removed };
}

/** Reads one snapshot by name. */
export async function readSnapshot(folder: string, name: string): Promise<UnpackedBook> {
  const path = join(folder, name);
  let bytes: Buffer;
  try {
    if ((await stat(path)).size > ZIP_LIMITS.fileBytes)
      throw new DeskFailure('too-large', 'This file is larger than any backup. Nothing in the book was changed.');
    bytes = await readFile(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT')
      throw new DeskFailure('not-found', 'This backup is not in the Backups folder any more. Choose another one.', error);
    throw explainDisk(error, name);
  }
  return opened(bytes);
}

/** Reads a snapshot's bytes, wherever they came from. */
export function opened(bytes: Uint8Array): UnpackedBook {
  const book = unpackBook(bytes);
  if (!book.ok) throw new DeskFailure('bad-input', book.message);
  return book.value;
}
