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

export type OpenBackup = { readonly madeAt: string };
const shown = heldValue<OpenBackup | null>(null);
/** The backup that is open; null for the data itself. */
export const openBackup = shown.get;
export const useOpenBackup = shown.use;

/** Opens a backup's records in this window only. */
export async function openReadOnly(pieces: Pieces, madeAt: string): Promise<Outcome> {
  try {
    await new Book(READ_ONLY_NAME).delete();
    const filled = new Book(READ_ONLY_NAME);
    await filled.open();
    // Each piece may be its own transaction, because nothing reads this database before it is complete.
    for await (const { table, rows } of pieces) await filled.table(table).bulkPut(rows);
    filled.close();
    const copy = new Book(READ_ONLY_NAME);
    copy.use(readOnly);
    await copy.open();
    showCopy(copy);
    forgetChecks();
    shown.set({ madeAt });
    return done(undefined);
  } catch (error) {
    if (error instanceof PiecesStopped) return refused(error.message);
    return explainDatabase(error);
  }
}

/** Closes the backup and opens the data again. */
export async function closeBackup(): Promise<void> {
  if (openBackup() === null) return;
  const copy = book();
  showCopy(null);
  forgetChecks();
  shown.set(null);
  copy.close();
  await copy.delete();
}
