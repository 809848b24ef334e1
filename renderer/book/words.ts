/**
 * Search words, stored with each record in the same edit so that Search reads only matches. Rebuilt after bulk changes (restore, sample
 * data).
 */
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { type RowOf, checkRow } from '../../shared-core/book/rows.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { book, type WordsRow } from './database.ts';

export const FOUND_TABLES = ['customers', 'properties', 'jobs', 'rooms', 'materials'] as const;
export type FoundTable = (typeof FOUND_TABLES)[number];

/** Raise this when the words of any record kind change. */
const WORDS_VERSION = 1;
const MADE_KEY = 'words/made';
const MADE = `made ${WORDS_VERSION}`;
const PIECE = 250;

/** Removes accents and case, so that “Angstrom” finds “Ångström”. */
export const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
const distinct = (words: readonly string[]): string[] => [...new Set(words)].filter((word) => word !== '');

/** Words between spaces: `26-014`, `o'dell`. */
export function wholeWords(text: string): string[] {
  const words = plain(text).split(/[\s,;]+/);
  return distinct(words.map((word) => word.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '')));
}

/** Runs of letters and digits: `26`, `014`, `o`, `dell`. */
export function partWords(text: string): string[] {
  return distinct(plain(text).split(/[^\p{L}\p{N}]+/u));
}

type SearchText = { readonly texts: readonly string[]; readonly under: readonly string[] };
const SEARCH_TEXTS: { readonly [T in FoundTable]: (row: RowOf<T>) => SearchText } = {
  customers: (c) => ({
    texts: [c.name, c.phone, c.email, ...c.more.map((m) => m.text), ...c.contacts.flatMap((k) => [k.name, k.phone])],
    under: [],
  }),
  properties: (p) => ({ texts: [p.address.line, p.address.city, p.address.zip], under: [`customers/${p.customerId}`] }),
  jobs: (j) => ({ texts: [j.number, j.title], under: [`customers/${j.customerId}`, `properties/${j.propertyId}`] }),
  rooms: (r) => ({ texts: [r.name], under: [`properties/${r.propertyId}`] }),
  materials: (m) => ({ texts: [m.name], under: [] }),
};

const isFound = (table: TableName): table is FoundTable => (FOUND_TABLES as readonly string[]).includes(table);

/** The search words of a record; null for one that is archived, unreadable, or not searched. */
export function wordsRow(table: TableName, row: StoredRow): WordsRow | null {
  if (!isFound(table) || row['deletedAt'] !== null || !checkRow(table, row).ok) return null;
  // The check above validated the row against this table's schema.
  const { texts, under } = (SEARCH_TEXTS[table] as (row: unknown) => SearchText)(row);
  return { key: `${table}/${String(row['id'])}`, words: distinct([...wholeWords(texts.join(' ')), ...partWords(texts.join(' '))]), under };
}

/** Stores a record's words in the transaction that writes the record. */
export async function storeWords(table: TableName, id: string, row: StoredRow | null): Promise<void> {
  if (!isFound(table)) return;
  const indexed = row === null ? null : wordsRow(table, row);
  if (indexed === null) await book().words.delete(`${table}/${id}`);
  else await book().words.put(indexed);
}

/** Marks the words as outdated in the transaction that replaces the records. */
export async function forgetWords(): Promise<void> {
  await book().meta.put({ key: MADE_KEY, value: `stale ${Math.random()}` });
}

const makeAll = async (): Promise<void> => {
  const db = book();
  for (;;) {
    const found = (await db.meta.get(MADE_KEY))?.value;
    if (found === MADE) return;
    await db.words.clear();
    for (const table of FOUND_TABLES) {
      const rows = db.table<StoredRow, string>(table);
      for (let after: string | null = ''; after !== null; ) {
        const from: string = after;
        after = await db.transaction('rw', rows, db.words, async () => {
          const piece = await rows.where(':id').above(from).limit(PIECE).toArray();
          await db.words.bulkPut(piece.map((row) => wordsRow(table, row)).filter((row) => row !== null));
          return piece.length < PIECE ? null : String(piece.at(-1)?.['id']);
        });
      }
    }
    const done = await db.transaction('rw', db.meta, async () => {
      // The records may have been replaced since they were read.
      if ((await db.meta.get(MADE_KEY))?.value !== found) return false;
      await db.meta.put({ key: MADE_KEY, value: MADE });
      return true;
    });
    if (done) return;
  }
};

let making: { readonly of: unknown; readonly done: Promise<void> } | null = null;

/** Rebuilds the words where they are missing or outdated. */
export function readyWords(): Promise<void> {
  const of = book();
  if (making?.of === of) return making.done;
  const done = makeAll().finally(() => {
    making = null;
  });
  making = { of, done };
  return done;
}
