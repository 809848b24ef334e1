/** The note a running loopback host leaves for a second launch, readable by this user alone. */
import { chmod, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

export type Running = { readonly port: number; readonly key: string; readonly pid: number };

const notePath = (dataFolder: string): string => join(dataFolder, 'running.json');

/** Leaves the note (mode 600). */
export async function noteRunning(dataFolder: string, running: Running): Promise<void> {
  await mkdir(dataFolder, { recursive: true });
  await writeFile(notePath(dataFolder), JSON.stringify(running), { mode: 0o600 });
  await chmod(notePath(dataFolder), 0o600);
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
