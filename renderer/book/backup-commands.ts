/** The state of the last backup, and restoring one. The bytes of photos are restored separately. */
import Dexie from 'dexie';
import { useLiveQuery } from 'dexie-react-hooks';
import type { CalendarEntry } from '../../shared-core/book/papers.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { type Piece, type Pieces, PiecesStopped, picturesOf } from './book-pieces.ts';
import type { ChangedRow } from './changed-rows.ts';
import { book, ownBook } from './database.ts';
import { forgetChecks, readable } from './integrity.ts';
import { onRecords } from './on-records.ts';
import { done, explainDatabase, type Outcome, refused, stored } from './command.ts';
import { forgetWords } from './words.ts';

export type BackupState = {
  /** Null when no backup was ever made. */
  readonly instant: string | null;
  /** Why the last backup failed; null when it succeeded. */
  readonly failed: string | null;
};
const STATE_KEY = 'backup/last';
/** The next backup copies unchanged ranges from this one. */
const BASE_KEY = 'backup/base';
const DATASET_KEY = 'dataset';

/** The identity of this data, assigned once. It tells its backups from those of other data in the same folder. */
export async function readDataset(): Promise<string> {
  return ownBook().transaction('rw', ownBook().meta, async () => {
    const known = (await ownBook().meta.get(DATASET_KEY))?.value;
    if (typeof known === 'string') return known;
    const id = Array.from(crypto.getRandomValues(new Uint8Array(4)), (byte) => byte.toString(16).padStart(2, '0')).join('');
    await ownBook().meta.put({ key: DATASET_KEY, value: id });
    return id;
  });
}

export async function readBase(): Promise<string | null> {
  const name = (await ownBook().meta.get(BASE_KEY))?.value;
  return typeof name === 'string' ? name : null;
}

/** Pieces asked for before they are needed: while the transaction waits for one, it reads again and again to stay open. */
const PIECES_AHEAD = 3;
type Asked = { readonly answer: Promise<IteratorResult<Piece>>; arrived: IteratorResult<Piece> | null };
const askPiece = (pieces: Pieces): Asked => {
  const asked: Asked = { answer: Dexie.ignoreTransaction(() => pieces.next()), arrived: null };
  asked.answer.then(
    (piece) => (asked.arrived = piece),
    () => undefined,
  );
  return asked;
};
/** The next piece; null after the last. Waits at most one minute. */
const arrived = async (asked: Asked | undefined): Promise<Piece | null> => {
  const next = asked === undefined ? undefined : (asked.arrived ?? (await Dexie.waitFor(asked.answer)));
  return next === undefined || next.done === true ? null : next.value;
};

/** Whether every table has this number of rows. */
export async function hasCounts(counts: Readonly<Partial<Record<TableName, number>>>): Promise<boolean> {
  const found = await Promise.all(TABLE_NAMES.map((table) => book().table(table).count()));
  return TABLE_NAMES.every((table, i) => found[i] === counts[table]);
}

/** A part of a table between two ids; null for an end of the table. */
type Span = { readonly table: TableName; readonly after: string | null; readonly before: string | null };
/** The only spans in which a backup differs from the data, and all its photos. */
export type Differences = { readonly spans: readonly Span[]; readonly pictures: readonly string[] };

const clearSpan = ({ table, after, before }: Span): PromiseLike<unknown> => {
  const ids = book().table(table).where(':id');
  if (after !== null && before !== null) return ids.between(after, before, false, false).delete();
  if (after !== null) return ids.above(after).delete();
  return before === null ? book().table(table).clear() : ids.below(before).delete();
};
const WHOLE: readonly Span[] = TABLE_NAMES.map((table) => ({ table, after: null, before: null }));

/**
 * Puts back the entries that this computer sent in calendar files, where the restored ones are older or missing: a calendar ignores an event
 * whose SEQUENCE is lower than that of the one it has (RFC 5545, 3.8.7.4). One that the backup lacks is canceled in the next file.
 */
async function keepSent(sent: readonly CalendarEntry[]): Promise<void> {
  const table = book().rowsOf('calendarEntries');
  const restored = new Map((await table.toArray()).map((entry) => [entry.uid, entry]));
  const isNewer = ({ uid, sequence, fingerprint }: CalendarEntry): boolean => {
    const other = restored.get(uid);
    return other === undefined || sequence > other.sequence || (sequence === other.sequence && fingerprint !== other.fingerprint);
  };
  await table.bulkPut(sent.filter(isNewer));
}

/**
 * Replaces all data with that of a backup in one transaction, and clears undo history and drafts.
 * @param pieces the backup's rows; a few pieces are requested ahead
 * @param onRows called with the number of rows written so far
 * @param isCanceled called between pieces
 * @param only where the backup differs from the data; the pieces then hold these rows alone. Null replaces every row.
 */
export async function replaceData(
  pieces: Pieces,
  onRows: (rows: number) => void = () => undefined,
  isCanceled: () => boolean = () => false,
  only: Differences | null = null,
): Promise<Outcome> {
  const ahead = Array.from({ length: PIECES_AHEAD }, () => askPiece(pieces));
  const replace = async (): Promise<Outcome> => {
    // A backup was made just before, so a noted change means an edit since then.
    if ((await book().changed.count()) > 0)
      return refused('Your data changed during the backup, so nothing was restored. Close other Straightedge windows and try again.');
    const sent = readable('calendarEntries', await book().rowsOf('calendarEntries').toArray());
    for (const span of only?.spans ?? WHOLE) await clearSpan(span);
    const shown = new Set(only?.pictures);
    let many = 0;
    let writing: PromiseLike<unknown> | null = null;
    for (let next = await arrived(ahead.shift()); next !== null; next = await arrived(ahead.shift())) {
      if (isCanceled()) throw new PiecesStopped('The restore was canceled. Your data was not changed.');
      ahead.push(askPiece(pieces));
      const { table, rows } = next;
      if (table === 'photos') for (const name of picturesOf(rows)) shown.add(name);
      // The database writes a piece while the next is handed over.
      const before = writing;
      writing = book().table(table).bulkPut(rows);
      await before;
      many += rows.length;
      onRows(many);
    }
    await writing;
    await keepSent(sent);
    await book().pictures.bulkDelete((await book().pictures.toCollection().primaryKeys()).filter((name) => !shown.has(name)));
    await forgetWords();
    await book().figures.clear();
    await book().edits.clear();
    await book().drafts.clear();
    await book().meta.delete('business-from-sample');
    return done(undefined);
  };
  try {
    // Not tried again after a failure, because the pieces come once.
    const outcome = await book().transaction('rw', book().tables, replace);
    if (outcome.ok) forgetChecks();
    return outcome;
  } catch (error) {
    return error instanceof PiecesStopped ? refused(error.message) : explainDatabase(error);
  }
}

/**
 * Records that a backup was made.
 * @param covered the notes of changes that it includes
 */
export function noteBackup(of: {
  readonly instant: string;
  readonly name: string;
  readonly covered: readonly ChangedRow[];
}): Promise<Outcome> {
  return stored(() =>
    book().transaction('rw', book().meta, book().changed, async () => {
      await book().meta.put({ key: STATE_KEY, value: { instant: of.instant, failed: null } satisfies BackupState });
      await book().meta.put({ key: BASE_KEY, value: of.name });
      const now = await book().changed.bulkGet(of.covered.map(({ key }) => key));
      await book().changed.bulkDelete(of.covered.filter(({ mark }, i) => now[i]?.mark === mark).map(({ key }) => key));
    }),
  );
}

export function noteBackupFailure(failed: string): Promise<Outcome> {
  return stored(() =>
    book().transaction('rw', book().meta, async () => {
      const before = (await book().meta.get(STATE_KEY))?.value as BackupState | undefined;
      await book().meta.put({ key: STATE_KEY, value: { instant: before?.instant ?? null, failed } satisfies BackupState });
    }),
  );
}

export function useBackupState(): BackupState | undefined {
  return useLiveQuery(
    async () => ((await ownBook().meta.get(STATE_KEY))?.value as BackupState | undefined) ?? { instant: null, failed: null },
    [],
  );
}

export async function changedSinceBackup(): Promise<boolean> {
  return (await book().changed.count()) > 0;
}

/** Calls back when a record changes, in this window or another. Returns a function that unsubscribes. */
export function watchRecords(onChange: () => void): () => void {
  return onRecords(onChange);
}
