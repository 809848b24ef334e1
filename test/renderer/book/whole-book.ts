/** All data as rows, read from the open database or through `bookPieces`, and the values of commands that succeed. */
import type { Outcome } from '../../../renderer/book/command.ts';
import { gatherRows, holdBook, picturesOf, type WalkedBook } from '../../../renderer/book/book-pieces.ts';
import type { BookRows } from '../../../shared-core/book/backup.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';

/** The value of an outcome that is to succeed. */
export function made<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value;
}

export async function readBookRows(): Promise<BookRows> {
  return gatherRows((await holdBook()).pieces(), (_, row) => row);
}

export function walkRows(rows: BookRows): WalkedBook {
  return {
    pictures: picturesOf(rows.photos),
    // The interface is asynchronous; here each piece is ready.
    // oxlint-disable-next-line typescript/require-await
    pieces: async function* () {
      for (const table of TABLE_NAMES)
        for (let from = 0; from < rows[table].length; from += 1000) yield { table, rows: rows[table].slice(from, from + 1000) };
    },
  };
}
