/** The folder `Photos` beside the backups: each photo once, named by its checksum, plain or encrypted. */
import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { pictureSha256 } from '../../../shared-core/book/backup.ts';
import { readyPlace, sha256Of, sweepHalfWritten } from '../files.ts';
import { encryptedPictureName, encryptPicture, decryptPicture } from './encryption.ts';
import { WholeFile } from './whole-file.ts';

/** Keeps unused photos this long, ms, because a backup being made may use them. */
const UNKNOWN_MS = 24 * 3_600_000;

const folderIn = (backups: string): string => join(backups, 'Photos');
const fileOf = (name: string, encrypted: boolean): string => (encrypted ? encryptedPictureName(pictureSha256(name)) : basename(name));

/** The photos that the folder lacks. */
export async function wantedPictures(backups: string, names: readonly string[], encrypted: boolean): Promise<string[]> {
  const existing = new Set(await readdir(folderIn(backups)).catch(() => []));
  return names.filter((name) => !existing.has(fileOf(name, encrypted)));
}

/** The photos that the folder has in neither form. */
export const missingPictures = async (backups: string, names: readonly string[]): Promise<string[]> =>
  wantedPictures(backups, await wantedPictures(backups, names, false), true);

/** Saves one photo. Returns false, and writes nothing, when its bytes do not match its name. */
export async function storePicture(backups: string, name: string, bytes: Uint8Array, encrypted: boolean): Promise<boolean> {
  const sha256 = pictureSha256(name);
  if (sha256Of(bytes) !== sha256) return false;
  await readyPlace(folderIn(backups), 'The Photos folder');
  const file = new WholeFile(folderIn(backups), fileOf(name, encrypted));
  await file.write(encrypted ? encryptPicture(bytes, sha256) : bytes);
  await file.finish();
  return true;
}

/** Reads one photo and verifies its checksum; null when it is missing or changed. */
export async function readPicture(backups: string, name: string): Promise<Buffer | null> {
  const sha256 = pictureSha256(name);
  for (const encrypted of [false, true]) {
    const bytes = await readFile(join(folderIn(backups), fileOf(name, encrypted))).catch(() => null);
    const plain = bytes === null ? null : encrypted ? decryptPicture(bytes, sha256) : bytes;
    if (plain !== null && sha256Of(plain) === sha256) return plain;
  }
  return null;
}

/** Total size of all photos, bytes. */
export async function picturesBytes(backups: string): Promise<number> {
  let total = 0;
  for (const name of await readdir(folderIn(backups)).catch(() => []))
    total += await stat(join(folderIn(backups), name)).then(
      (found) => found.size,
      () => 0,
    );
  return total;
}

/**
 * Deletes photos that no backup reads: plain files belong to backups that are not encrypted, encrypted files to those that are.
 * @param known the photos of both kinds of backups, by their names inside
 */
export async function sweepPictures(
  backups: string,
  known: { readonly plain: ReadonlySet<string>; readonly encrypted: ReadonlySet<string> },
  nowMs: number,
): Promise<void> {
  const folder = folderIn(backups);
  const files = new Set([
    ...[...known.plain].map((name) => fileOf(name, false)),
    ...[...known.encrypted].map((name) => fileOf(name, true)),
  ]);
  for (const name of await readdir(folder).catch(() => [])) {
    if (files.has(name) || !/^[0-9a-f]{64}\.(jpg|png|webp|encrypted)$/.test(name)) continue;
    const path = join(folder, name);
    const age = await stat(path).then(
      (found) => nowMs - found.mtimeMs,
      () => 0,
    );
    if (age > UNKNOWN_MS) await rm(path, { force: true }).catch(() => undefined);
  }
  await sweepHalfWritten(folder, nowMs).catch(() => undefined);
}
