/** A whole book in pieces: some of a table's rows at a time, so that a large book never lies in memory at once and the screens get their turn. */
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { Print } from '../../shared-core/book/print.ts';
import { type BookRows, pictureName } from '../../shared-core/book/snapshot.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';

const ROWS_A_PIECE = 1000;
/** Rows differ: a quote is a hundred times a batch. */
const CHARACTERS_A_PIECE = 1_000_000;
const FIRST_ROWS = 50;

/** Rows of one table. Pieces come in the order of the tables' list, ids ascending. */
export type Piece = { readonly table: TableName; readonly rows: readonly StoredRow[] };
export type Pieces = AsyncIterableIterator<Piece>;

/** A book that can be walked again and again. */
export type WalkedBook = {
  /** The photos it shows, by name. */
  readonly pictures: readonly string[];
  readonly pieces: () => Pieces;
};
/** The book as it stood at one moment; two with the same print hold the same records. */
export type HeldBook = WalkedBook & { readonly print: string };

/** What a walk through a book ends with when the rest of it cannot be had; the message is a sentence for the screen. */
export class PiecesStopped extends Error {}

/** The photos that records of photos show, by name. */
export function picturesOf(photos: readonly StoredRow[]): string[] {
  return [...new Set(photos.map(pictureName).filter((name) => name !== null))].sort();
}

type Written = { readonly table: TableName; readonly text: string };

/** Walks the open book within the running transaction, each piece as JSON. Gives its print and photos. */
const walkStored = async (take: (piece: Written) => void): Promise<{ readonly print: string; readonly pictures: string[] }> => {
  const print = new Print();
  const pictures = new Set<string>();
  for (const table of TABLE_NAMES) {
    print.add(`${table}\n`);
    const stored = book().table<StoredRow, string>(table);
    let many = FIRST_ROWS;
    for (let after: string | null = ''; after !== null; ) {
      const rows: StoredRow[] = await stored.where(':id').above(after).limit(many).toArray();
      after = rows.length < many ? null : String(rows.at(-1)?.['id']);
      if (rows.length === 0) continue;
      if (table === 'photos') for (const name of picturesOf(rows)) pictures.add(name);
      // A row a line, so that the print is the same wherever the pieces are cut.
      const text = rows.map((row) => JSON.stringify(row)).join(',\n');
      print.add(`${text},\n`);
      take({ table, text });
      many = Math.min(ROWS_A_PIECE, Math.max(1, Math.round((CHARACTERS_A_PIECE * rows.length) / text.length)));
    }
  }
  return { print: print.text(), pictures: [...pictures].sort() };
};

/** The print of the open book; runs inside a transaction over its tables. */
export async function printOfBook(): Promise<string> {
  return (await walkStored(() => undefined)).print;
}

/** Holds the open book as it stands at one moment, as text that the browser keeps out of the page's memory. */
export async function holdBook(): Promise<HeldBook> {
  const held: { readonly table: TableName; readonly text: Blob }[] = [];
  const walked = await book().transaction('r', book().tables, () =>
    walkStored(({ table, text }) => {
      held.push({ table, text: new Blob(['[', text, ']']) });
    }),
  );
  return {
    ...walked,
    pieces: async function* () {
      // Written as JSON from stored rows just before.
      for (const { table, text } of held) yield { table, rows: JSON.parse(await text.text()) as StoredRow[] };
    },
  };
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
