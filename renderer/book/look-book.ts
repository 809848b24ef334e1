/** Looking around in a copy: its records stand in a database of their own, and nothing in them can be changed. */
import type { DBCore, Middleware } from 'dexie';
import { useSyncExternalStore } from 'react';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { type Pieces, PiecesStopped } from './book-pieces.ts';
import { Book, book, swapBook } from './database.ts';
import { forgetChecks } from './integrity.ts';
import { done, explainDatabase, type Outcome, refused } from './outcome.ts';

const LOOKED_NAME = 'straightedge-look';
const LOCKED_TABLES: ReadonlySet<string> = new Set([...TABLE_NAMES, 'edits']);

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
      return LOCKED_TABLES.has(name) ? { ...table, mutate: () => Promise.reject(new ReadOnlyRefusal('This is a copy.')) } : table;
    },
  }),
};

export type Looking = { readonly madeAt: string };
let looking: Looking | null = null;
let own: Book | null = null;
const listeners = new Set<() => void>();
const tell = (): void => {
  for (const listen of listeners) listen();
};

/** The copy being looked around in; null in the book itself. */
export function lookingAt(): Looking | null {
  return looking;
}

/** The copy being looked around in, live. */
export function useLooking(): Looking | null {
  return useSyncExternalStore((listen) => {
    listeners.add(listen);
    return () => void listeners.delete(listen);
  }, lookingAt);
}

/** Opens a copy's records in place of the book, for this window alone. */
export async function beginLooking(pieces: Pieces, madeAt: string): Promise<Outcome> {
  try {
    // The look of the screens is this machine's, not the copy's.
    const settings = await book().meta.where('key').startsWith('setting/').toArray();
    await new Book(LOOKED_NAME).delete();
    const filled = new Book(LOOKED_NAME);
    await filled.open();
    // Nobody sees it before it is filled, and the next look begins it anew: each piece may stand by itself.
    for await (const { table, rows } of pieces) await filled.table(table).bulkPut(rows);
    await filled.meta.bulkPut(settings);
    filled.close();
    const copy = new Book(LOOKED_NAME);
    copy.use(readOnly);
    await copy.open();
    own ??= book();
    swapBook(copy);
    forgetChecks();
    looking = { madeAt };
    tell();
    return done(undefined);
  } catch (error) {
    if (error instanceof PiecesStopped) return refused(error.message);
    return explainDatabase(error);
  }
}

/** Goes back to the book. */
export async function endLooking(): Promise<void> {
  if (own === null) return;
  const copy = book();
  swapBook(own);
  own = null;
  looking = null;
  forgetChecks();
  tell();
  copy.close();
  await copy.delete();
}
