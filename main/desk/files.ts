/** Files in the papers folder. A request brings a name, never a path. */
import { mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
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
