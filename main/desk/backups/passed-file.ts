/** A backup named on the command line or passed by the system, never by a desk call. */
import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';

/** A passed file: its name and bytes, or null for bytes larger than any backup. */
export type Handed = { readonly name: string; readonly bytes: Buffer | null };

/** Whether a name is one of a backup: `.zip`, or `.encrypted` with a passphrase. */
export function isBackupName(argument: string): boolean {
  return /\.(zip|encrypted)$/i.test(argument) && !argument.startsWith('-');
}

/** The last argument that names a backup; null for none. */
export function backupAmong(argv: readonly string[]): string | null {
  return argv.slice(1).findLast(isBackupName) ?? null;
}

/** Reads the file's name, and its bytes unless it is larger than any backup. Rejects when it cannot be read. */
export async function readHanded(path: string, mostBytes: number): Promise<Handed> {
  const { size } = await stat(path);
  return { name: basename(path), bytes: size > mostBytes ? null : await readFile(path) };
}
