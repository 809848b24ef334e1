/** A backup opened read-only, in a database of its own. */
import type { DBCore, Middleware } from 'dexie';
import { heldValue } from '../desk/held-value.ts';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { type Pieces, PiecesStopped } from './book-pieces.ts';
import { Book, book, showCopy } from './database.ts';
import { forgetChecks } from './integrity.ts';
import { done, explainDatabase, type Outcome, refused } from './command.ts';

const READ_ONLY_NAME = 'straightedge-read-only';
const READ_ONLY_TABLES: ReadonlySet<string> = new Set([...TABLE_NAMES, 'edits']);

class ReadOnlyRefusal extends Error {
  override readonly name = 'ReadOnlyError';
}

const readOnly: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'read-only',
  create: (core) => ({
    ...core,
    table: (name) => {
      const table = core.table(name);
      return READ_ONLY_TABLES.has(name)
        ? { ...table, mutate: () => Promise.reject(new ReadOnlyRefusal('This backup is open read-only.')) }
        : table;
    },
  }),
};

export type OpenBackup = {
  readonly madeAt: string;
  /** Why photos of it are missing; null while none is known to be. */
  readonly photosProblem: string | null;
};
const shown = heldValue<OpenBackup | null>(null);
/** The backup that is open; null for the data itself. */
export const openBackup = shown.get;
export const useOpenBackup = shown.use;

let release = (): void => undefined;
let closing: PromiseLike<void> = Promise.resolve();
/** Claims the database of read-only backups until it is released, or the window closes; false while another window has it. */
const claim = (): Promise<boolean> =>
  new Promise((resolve) => {
    const whileOpen = (lock: Lock | null): Promise<void> | undefined => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise((end) => (release = end));
    };
    void navigator.locks.request(READ_ONLY_NAME, { ifAvailable: true }, whileOpen);
  });

/** Opens a backup's records in this window, where none is open. */
export async function openReadOnly(pieces: Pieces, madeAt: string): Promise<Outcome> {
  await closing.then(undefined, () => undefined);
  if (!(await claim())) return refused('A backup is open read-only in another window. Close it there first.');
  const filled = new Book(READ_ONLY_NAME);
  try {
    await filled.delete();
    await filled.open();
    // Each piece may be its own transaction, because nothing reads this database before it is complete.
    for await (const { table, rows } of pieces) await filled.table(table).bulkPut(rows);
    filled.close();
    const copy = new Book(READ_ONLY_NAME);
    copy.use(readOnly);
    await copy.open();
    showCopy(copy);
    forgetChecks();
    shown.set({ madeAt, photosProblem: null });
    return done(undefined);
  } catch (error) {
    filled.close();
    release();
    if (error instanceof PiecesStopped) return refused(error.message);
    return explainDatabase(error);
  }
}

export function tellPhotosProblem(photosProblem: string): void {
  const open = openBackup();
  if (open !== null) shown.set({ ...open, photosProblem });
}

/** Closes the backup and opens the data again. */
export async function closeBackup(): Promise<void> {
  if (openBackup() === null) return;
  const copy = book();
  showCopy(null);
  forgetChecks();
  shown.set(null);
  copy.close();
  closing = copy.delete().finally(release);
  await closing;
}
