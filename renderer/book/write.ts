/** Writing: one edit is one transaction over the records it changes and the line of history that can take it back. */
import { checkRow, type RowOf } from '../../shared-core/book/rows.ts';
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { book, type Change, type Edit } from './database.ts';
import { done, explainDatabase, type Outcome, refused } from './outcome.ts';
import { beginWriting, type Recall } from './unwritten.ts';
import { keepWords } from './words.ts';
import { overlapOf, tellOverlap, thisWindow } from './windows.ts';

/** One record to write: a whole row, or a pure function of the row as it stands when it is written. */
export type Put = { [T in TableName]: { readonly table: T; readonly row: RowOf<T> } }[TableName];
export type Patch = {
  [T in TableName]: { readonly table: T; readonly id: string; readonly change: (row: RowOf<T>) => RowOf<T> };
}[TableName];

/** A record taken out whole. Undo puts it back as it was, readable or not. */
export type Removal = { readonly table: TableName; readonly id: string };

/** Edits kept for undo; older ones fall off the end. */
const HISTORY_LENGTH = 300;

class Refusal extends Error {
  readonly where: string;
  constructor(message: string, where: string) {
    super(message);
    this.where = where;
  }
}

const checked = (table: TableName, row: unknown): StoredRow => {
  const check = checkRow(table, row);
  if (!check.ok) throw new Refusal(check.message, check.where);
  return check.row;
};

const patched = (patch: Patch, before: StoredRow | undefined, now: string): Change | null => {
  if (before === undefined) throw new Refusal('This record is no longer in the book: it was removed in another window.', '');
  // The union keeps table and change together; the compiler cannot follow that through a variable.
  const change = patch.change as (row: unknown) => object;
  const next = change(before);
  if (next === before) return null;
  return { table: patch.table, id: patch.id, before, after: checked(patch.table, { ...next, changedAt: now }) };
};

const placed = (put: Put, before: StoredRow | undefined): Change => ({
  table: put.table,
  id: put.row.id,
  before: before ?? null,
  after: checked(put.table, put.row),
});

const removed = ({ table, id }: Removal, before: StoredRow | undefined): Change | null =>
  before === undefined ? null : { table, id, before, after: null };

interface Edits {
  readonly puts?: readonly Put[];
  readonly patches?: readonly Patch[];
  readonly removes?: readonly Removal[];
  /** Not undoable: something was issued, and a later record corrects it. */
  readonly isFinal?: boolean;
}

const standing = (table: TableName, id: string) => book().table<StoredRow, string>(table).get(id);

/** What the edits come to over the records as they stand. */
const changesOf = async (edits: Edits, now: string): Promise<Change[]> => {
  const changes: (Change | null)[] = [];
  for (const put of edits.puts ?? []) changes.push(placed(put, await standing(put.table, put.row.id)));
  for (const patch of edits.patches ?? []) changes.push(patched(patch, await standing(patch.table, patch.id), now));
  for (const removal of edits.removes ?? []) changes.push(removed(removal, await standing(removal.table, removal.id)));
  return changes.filter((change) => change !== null);
};

/** The same at once, over the records as they were last read. */
const foreseen = (edits: Edits, now: string, recall: Recall): Change[] => [
  ...(edits.puts ?? []).map((put) => placed(put, recall(put.table, put.row.id))),
  ...(edits.patches ?? []).map((patch) => patched(patch, recall(patch.table, patch.id), now)).filter((change) => change !== null),
  ...(edits.removes ?? []).map((removal) => removed(removal, recall(removal.table, removal.id))).filter((change) => change !== null),
];

const apply = async (changes: readonly Change[], which: 'before' | 'after'): Promise<void> => {
  for (const change of changes) {
    const row = change[which];
    const table = book().table<StoredRow, string>(change.table);
    if (row !== null) book().recent.note(change.table, row);
    if (row === null) await table.delete(change.id);
    else await table.put(row);
    await keepWords(change.table, change.id, row);
  }
};

const remember = async (edit: Edit): Promise<void> => {
  const { edits } = book();
  await edits.where('state').equals('undone').modify({ state: 'dropped' });
  const seq = await edits.add(edit);
  await edits
    .where('seq')
    .belowOrEqual(seq - HISTORY_LENGTH)
    .delete();
};

/**
 * Writes records in one transaction, checked against their schemas, with strict durability.
 * @param label what the edit did, in words, for the undo key: `name of the hall`
 * @returns done, or why nothing was written
 */
export async function write(label: string, now: string, edits: Edits): Promise<Outcome> {
  let changes: Change[] | null = null;
  const written = beginWriting({ label, at: now, changes: (recall) => changes ?? foreseen(edits, now, recall) });
  try {
    const overlap = await book().transaction('rw', book().tables, async (): Promise<string | null> => {
      changes = await changesOf(edits, now);
      if (changes.length === 0) return null;
      const theirs = await overlapOf(changes, now);
      await apply(changes, 'after');
      if (edits.isFinal !== true) await remember({ at: now, label, changes, state: 'standing', by: thisWindow() });
      return theirs;
    });
    if (overlap !== null) tellOverlap(overlap, label);
    return done(undefined);
  } catch (error) {
    if (error instanceof Refusal) return refused(error.message, error.where);
    return explainDatabase(error);
  } finally {
    written();
  }
}

/** Changes one record by a pure function of it as it stands. */
export function change<T extends TableName>(
  table: T,
  id: string,
  label: string,
  now: string,
  how: (row: RowOf<T>) => RowOf<T>,
): Promise<Outcome> {
  // Rebuilds the union member that `Patch` distributes over.
  return write(label, now, { patches: [{ table, id, change: how } as unknown as Patch] });
}

/** Adds one new record. */
export function add<T extends TableName>(table: T, row: RowOf<T>, label: string, now: string): Promise<Outcome> {
  return write(label, now, { puts: [{ table, row } as unknown as Put] });
}

/** Puts records away; they can be brought back, by undo or from the list of what was put away. */
export function archive(
  records: readonly { readonly table: Exclude<TableName, 'pourEvents'>; readonly id: string }[],
  label: string,
  now: string,
): Promise<Outcome> {
  return write(label, now, {
    patches: records.map(({ table, id }) => ({ table, id, change: (row: object) => ({ ...row, deletedAt: now }) }) as unknown as Patch),
  });
}

/** Brings back what was put away. */
export function unarchive(
  records: readonly { readonly table: Exclude<TableName, 'pourEvents'>; readonly id: string }[],
  label: string,
  now: string,
): Promise<Outcome> {
  return write(label, now, {
    patches: records.map(({ table, id }) => ({ table, id, change: (row: object) => ({ ...row, deletedAt: null }) }) as unknown as Patch),
  });
}

const same = (a: StoredRow | undefined, b: StoredRow | null): boolean => JSON.stringify(a ?? null) === JSON.stringify(b);

const step = async (from: 'standing' | 'undone', which: 'before' | 'after'): Promise<Outcome<string>> => {
  const { edits } = book();
  try {
    return await book().transaction('rw', book().tables, async () => {
      const found = await edits.where('state').equals(from).sortBy('seq');
      const edit = from === 'standing' ? found.at(-1) : found[0];
      if (edit?.seq === undefined) return refused(from === 'standing' ? 'There is nothing to undo.' : 'There is nothing to do again.');
      const expected = which === 'before' ? 'after' : 'before';
      for (const c of edit.changes) {
        if (!same(await book().table<StoredRow, string>(c.table).get(c.id), c[expected])) {
          return refused(`“${edit.label}” was changed since in another window, so it was left as it is.`);
        }
      }
      await apply(edit.changes, which);
      await edits.update(edit.seq, { state: from === 'standing' ? 'undone' : 'standing' });
      return done(edit.label);
    });
  } catch (error) {
    return explainDatabase(error);
  }
};

/** Takes the last standing edit back. Gives its label. */
export function undo(): Promise<Outcome<string>> {
  return step('standing', 'before');
}

/** Does the edit last undone again. Gives its label. */
export function redo(): Promise<Outcome<string>> {
  return step('undone', 'after');
}
