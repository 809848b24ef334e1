/** Reads all data a few rows at a time, to limit memory and keep the screens responsive. */
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { type BookRows, pictureName, rangeText } from '../../shared-core/book/backup.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';
import { onRecords } from './on-records.ts';

const ROWS_A_PIECE = 1000;
/** Sized by bytes, because a quote is a hundred times a batch. */
const CHARACTERS_A_PIECE = 1_000_000;
const FIRST_ROWS = 50;
/** Longer than a change takes to be reported from any window, ms. */
const WORD_MS = 100;

/** Rows of one table. Pieces come in the order of the table list, ids ascending. */
export type Piece = { readonly table: TableName; readonly rows: readonly StoredRow[] };
export type Pieces = AsyncIterableIterator<Piece>;

/** All data, readable more than once. */
export type WalkedBook = {
  /** Names of the photos that its records show. */
  readonly pictures: readonly string[];
  readonly pieces: () => Pieces;
};
/** Thrown when the rest cannot be read; the message is a sentence for the screen. */
export class PiecesStopped extends Error {}

export function picturesOf(photos: readonly StoredRow[]): string[] {
  return [...new Set(photos.map(pictureName).filter((name) => name !== null))].sort();
}

type Written = { readonly table: TableName; readonly text: string };

/** Yields the open data in pieces of JSON, within the running transaction or each piece in its own. Returns the names of its photos. */
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
      const text = rangeText(rows.map((row) => JSON.stringify(row)));
      take({ table, text });
      many = Math.min(ROWS_A_PIECE, Math.max(1, Math.round((CHARACTERS_A_PIECE * rows.length) / text.length)));
    }
  }
  return [...pictures].sort();
};

/** All data as the database has it, also as the ranges of a backup. */
type HeldBook = WalkedBook & {
  readonly ranges: () => AsyncIterable<{ readonly table: TableName; readonly bytes: Uint8Array<ArrayBuffer> }>;
};

const holdWalk = async (check: () => void = () => undefined): Promise<HeldBook> => {
  // A Blob, because the browser stores it outside the page's memory.
  const held: { readonly table: TableName; readonly text: Blob }[] = [];
  const pictures = await walkStored(({ table, text }) => {
    check();
    held.push({ table, text: new Blob([text]) });
  });
  return {
    pictures,
    pieces: async function* () {
      for (const { table, text } of held) yield { table, rows: JSON.parse(await text.text()) as StoredRow[] };
    },
    ranges: async function* () {
      for (const { table, text } of held) yield { table, bytes: new Uint8Array(await text.arrayBuffer()) };
    },
  };
};

/** Thrown when a record changes between two pieces. */
class EditHeard extends Error {}

/** Reads all data piece by piece, so that edits are written meanwhile; null when a record changed. */
const holdBetweenEdits = async (): Promise<HeldBook | null> => {
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

/** Takes a consistent snapshot: between edits when possible, otherwise while edits wait. */
export async function holdBook(): Promise<HeldBook> {
  return (await holdBetweenEdits()) ?? book().transaction('r', book().tables, () => holdWalk());
}

/** Collects a value from each record; null skips one. */
export async function gatherRows(pieces: Pieces, want: (table: TableName, row: StoredRow) => StoredRow | null): Promise<BookRows> {
  const all = Object.fromEntries(TABLE_NAMES.map((table): [TableName, StoredRow[]] => [table, []])) as Record<TableName, StoredRow[]>;
  for await (const { table, rows } of pieces)
    for (const row of rows) {
      const wanted = want(table, row);
      if (wanted !== null) all[table].push(wanted);
    }
  return all;
}
