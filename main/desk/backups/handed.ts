/** A backup named on the program's own command line or by the system, never by a call. */
import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Handed } from './backup-handlers.ts';

/** Whether a name is one that backups have: `.zip`, or `.encrypted` with a passphrase. */
export function isBackupName(argument: string): boolean {
  return /\.(zip|encrypted)$/i.test(argument) && !argument.startsWith('-');
}

/** The last argument after the program's own name that names a backup; null when none does. */
export function backupAmong(argv: readonly string[]): string | null {
  return argv.slice(1).findLast(isBackupName) ?? null;
}

/** The file's name and bytes; without its bytes when it is larger than any backup. Rejects when it cannot be read. */
export async function readHanded(path: string, mostBytes: number): Promise<Handed> {
  const { size } = await stat(path);
  return { name: basename(path), bytes: size > mostBytes ? null : await readFile(path) };
}
