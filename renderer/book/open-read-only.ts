/** A backup open read-only: its records are in a database of their own, and nothing in them can be changed. */
import type { DBCore, Middleware } from 'dexie';
import { useSyncExternalStore } from 'react';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { type Pieces, PiecesStopped } from './book-pieces.ts';
import { Book, book, swapBook } from './database.ts';
import { forgetChecks } from './integrity.ts';
import { done, explainDatabase, type Outcome, refused } from './outcome.ts';

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
let shown: OpenBackup | null = null;
let own: Book | null = null;
const listeners = new Set<() => void>();
const tell = (): void => {
  for (const listen of listeners) listen();
};

/** The backup that is open; null when the data itself is. */
export function openBackup(): OpenBackup | null {
  return shown;
}

/** The same, live. */
export function useOpenBackup(): OpenBackup | null {
  return useSyncExternalStore((listen) => {
    listeners.add(listen);
    return () => void listeners.delete(listen);
  }, openBackup);
}

/** Opens a backup's records in place of the data, for this window alone. */
export async function openReadOnly(pieces: Pieces, madeAt: string): Promise<Outcome> {
  try {
    // The appearance of the screens is this computer's, not the backup's.
    const settings = await book().meta.where('key').startsWith('setting/').toArray();
    await new Book(READ_ONLY_NAME).delete();
    const filled = new Book(READ_ONLY_NAME);
    await filled.open();
    // Nothing shows it before it is filled, and the next one starts over: each piece may be its own transaction.
    for await (const { table, rows } of pieces) await filled.table(table).bulkPut(rows);
    await filled.meta.bulkPut(settings);
    filled.close();
    const copy = new Book(READ_ONLY_NAME);
    copy.use(readOnly);
    await copy.open();
    own ??= book();
    swapBook(copy);
    forgetChecks();
    shown = { madeAt };
    tell();
    return done(undefined);
  } catch (error) {
    if (error instanceof PiecesStopped) return refused(error.message);
    return explainDatabase(error);
  }
}

/** Closes the backup and opens the data again. */
export async function closeBackup(): Promise<void> {
  if (own === null) return;
  const copy = book();
  swapBook(own);
  own = null;
  shown = null;
  forgetChecks();
  tell();
  copy.close();
  await copy.delete();
}
