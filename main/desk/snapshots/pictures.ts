/** The folder `Photos` beside the snapshots: every photo once, named by its content, plain or locked. */
import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { pictureSha256 } from '../../../shared-core/book/snapshot.ts';
import { explainDisk } from '../failure.ts';
import { lockedPictureName, lockPicture, unlockPicture } from './lock.ts';
import { sha256Of, sweepHalfWritten, WholeFile } from './whole-file.ts';

/** Photos no snapshot knows any more stay this long: one may be on its way into the next. */
const UNKNOWN_MS = 24 * 3_600_000;

const folderIn = (backups: string): string => join(backups, 'Photos');
const fileOf = (name: string, locked: boolean): string => (locked ? lockedPictureName(pictureSha256(name)) : basename(name));

/** Which of these photos the folder does not hold. */
export async function wantedPictures(backups: string, names: readonly string[], locked: boolean): Promise<string[]> {
  const there = new Set(await readdir(folderIn(backups)).catch(() => []));
  return names.filter((name) => !there.has(fileOf(name, locked)));
}

/** Keeps one photo. Gives false for one whose bytes are not those its name says: nothing is written of it. */
export async function keepPicture(backups: string, name: string, bytes: Uint8Array, locked: boolean): Promise<boolean> {
  const sha256 = pictureSha256(name);
  if (sha256Of(bytes) !== sha256) return false;
  try {
    await mkdir(folderIn(backups), { recursive: true });
  } catch (error) {
    throw explainDisk(error, 'The Photos folder');
  }
  const file = new WholeFile(folderIn(backups), fileOf(name, locked));
  await file.write(locked ? lockPicture(bytes, sha256) : bytes);
  await file.finish();
  return true;
}

/** Reads one photo, proven by its checksum; null when it is not there or not itself any more. */
export async function readPicture(backups: string, name: string): Promise<Buffer | null> {
  const sha256 = pictureSha256(name);
  for (const locked of [false, true]) {
    const bytes = await readFile(join(folderIn(backups), fileOf(name, locked))).catch(() => null);
    const plain = bytes === null ? null : locked ? unlockPicture(bytes, sha256) : bytes;
    if (plain !== null && sha256Of(plain) === sha256) return plain;
  }
  return null;
}

/** What all photos take together. */
export async function picturesBytes(backups: string): Promise<number> {
  let total = 0;
  for (const name of await readdir(folderIn(backups)).catch(() => []))
    total += await stat(join(folderIn(backups), name)).then(
      (found) => found.size,
      () => 0,
    );
  return total;
}

/** Takes away photos that no snapshot names any more. @param known names of all snapshots' photos, by what they are called inside */
export async function sweepPictures(backups: string, known: ReadonlySet<string>, nowMs: number): Promise<void> {
  const folder = folderIn(backups);
  const files = new Set([...known].flatMap((name) => [fileOf(name, false), fileOf(name, true)]));
  for (const name of await readdir(folder).catch(() => [])) {
    if (files.has(name) || !/^[0-9a-f]{64}\.(jpg|png|webp|locked)$/.test(name)) continue;
    const path = join(folder, name);
    const age = await stat(path).then(
      (found) => nowMs - found.mtimeMs,
      () => 0,
    );
    if (age > UNKNOWN_MS) await rm(path, { force: true }).catch(() => undefined);
  }
  await sweepHalfWritten(folder, nowMs).catch(() => undefined);
}
