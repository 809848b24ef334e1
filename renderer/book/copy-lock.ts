/** What the passphrase became, kept on this machine so that copies are locked without asking. It guards the copies, not this machine. */
import { useLiveQuery } from 'dexie-react-hooks';
import { book } from './database.ts';

/** As the desk's contract has it. */
export type CopyLock = { readonly salt: string; readonly key: string };
const LOCK_KEY = 'snapshot/lock';

/** The lock new copies get; null when they are open. */
export async function readLock(): Promise<CopyLock | null> {
  const kept = (await book().meta.get(LOCK_KEY))?.value as CopyLock | undefined;
  return kept ?? null;
}

/** Sets the lock for new copies, or takes it away. */
export async function keepLock(lock: CopyLock | null): Promise<void> {
  if (lock === null) await book().meta.delete(LOCK_KEY);
  else await book().meta.put({ key: LOCK_KEY, value: lock });
}

/** Whether new copies are locked; undefined while reading. */
export function useIsLocked(): boolean | undefined {
  return useLiveQuery(async () => (await readLock()) !== null, []);
}
