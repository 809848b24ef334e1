/** Files in the documents folder. A request has a name, never a path. */
import { createHash, randomBytes } from 'node:crypto';
import { link, lstat, mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { DeskFailure, errno, explainDisk } from './failure.ts';

/** Only this user can read and write the program's files. */
export const PRIVATE_FILE = 0o600;
export const PRIVATE_FOLDER = 0o700;

/** Maximum number of files with the same name: `Quote 26-001 (2).pdf`. */
const MOST_ALIKE = 200;
/** Partial files of a killed program are deleted after this time, ms. */
const STALE_MS = 10 * 60_000;
const HALF_WRITTEN = /^\.[0-9a-f]{16}\.part$/;

/** The path of `name` in `folder`; refuses anything but a base name. */
export function placeIn(folder: string, name: string): string {
  if (basename(name) !== name || name.startsWith('.')) throw new DeskFailure('bad-input', 'A file name has no folder in it.');
  return join(folder, name);
}

/** Creates a folder for this user only; an existing one is not changed. */
export async function makeFolder(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true, mode: PRIVATE_FOLDER });
}

/** Deletes partial files of a killed program. */
export async function sweepHalfWritten(folder: string, nowMs: number): Promise<void> {
  for (const name of await readdir(folder)) {
    if (!HALF_WRITTEN.test(name)) continue;
    const path = join(folder, name);
    const age = await lstat(path).then(
      (found) => nowMs - found.mtimeMs,
      () => 0,
    );
    if (age > STALE_MS) await rm(path, { force: true });
  }
}

/** Whether there is a file or folder, or a link. */
export const isThere = async (path: string): Promise<boolean> =>
  lstat(path).then(
    () => true,
    () => false,
  );

/** A symbolic link in place of a folder leads out of the documents folder, so it is not followed. */
const refuseLinks = async (folder: string): Promise<void> => {
  const found = await lstat(folder).catch(() => null);
  if (found?.isSymbolicLink() === true)
    throw new DeskFailure(
      'not-allowed',
      `${basename(folder)} is a link to another folder, so nothing was saved in it. Replace it with a folder.`,
    );
};

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const holdsSame = async (path: string, bytes: Uint8Array): Promise<boolean> => {
  const found = await lstat(path);
  return found.isFile() && found.size === bytes.length && sha256Of(await readFile(path)) === sha256Of(bytes);
};

const writeBeside = async (folder: string, bytes: Uint8Array): Promise<string> => {
  const beside = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  try {
    const file = await open(beside, 'wx', PRIVATE_FILE);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    return beside;
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw error;
  }
};

/** Gives the file its name if that is free; returns false if not. */
const takeName = async (beside: string, target: string): Promise<boolean> => {
  try {
    await link(beside, target);
    await rm(beside, { force: true });
    return true;
  } catch (error) {
    if (errno(error) === 'EEXIST') return false;
    // A disk without hard links, such as a memory stick.
    if (await isThere(target)) return false;
    await rename(beside, target);
    return true;
  }
};

/** A file's name, or from the second of the same name on with its number: `Quote 26-001 (2).pdf`. */
export const numbered = (name: string, n: number): string => {
  const end = extname(name);
  return n === 1 ? name : `${name.slice(0, name.length - end.length)} (${n})${end}`;
};

/** Writes a temporary file and flushes it, then `give` gives it its name, so that no file is partial. The folder must exist. */
async function writeWhole<T>(folder: string, name: string, bytes: Uint8Array, give: (beside: string) => Promise<T>): Promise<T> {
  let beside: string | null = null;
  try {
    await refuseLinks(folder);
    await sweepHalfWritten(folder, Date.now()).catch(() => undefined);
    beside = await writeBeside(folder, bytes);
    return await give(beside);
  } catch (error) {
    if (beside !== null) await rm(beside, { force: true }).catch(() => undefined);
    throw explainDisk(error, name);
  }
}

const saveInto = (folder: string, name: string, bytes: Uint8Array): Promise<string> =>
  writeWhole(folder, name, bytes, async (beside) => {
    for (let n = 1; n <= MOST_ALIKE; n += 1) {
      const tried = numbered(name, n);
      const target = join(folder, tried);
      if (await takeName(beside, target)) return tried;
      if (await holdsSame(target, bytes)) {
        await rm(beside, { force: true });
        return tried;
      }
    }
    throw new DeskFailure('in-use', `${name} was not saved: ${MOST_ALIKE} files have that name. Move some of them to another folder.`);
  });

/**
 * Saves a file without replacing other content, and creates its folder.
 * @returns its name, with a number where another file has the name
 */
export async function saveFile(folder: string, name: string, bytes: Uint8Array): Promise<string> {
  placeIn(folder, name);
  await readyPlace(folder);
  return await saveInto(folder, name, bytes);
}

const replaceInto = (folder: string, name: string, bytes: Uint8Array): Promise<void> => {
  const target = placeIn(folder, name);
  return writeWhole(folder, name, bytes, (beside) => rename(beside, target));
};

/** Replaces a file that the program keeps up to date, and creates its folder. */
export async function replaceFile(folder: string, name: string, bytes: Uint8Array): Promise<void> {
  await readyPlace(folder);
  await replaceInto(folder, name, bytes);
}

/** What the program last wrote, by folder and name: the name used there, and its checksum. */
type Own = Readonly<Record<string, { readonly name: string; readonly sha256: string }>>;
const OWN_NAME = 'own-files.json';

const readOwn = async (dataFolder: string): Promise<Own> => {
  try {
    const read: unknown = JSON.parse(await readFile(join(dataFolder, OWN_NAME), 'utf8'));
    return typeof read === 'object' && read !== null ? (read as Own) : {};
  } catch {
    return {};
  }
};

/**
 * Replaces a file that this program keeps up to date, such as a calendar. A file of that name that it did not write is not replaced; its
 * own then gets a number. The folder is not created: it may be on a disk that is not connected.
 * @param dataFolder the folder of the note of what was written
 * @returns the name of the file
 */
export async function replaceOwnFile(dataFolder: string, folder: string, name: string, bytes: Uint8Array): Promise<string> {
  const own = await readOwn(dataFolder);
  const key = placeIn(folder, name);
  const before = own[key];
  const isOwn =
    before !== undefined &&
    (await readFile(placeIn(folder, before.name)).then(
      (found) => sha256Of(found) === before.sha256,
      () => true,
    ));
  if (isOwn) await replaceInto(folder, before.name, bytes);
  const saved = isOwn ? before.name : await saveInto(folder, name, bytes);
  await replaceFile(dataFolder, OWN_NAME, Buffer.from(JSON.stringify({ ...own, [key]: { name: saved, sha256: sha256Of(bytes) } })));
  return saved;
}

/** Checks that a saved file exists; a link is not followed. */
export async function findFile(folder: string, name: string): Promise<string> {
  const target = placeIn(folder, name);
  try {
    if ((await lstat(target)).isFile()) return target;
  } catch (error) {
    throw explainDisk(error, name, 'opened');
  }
  throw new DeskFailure('not-allowed', `${name} is a link or a folder, so it was not opened.`);
}

/** Creates a folder where it is missing. @throws DeskFailure that says why `what` was not created */
export async function readyPlace(folder: string, what = 'The folder'): Promise<void> {
  try {
    await makeFolder(folder);
  } catch (error) {
    throw explainDisk(error, what, 'created');
  }
}
