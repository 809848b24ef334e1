/**
 * Notes in the data folder that a running host and a second launch write for each other, readable by this user only.
 *
 * The note of the running host is also the lock on the folder. It counts only while its process proves the key, so a killed
 * host holds nothing. Each host that finds a stale note writes the one with the next number, which only one can create.
 */
import { randomBytes } from 'node:crypto';
import { chmod, link, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { isAbsolute, join } from 'node:path';
import { isBackupName } from '../desk/backups/passed-file.ts';
import { errno } from '../desk/failure.ts';

export type Running = { readonly port: number; readonly key: string; readonly pid: number };
/** The result of asking a note's process: a proof; nothing, because it ended or another program has its port; or a timeout. */
export type Pulse = 'alive' | 'gone' | 'silent';
export type Claim = { readonly owner: 'us' } | { readonly owner: 'other'; readonly running: Running; readonly pulse: 'alive' | 'silent' };

/** Two simultaneous launches need one or two rounds; more mean that something else changes the folder. */
const MAX_ROUNDS = 20;

const NOTE = /^running-(\d+)\.json$/;
const notePath = (dataFolder: string, number: number): string => join(dataFolder, `running-${number}.json`);

/** Numbers of the existing notes, highest first. */
const numbersIn = async (dataFolder: string): Promise<number[]> => {
  const names = await readdir(dataFolder).catch(() => [] as string[]);
  return names
    .flatMap((name) => NOTE.exec(name)?.[1] ?? [])
    .map(Number)
    .sort((a, b) => b - a);
};
const writePrivately = async (path: string, note: unknown): Promise<void> => {
  await writeFile(path, JSON.stringify(note), { mode: 0o600 });
  await chmod(path, 0o600);
};

/** Writes a complete file only if there is none. */
const linkOnce = async (from: string, to: string): Promise<boolean> => {
  try {
    await link(from, to);
    return true;
  } catch (error) {
    if (errno(error) === 'EEXIST') return false;
    // On a file system without hard links, an exclusive write is the next best.
    try {
      await writeFile(to, await readFile(from), { mode: 0o600, flag: 'wx' });
      return true;
    } catch (second) {
      if (errno(second) === 'EEXIST') return false;
      throw second;
    }
  }
};

const readNote = async (path: string): Promise<Running | null> => {
  try {
    const note: unknown = JSON.parse(await readFile(path, 'utf8'));
    if (typeof note !== 'object' || note === null) return null;
    const { port, key, pid } = note as Partial<Running>;
    return typeof port === 'number' && typeof key === 'string' && typeof pid === 'number' ? { port, key, pid } : null;
  } catch {
    return null;
  }
};

/** The note of the host that runs, or ran last; null when missing or unreadable. */
export async function readRunning(dataFolder: string): Promise<Running | null> {
  const [highest] = await numbersIn(dataFolder);
  return highest === undefined ? null : readNote(notePath(dataFolder, highest));
}

type Ask = (running: Running) => Promise<Pulse>;
type Holder = Extract<Claim, { owner: 'other' }>;

/** The running host with the highest note. */
const holderAmong = async (dataFolder: string, numbers: readonly number[], ask: Ask): Promise<Holder | null> => {
  for (const number of numbers) {
    const running = await readNote(notePath(dataFolder, number));
    const pulse = running === null ? 'gone' : await ask(running);
    if (running !== null && pulse !== 'gone') return { owner: 'other', running, pulse };
  }
  return null;
};

/**
 * Claims the data folder for this host, which is already listening.
 * @param ask asks a note's process for its proof
 * @returns this host, or the one that has the folder
 */
export async function claimFolder(dataFolder: string, us: Running, ask: Ask): Promise<Claim> {
  await mkdir(dataFolder, { recursive: true, mode: 0o700 });
  const ready = join(dataFolder, `.${randomBytes(8).toString('hex')}.part`);
  await writePrivately(ready, us);
  try {
    for (let round = 0; round < MAX_ROUNDS; round += 1) {
      const before = await numbersIn(dataFolder);
      const holder = await holderAmong(dataFolder, before, ask);
      if (holder !== null) return holder;
      const number = (before[0] ?? 0) + 1;
      if (!(await linkOnce(ready, notePath(dataFolder, number)))) continue;
      // A quicker launch may have taken a higher number and deleted the one just claimed.
      const above = (await numbersIn(dataFolder)).filter((one) => one > number);
      const winner = await holderAmong(dataFolder, above, ask);
      if (winner === null) {
        for (const old of before) await rm(notePath(dataFolder, old), { force: true });
        return { owner: 'us' };
      }
      await rm(notePath(dataFolder, number), { force: true });
      return winner;
    }
    throw new Error(`The notes in ${dataFolder} keep changing.`);
  } finally {
    await rm(ready, { force: true });
  }
}

export async function releaseFolder(dataFolder: string, us: Running): Promise<void> {
  for (const number of await numbersIn(dataFolder)) {
    const path = notePath(dataFolder, number);
    if ((await readNote(path))?.key === us.key) await rm(path, { force: true });
  }
}

const handedPath = (dataFolder: string): string => join(dataFolder, 'handed.json');

/** Records the backup that a second launch was started with, for the running host. */
export async function noteHanded(dataFolder: string, path: string): Promise<void> {
  await mkdir(dataFolder, { recursive: true, mode: 0o700 });
  await writePrivately(handedPath(dataFolder), { path });
}

/** Takes that record once; null when it is missing or has no absolute path. */
export async function takeNotedCopy(dataFolder: string): Promise<string | null> {
  try {
    const note: unknown = JSON.parse(await readFile(handedPath(dataFolder), 'utf8'));
    await rm(handedPath(dataFolder), { force: true });
    const path = typeof note === 'object' && note !== null && 'path' in note ? note.path : null;
    return typeof path === 'string' && isAbsolute(path) && isBackupName(path) ? path : null;
  } catch {
    return null;
  }
}
