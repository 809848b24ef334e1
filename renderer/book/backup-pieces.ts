/** The rows a backup has to send: all of them, or only the ranges that changed since the backup before. */
import { rangeText } from '../../shared-core/book/backup.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import type { ChangedRow } from './changed-rows.ts';
import { book } from './database.ts';
import { holdBook } from './book-pieces.ts';

/** A range of the backup before. */
export type BaseRange = { readonly table: TableName; readonly first: string; readonly last: string };
/** One step of a backup, in the order of tables and ids: ranges copied from the backup before, or rows. */
export type BackupStep =
  | { readonly kind: 'copy'; readonly table: TableName; readonly from: number; readonly count: number }
  | { readonly kind: 'rows'; readonly table: TableName; readonly bytes: Uint8Array<ArrayBuffer> };

/** A consistent snapshot of the data for a backup. */
export type BackupSteps = {
  readonly steps: () => AsyncIterable<BackupStep>;
  /** The notes of changes that it includes. */
  readonly covered: readonly ChangedRow[];
};

/** Splits a range that has more rows than this. */
const CHARACTERS_PER_RANGE = 1_000_000;
const ROWS_PER_RANGE = 1000;

const split = (table: TableName, rows: readonly StoredRow[]): BackupStep[] => {
  const steps: BackupStep[] = [];
  let piece: string[] = [];
  let size = 0;
  const take = (): void => void steps.push({ kind: 'rows', table, bytes: new TextEncoder().encode(rangeText(piece)) });
  for (const row of rows) {
    const line = JSON.stringify(row);
    piece.push(line);
    size += line.length;
    if (size < CHARACTERS_PER_RANGE && piece.length < ROWS_PER_RANGE) continue;
    take();
    [piece, size] = [[], 0];
  }
  if (piece.length > 0) take();
  return steps;
};

/** The range for an id: the last one that begins at or before it, else the first. */
const rangeOf = (ranges: readonly BaseRange[], id: string): number => {
  let [low, high] = [0, ranges.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((ranges[middle]?.first ?? '') <= id) low = middle;
    else high = middle - 1;
  }
  return low;
};

const tableSteps = async (table: TableName, ranges: readonly BaseRange[], changed: readonly string[]): Promise<BackupStep[]> => {
  const rows = book().table<StoredRow, string>(table);
  if (ranges.length === 0 || changed.includes('*')) return changed.length === 0 ? [] : split(table, await rows.orderBy(':id').toArray());
  const touched = new Set(changed.map((id) => rangeOf(ranges, id)));
  const steps: BackupStep[] = [];
  for (let index = 0; index < ranges.length; index += 1) {
    const before = steps.at(-1);
    if (!touched.has(index)) {
      if (before?.kind === 'copy') steps[steps.length - 1] = { ...before, count: before.count + 1 };
      else steps.push({ kind: 'copy', table, from: index, count: 1 });
      continue;
    }
    const from = index === 0 ? '' : (ranges[index]?.first ?? '');
    const until = ranges[index + 1]?.first;
    const found = until === undefined ? rows.where(':id').aboveOrEqual(from) : rows.where(':id').between(from, until, true, false);
    steps.push(...split(table, await found.toArray()));
  }
  return steps;
};

const changedIn = (covered: readonly ChangedRow[], table: TableName): string[] =>
  covered.flatMap(({ key }) => (key.startsWith(`${table}/`) ? [key.slice(table.length + 1)] : []));

/**
 * Reads what a backup needs in one transaction.
 * @param base the ranges of the backup before; null when there is none
 */
export async function readBackupSteps(base: readonly BaseRange[] | null): Promise<BackupSteps> {
  if (base === null) {
    // Read before the rows: a change during the backup is noted again and stays.
    const covered = await book().changed.toArray();
    const held = await holdBook();
    return {
      covered,
      steps: async function* () {
        for await (const range of held.ranges()) yield { kind: 'rows', ...range };
      },
    };
  }
  return book().transaction('r', book().tables, async () => {
    const covered = await book().changed.toArray();
    const steps: BackupStep[] = [];
    for (const table of TABLE_NAMES) {
      const ranges = base.filter((range) => range.table === table);
      steps.push(...(await tableSteps(table, ranges, changedIn(covered, table))));
    }
    return {
      covered,
      // Only a few steps; a full backup uses `book-pieces.ts`.
      // oxlint-disable-next-line typescript/require-await
      steps: async function* () {
        yield* steps;
      },
    };
  });
}
