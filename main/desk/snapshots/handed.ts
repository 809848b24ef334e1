/** A copy of the book named on the program's own command line or by the system, never by a call. */
import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Handed } from './handlers.ts';

/** Whether a name is one that copies have: `.zip`, or `.locked` under a passphrase. */
export function isCopyName(argument: string): boolean {
  return /\.(zip|locked)$/i.test(argument) && !argument.startsWith('-');
}

/** The last argument after the program's own name that names a copy; null when none does. */
export function copyAmong(argv: readonly string[]): string | null {
  return argv.slice(1).findLast(isCopyName) ?? null;
}

/** The file's name and bytes; without its bytes when it is larger than any copy. Rejects when it cannot be read. */
export async function readHanded(path: string, mostBytes: number): Promise<Handed> {
  const { size } = await stat(path);
  return { name: basename(path), bytes: size > mostBytes ? null : await readFile(path) };
}
