/** The whole book out for a copy and in again from one; and what is known about the last copy. Photos’ bytes go their own way. */
import Dexie from 'dexie';
import { useLiveQuery } from 'dexie-react-hooks';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { type Piece, type Pieces, PiecesStopped, picturesOf, printOfBook } from './book-pieces.ts';
import { book } from './database.ts';
import { forgetChecks } from './integrity.ts';
import { onRecords } from './on-records.ts';
import { forgetWords } from './words.ts';
import { done, explainDatabase, type Outcome, refused } from './outcome.ts';

export type CopyState = {
  /** When the last snapshot was made; null when none ever was. */
  readonly at: string | null;
  /** Why the last try failed; null when it did not. */
  readonly failed: string | null;
};
const COPY_KEY = 'snapshot/last';
const CHANGED_KEY = 'snapshot/changed';

/** The next piece from outside the database, while the running transaction is held open for it; a minute is the longest it waits. */
const nextPiece = (pieces: Pieces): Promise<IteratorResult<Piece>> => Dexie.waitFor(Dexie.ignoreTransaction(() => pieces.next()));

/**
 * Puts another book in place of this one: all of it or nothing, in one transaction. History and typed drafts go with the old book.
 * @param pieces the other book; each piece is asked for when the one before stands
 * @param print the print of the book as it was copied just before; if it has changed since, nothing is done
 */
export async function replaceBook(pieces: Pieces, print: string): Promise<Outcome> {
  try {
    const outcome = await book().transaction('rw', book().tables, async (): Promise<Outcome> => {
      if ((await printOfBook()) !== print)
        return refused('The book was changed in another window meanwhile, so nothing was restored. Close the other window and try again.');
      for (const table of TABLE_NAMES) await book().table(table).clear();
      const shown = new Set<string>();
      for (let next = await nextPiece(pieces); next.done !== true; next = await nextPiece(pieces)) {
        const { table, rows } = next.value;
        if (table === 'photos') for (const name of picturesOf(rows)) shown.add(name);
        await book().table(table).bulkPut(rows);
      }
      // The copy made just before still holds those that go.
      await book().pictures.bulkDelete((await book().pictures.toCollection().primaryKeys()).filter((name) => !shown.has(name)));
      await forgetWords();
      await book().figures.clear();
      await book().edits.clear();
      await book().drafts.clear();
      await book().meta.delete('business-from-sample');
      return done(undefined);
    });
    if (outcome.ok) forgetChecks();
    return outcome;
  } catch (error) {
    if (error instanceof PiecesStopped) return refused(error.message);
    return explainDatabase(error);
  }
}

/** Notes that a snapshot was made (`failed` null) or why it was not. */
export async function noteCopy(at: string, failed: string | null): Promise<void> {
  await book().transaction('rw', book().meta, async () => {
    const before = (await book().meta.get(COPY_KEY))?.value as CopyState | undefined;
    await book().meta.put({ key: COPY_KEY, value: { at: failed === null ? at : (before?.at ?? null), failed } satisfies CopyState });
    const changed = (await book().meta.get(CHANGED_KEY))?.value;
    if (failed === null && typeof changed === 'string' && changed <= at) await book().meta.delete(CHANGED_KEY);
  });
}

/** The state of the last copy, live; undefined while reading. */
export function useCopyState(): CopyState | undefined {
  return useLiveQuery(async () => ((await book().meta.get(COPY_KEY))?.value as CopyState | undefined) ?? { at: null, failed: null }, []);
}

/** Whether something changed since the last copy. */
export async function changedSinceCopy(): Promise<boolean> {
  return (await book().meta.get(CHANGED_KEY)) !== undefined;
}

/** Calls back whenever a record changes, in this window or another, and notes that a copy is due. Gives how to stop. */
export function watchRecords(now: () => string, onChange: () => void): () => void {
  return onRecords(() => {
    void book().meta.put({ key: CHANGED_KEY, value: now() });
    onChange();
  });
}
