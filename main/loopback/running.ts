/** The notes that a running loopback host and a second launch leave each other, readable by this user alone. */
import { chmod, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { isAbsolute, join } from 'node:path';
import { isCopyName } from '../desk/snapshots/handed.ts';

export type Running = { readonly port: number; readonly key: string; readonly pid: number };

const notePath = (dataFolder: string): string => join(dataFolder, 'running.json');

const leave = async (dataFolder: string, path: string, note: unknown): Promise<void> => {
  await mkdir(dataFolder, { recursive: true });
  await writeFile(path, JSON.stringify(note), { mode: 0o600 });
  await chmod(path, 0o600);
};

/** Leaves the note (mode 600). */
export async function noteRunning(dataFolder: string, running: Running): Promise<void> {
  await leave(dataFolder, notePath(dataFolder), running);
}

/** Reads the note; null when there is none or it is not ours. */
export async function readRunning(dataFolder: string): Promise<Running | null> {
  try {
    const note: unknown = JSON.parse(await readFile(notePath(dataFolder), 'utf8'));
    if (typeof note !== 'object' || note === null) return null;
    const { port, key, pid } = note as Partial<Running>;
    return typeof port === 'number' && typeof key === 'string' && typeof pid === 'number' ? { port, key, pid } : null;
  } catch {
    return null;
  }
}

/** Takes the note away. */
export async function forgetRunning(dataFolder: string): Promise<void> {
  await rm(notePath(dataFolder), { force: true });
}

const handedPath = (dataFolder: string): string => join(dataFolder, 'handed.json');

/** Leaves word of the copy that a second launch was started with, for the host that runs. */
export async function noteHanded(dataFolder: string, path: string): Promise<void> {
  await leave(dataFolder, handedPath(dataFolder), { path });
}

/** Takes that word, once; null when there is none or it names no copy by its whole path. */
export async function takeNotedCopy(dataFolder: string): Promise<string | null> {
  try {
    const note: unknown = JSON.parse(await readFile(handedPath(dataFolder), 'utf8'));
    await rm(handedPath(dataFolder), { force: true });
    const path = typeof note === 'object' && note !== null && 'path' in note ? note.path : null;
    return typeof path === 'string' && isAbsolute(path) && isCopyName(path) ? path : null;
  } catch {
    return null;
  }
}
