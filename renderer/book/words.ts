/**
 * Search words and results, stored with each record in the same edit, so that Search reads no record: a room with its readings or a job
 * takes longer to read and check than its name. Rebuilt after bulk changes (restore, sample data).
 */
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { type RowOf, checkRow } from '../../shared-core/book/rows.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { joined } from '../../shared-core/measure/list.ts';
import { joinPhones } from '../../shared-core/measure/phone-email.ts';
import { propertyName } from '../../shared-core/standing/names.ts';
import { book, type WordsRow } from './database.ts';

export const FOUND_TABLES = ['customers', 'properties', 'jobs', 'rooms', 'materials'] as const;
export type FoundTable = (typeof FOUND_TABLES)[number];

/** Raise this when the words of any record kind change. */
const WORDS_VERSION = 3;
const MADE_KEY = 'words/made';
const MADE = `made ${WORDS_VERSION}`;
const PIECE = 250;

/** Removes accents and case, so that “Angstrom” finds “Ångström”. */
const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
const distinct = (words: readonly string[]): string[] => [...new Set(words)].filter((word) => word !== '');

/** Words between spaces: `26-014`, `o'dell`. */
function wholeWords(text: string): string[] {
  const words = plain(text).split(/[\s,;]+/);
  return distinct(words.map((word) => word.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '')));
}

/** Runs of letters and digits: `26`, `014`, `o`, `dell`. */
function partWords(text: string): string[] {
  return distinct(plain(text).split(/[^\p{L}\p{N}]+/u));
}

/** A US phone number, joined, with its area code and without. */
const [PHONE, LOCAL_PHONE] = [/^\d{10}$/, /^\d{7}$/];
/** Before a number stored without its area code. Nobody types it, so that a number with another area code is not taken for this one. */
const ANY_AREA = '***';
/** Digits of a phone number without its area code, and of its last part. */
const ENDS = [7, 4];

/** The words of a text: whole, in parts, and each phone number as its ten digits and their ends. */
function allWords(text: string): string[] {
  const joined = wholeWords(joinPhones(text));
  const ends = joined.filter((word) => PHONE.test(word)).flatMap((word) => ENDS.map((digits) => word.slice(-digits)));
  const local = joined.filter((word) => LOCAL_PHONE.test(word)).flatMap((word) => [`${ANY_AREA}${word}`, word.slice(-4)]);
  return [...wholeWords(text), ...partWords(text), ...joined, ...ends, ...local];
}

/**
 * The ways to read a query as terms, the strictest first. The first one that finds something counts. A phone number is one term; the
 * second reading finds it stored without its area code.
 */
export function queryReadings(query: string): readonly (readonly string[])[] {
  const joined = wholeWords(joinPhones(query));
  return [joined, joined.map((term) => (PHONE.test(term) ? `${ANY_AREA}${term.slice(-7)}` : term)), partWords(joinPhones(query))];
}

type SearchEntry = {
  readonly texts: readonly string[];
  readonly title: string;
  /** What it says in the results of records under it: a customer's name, a property's address. */
  readonly label: string;
  /** Keys of the records above it. */
  readonly under: readonly string[];
  /** A detail of its own; where there is none, the labels of the records above it are its detail. */
  readonly detail: string;
  readonly href: string;
};
const ENTRIES: { readonly [T in FoundTable]: (row: RowOf<T>) => SearchEntry } = {
  customers: (c) => ({
    texts: [c.name, c.phone, c.email, ...c.more.map((m) => m.text), ...c.contacts.flatMap((k) => [k.name, k.phone, k.email])],
    title: c.name,
    label: c.name,
    under: [],
    detail: joined([c.phone, c.email]),
    href: `/customers/${c.id}`,
  }),
  properties: (p) => ({
    texts: [p.address.line, p.address.city, p.address.zip],
    title: joined([propertyName(p), p.address.city]),
    label: joined([p.address.line, p.address.city]),
    under: [`customers/${p.customerId}`],
    detail: '',
    href: `/properties/${p.id}`,
  }),
  jobs: (j) => ({
    texts: [j.number, j.title],
    title: joined([`Job ${j.number}`, j.title]),
    label: '',
    under: [`customers/${j.customerId}`, `properties/${j.propertyId}`],
    detail: '',
    href: `/jobs/${j.id}/now/${j.rooms[0]?.roomId ?? ''}`,
  }),
  rooms: (r) => ({
    ...{
      texts: [r.name],
      title: r.name,
      label: '',
      under: [`properties/${r.propertyId}`],
      detail: '',
      href: `/properties/${r.propertyId}`,
    },
  }),
  materials: (m) => ({ texts: [m.name], title: m.name, label: '', under: [], detail: '', href: `/materials/${m.id}` }),
};

const isFound = (table: TableName): table is FoundTable => (FOUND_TABLES as readonly string[]).includes(table);

/** The search words of a readable record. */
export const searchWords = <T extends FoundTable>(table: T, row: RowOf<T>): string[] =>
  distinct(ENTRIES[table](row).texts.flatMap(allWords));

/** The search words of a record, and what its result says; null for one that is archived, unreadable, or not searched. */
export function wordsRow(table: TableName, row: StoredRow): WordsRow | null {
  if (!isFound(table) || row['deletedAt'] !== null || !checkRow(table, row).ok) return null;
  // The check above validated the row against this table's schema.
  const { texts, ...entry } = ENTRIES[table](row as never);
  return { key: `${table}/${String(row['id'])}`, words: distinct(texts.flatMap(allWords)), ...entry };
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
