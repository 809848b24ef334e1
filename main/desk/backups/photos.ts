/** The folder `Photos` beside the backups: every photo once, named by its content, plain or encrypted. */
import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { pictureSha256 } from '../../../shared-core/book/backup.ts';
import { explainDisk } from '../failure.ts';
import { makeFolder, sweepHalfWritten } from '../files.ts';
import { encryptedPictureName, encryptPicture, decryptPicture } from './encryption.ts';
import { sha256Of, WholeFile } from './whole-file.ts';

/** Photos no backup names any more stay this long: one may be on its way into the next. */
const UNKNOWN_MS = 24 * 3_600_000;

const folderIn = (backups: string): string => join(backups, 'Photos');
const fileOf = (name: string, encrypted: boolean): string => (encrypted ? encryptedPictureName(pictureSha256(name)) : basename(name));

/** Which of these photos the folder does not hold. */
export async function wantedPictures(backups: string, names: readonly string[], encrypted: boolean): Promise<string[]> {
  const there = new Set(await readdir(folderIn(backups)).catch(() => []));
  return names.filter((name) => !there.has(fileOf(name, encrypted)));
}

/** Saves one photo. Returns false for one whose bytes are not those its name says: nothing is written of it. */
export async function keepPicture(backups: string, name: string, bytes: Uint8Array, encrypted: boolean): Promise<boolean> {
  const sha256 = pictureSha256(name);
  if (sha256Of(bytes) !== sha256) return false;
  try {
    await makeFolder(folderIn(backups));
  } catch (error) {
    throw explainDisk(error, 'The Photos folder');
  }
  const file = new WholeFile(folderIn(backups), fileOf(name, encrypted));
  await file.write(encrypted ? encryptPicture(bytes, sha256) : bytes);
  await file.finish();
  return true;
}

/** Reads one photo, proven by its checksum; null when it is not there or was changed. */
export async function readPicture(backups: string, name: string): Promise<Buffer | null> {
  const sha256 = pictureSha256(name);
  for (const encrypted of [false, true]) {
    const bytes = await readFile(join(folderIn(backups), fileOf(name, encrypted))).catch(() => null);
    const plain = bytes === null ? null : encrypted ? decryptPicture(bytes, sha256) : bytes;
    if (plain !== null && sha256Of(plain) === sha256) return plain;
  }
  return null;
}

/** The size of all photos together. */
export async function picturesBytes(backups: string): Promise<number> {
  let total = 0;
  for (const name of await readdir(folderIn(backups)).catch(() => []))
    total += await stat(join(folderIn(backups), name)).then(
      (found) => found.size,
      () => 0,
    );
  return total;
}

/** Removes photos that no backup names any more. @param known names of all backups' photos, by what they are called inside */
export async function sweepPictures(backups: string, known: ReadonlySet<string>, nowMs: number): Promise<void> {
  const folder = folderIn(backups);
  const files = new Set([...known].flatMap((name) => [fileOf(name, false), fileOf(name, true)]));
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
