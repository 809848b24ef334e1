/** Files in the papers folder. A request brings a name, never a path. */
import { mkdir, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { randomBytes } from 'node:crypto';
import { DeskFailure, explainDisk } from './failure.ts';

/** Where `name` stands in `folder`; refuses anything that is not its own base name. */
export function placeIn(folder: string, name: string): string {
  if (basename(name) !== name || name.startsWith('.')) throw new DeskFailure('bad-input', 'A file name has no folder in it.');
  return join(folder, name);
}

/** Writes beside the target, flushes to the disk, then renames: there is never half a file under the name. */
export async function keepFile(folder: string, name: string, bytes: Uint8Array): Promise<void> {
  const target = placeIn(folder, name);
  const beside = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  try {
    await mkdir(folder, { recursive: true });
    const file = await open(beside, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw explainDisk(error, name);
  }
}

/** So many files may share one name before saving is refused. */
const MAX_SAME_NAME = 999;

/** What stands under a path; null where nothing does. */
async function bytesAt(path: string): Promise<Buffer | null> {
  try {
    return await readFile(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null;
    throw error;
  }
}

/**
 * Writes a file without replacing a different one: the same bytes under the name are left as they are, other bytes give the
 * new file a number, `Quote 26-001 (2).pdf`.
 * @returns the name it has
 */
export async function keepNew(folder: string, name: string, bytes: Uint8Array): Promise<string> {
  const kind = extname(name);
  for (let serial = 1; serial <= MAX_SAME_NAME; serial += 1) {
    const candidate = serial === 1 ? name : `${name.slice(0, name.length - kind.length)} (${serial})${kind}`;
    const found = await bytesAt(placeIn(folder, candidate)).catch((error: unknown) => {
      throw explainDisk(error, candidate);
    });
    if (found !== null && Buffer.compare(found, bytes) === 0) return candidate;
    if (found !== null) continue;
    await keepFile(folder, candidate, bytes);
    return candidate;
  }
  throw new DeskFailure('bad-input', `${name} was not saved: the folder has too many files of that name. Move some of them.`);
}

/** Makes sure a kept file is there. */
export async function findFile(folder: string, name: string): Promise<string> {
  const target = placeIn(folder, name);
  try {
    await stat(target);
    return target;
  } catch (error) {
    throw explainDisk(error, name);
  }
}

/** Makes sure a folder is there, for the system to open. */
export async function readyPlace(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    throw explainDisk(error, 'The folder');
  }
}
