/**
 * The key derived from the passphrase, stored on this computer so that backups are encrypted without asking. It protects the backups, not
 * this computer.
 */
import { useLiveQuery } from 'dexie-react-hooks';
import { ownBook } from './database.ts';
import { type Outcome, stored } from './command.ts';

export type BackupKey = { readonly salt: string; readonly key: string };
const KEY = 'backup/key';

/** Null when new backups are not encrypted. */
export async function readBackupKey(): Promise<BackupKey | null> {
  const stored = (await ownBook().meta.get(KEY))?.value as BackupKey | undefined;
  return stored ?? null;
}

export function saveBackupKey(key: BackupKey | null): Promise<Outcome> {
  return stored(() => (key === null ? ownBook().meta.delete(KEY) : ownBook().meta.put({ key: KEY, value: key })));
}

export function useIsEncrypted(): boolean | undefined {
  return useLiveQuery(async () => (await readBackupKey()) !== null, []);
}
