/** All data in pieces: some of a table's rows at a time, to limit memory and keep the screens responsive. */
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { type BookRows, pictureName } from '../../shared-core/book/backup.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';
import { onRecords } from './on-records.ts';

const ROWS_A_PIECE = 1000;
/** Rows differ: a quote is a hundred times a batch. */
const CHARACTERS_A_PIECE = 1_000_000;
const FIRST_ROWS = 50;
/** The word of an edit, here or in another window, takes no longer to come. */
const WORD_MS = 100;

/** Rows of one table. Pieces come in the order of the tables' list, ids ascending. */
export type Piece = { readonly table: TableName; readonly rows: readonly StoredRow[] };
export type Pieces = AsyncIterableIterator<Piece>;

/** A book that can be walked again and again. */
export type WalkedBook = {
  /** The photos it shows, by name. */
  readonly pictures: readonly string[];
  readonly pieces: () => Pieces;
};
/** What a walk through a book ends with when the rest of it cannot be had; the message is a sentence for the screen. */
export class PiecesStopped extends Error {}

/** The photos that records of photos show, by name. */
export function picturesOf(photos: readonly StoredRow[]): string[] {
  return [...new Set(photos.map(pictureName).filter((name) => name !== null))].sort();
}

type Written = { readonly table: TableName; readonly text: string };

/** Walks the open data, each piece as JSON: within the running transaction, or each piece in one of its own. Returns the photos shown. */
const walkStored = async (take: (piece: Written) => void): Promise<readonly string[]> => {
  const pictures = new Set<string>();
  for (const table of TABLE_NAMES) {
    const stored = book().table<StoredRow, string>(table);
    let many = FIRST_ROWS;
    for (let after: string | null = ''; after !== null; ) {
      const rows: StoredRow[] = await stored.where(':id').above(after).limit(many).toArray();
      after = rows.length < many ? null : String(rows.at(-1)?.['id']);
      if (rows.length === 0) continue;
      if (table === 'photos') for (const name of picturesOf(rows)) pictures.add(name);
      const text = rows.map((row) => JSON.stringify(row)).join(',\n');
      take({ table, text });
      many = Math.min(ROWS_A_PIECE, Math.max(1, Math.round((CHARACTERS_A_PIECE * rows.length) / text.length)));
    }
  }
  return [...pictures].sort();
};

const holdWalk = async (check: () => void = () => undefined): Promise<WalkedBook> => {
  // As text that the browser keeps out of the page's memory.
  const held: { readonly table: TableName; readonly text: Blob }[] = [];
  const pictures = await walkStored(({ table, text }) => {
    check();
    held.push({ table, text: new Blob(['[', text, ']']) });
  });
  return {
    pictures,
    pieces: async function* () {
      // Written as JSON from stored rows just before.
      for (const { table, text } of held) yield { table, rows: JSON.parse(await text.text()) as StoredRow[] };
    },
  };
};

/** What ends a walk between edits: a record was changed on the way. */
class EditHeard extends Error {}

/** Holds the book piece by piece, so that what is typed meanwhile is written at once; null when a record changed on the way. */
const holdBetweenEdits = async (): Promise<WalkedBook | null> => {
  let isHeard = false;
  const check = (): void => {
    if (isHeard) throw new EditHeard();
  };
  const stop = onRecords(() => {
    isHeard = true;
  });
  try {
    const held = await holdWalk(check);
    await new Promise((resolve) => setTimeout(resolve, WORD_MS));
    check();
    return held;
  } catch (error) {
    if (error instanceof EditHeard) return null;
    throw error;
  } finally {
    stop();
  }
};

/** Holds the open book as it stands at one moment: between edits where there is time, else edits wait for it. */
export async function holdBook(): Promise<WalkedBook> {
  return (await holdBetweenEdits()) ?? book().transaction('r', book().tables, () => holdWalk());
}

/** Gathers from a walk what is wanted of each record; null leaves one out. */
export async function gatherRows(pieces: Pieces, want: (table: TableName, row: StoredRow) => StoredRow | null): Promise<BookRows> {
  const all = Object.fromEntries(TABLE_NAMES.map((table): [TableName, StoredRow[]] => [table, []])) as Record<TableName, StoredRow[]>;
  for await (const { table, rows } of pieces)
    for (const row of rows) {
      const wanted = want(table, row);
      if (wanted !== null) all[table].push(wanted);
    }
  return all;
}
