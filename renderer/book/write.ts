/** Writing: one edit is one transaction over its records and the undo history. */
import { dequal } from 'dequal';
import type { Business } from '../../shared-core/book/business.ts';
import type { Job } from '../../shared-core/book/job.ts';
import { leastJobSerial } from '../../shared-core/book/data-check.ts';
import { jobNumber } from '../../shared-core/book/new-records.ts';
import { checkRow, type RowOf } from '../../shared-core/book/rows.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { book, type Change, type Edit } from './database.ts';
import { attempt, done, type Outcome, refused } from './command.ts';
import { stillNamed } from './named-records.ts';
import { brokenRule, Refusal } from './record-rules.ts';
import { beginEdit, type Recall, type Writing } from './pending.ts';
import { storeWords } from './words.ts';
import { tellOverlap, thisWindow } from './windows.ts';

/** A change of a record: the fields that are new, or a pure function of the stored one. */
export type Update<T> = Partial<T> | ((was: T) => T);

export function updated<T extends object>(was: T, update: Update<T>): T {
  return typeof update === 'function' ? update(was) : { ...was, ...update };
}

/** One record to write: a whole row, or a change of the stored row. */
export type Put = { [T in TableName]: { readonly table: T; readonly row: RowOf<T> } }[TableName];
export type Patch = {
  [T in TableName]: { readonly table: T; readonly id: string; readonly change: Update<RowOf<T>> };
}[TableName];

/** A record deleted whole. Undo restores it unchanged, readable or not. */
export type Removal = { readonly table: TableName; readonly id: string };

/** Number of edits to undo; older ones are deleted. */
const HISTORY_LENGTH = 300;

const checked = (table: TableName, row: unknown): StoredRow => {
  const check = checkRow(table, row);
  if (!check.ok) throw new Refusal(check.message, check.where);
  return check.row;
};

const patched = (patch: Patch, before: StoredRow | undefined, now: string): Change | null => {
  if (before === undefined) throw new Refusal('This record was deleted, so your change was not saved.', '');
  const next = updated<object>(before, patch.change);
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
  /** A job that takes the next number: made in the transaction, from the stored serial and the stored job, if there is one. */
  readonly numbered?: { readonly id: string; readonly job: (number: string, was: Job | undefined) => Job };
  readonly patches?: readonly Patch[];
  readonly removes?: readonly Removal[];
  /** Cannot be undone, as where a document was issued: what to do instead. */
  readonly final?: string;
  /** Records of a backup, which were issued before. */
  readonly isImport?: boolean;
}

const keyOf = (table: TableName, id: string): string => `${table} ${id}`;

const BUSINESS = { table: 'business', id: 'business' } as const;

const recordsOf = ({ puts = [], numbered, patches = [], removes = [] }: Edits): readonly Removal[] => [
  ...(numbered === undefined ? [] : [{ table: 'jobs' as const, id: numbered.id }, BUSINESS]),
  ...puts.map(({ table, row }) => ({ table, id: row.id })),
  ...patches.map(({ table, id }) => ({ table, id })),
  ...removes,
];

/** The year of the company's calendar, in which jobs are numbered, as invoices are. */
const numberYear = (now: string, business: Business | undefined): number =>
  Number(dayOfInstant(now, business?.timeZone ?? 'UTC').slice(0, 4));

/** The lowest serial that no job of this year has, whatever the counter says: it lags after a restore or an import. */
const leastOfYear = async (now: string): Promise<number> => {
  const year = numberYear(now, await book().rowsOf('business').get(BUSINESS.id));
  const numbers = await book().rowsOf('jobs').where('number').startsWith(jobNumber(year, 0).slice(0, 3)).keys();
  return leastJobSerial(numbers.filter((number) => typeof number === 'string').map((number) => ({ number })));
};

const readStored = async (edits: Edits): Promise<Recall> => {
  const rows = new Map<string, StoredRow | undefined>();
  for (const { table, id } of recordsOf(edits)) rows.set(keyOf(table, id), await book().table<StoredRow, string>(table).get(id));
  return (table, id) => rows.get(keyOf(table, id));
};

/** The numbered job, and the count of numbers taken, which only rises. */
const numberedChanges = ({ id, job }: NonNullable<Edits['numbered']>, now: string, rowAt: Recall, least: number): (Change | null)[] => {
  const business = rowAt(BUSINESS.table, BUSINESS.id) as Business | undefined;
  const was = rowAt('jobs', id);
  const serial = Math.max(business?.nextJobSerial ?? 0, least);
  const taken = patched({ ...BUSINESS, change: { nextJobSerial: serial + 1 } }, business, now);
  return [placed({ table: 'jobs', row: job(jobNumber(numberYear(now, business), serial), was as Job | undefined) }, was), taken];
};

/**
 * The changes of an edit, over the stored records or those last read.
 * @param least lowest serial of a numbered job; before the jobs are read, the counter alone decides
 */
const changesOf = ({ puts = [], numbered, patches = [], removes = [] }: Edits, now: string, rowAt: Recall, least = 0): Change[] =>
  [
    ...(numbered === undefined ? [] : numberedChanges(numbered, now, rowAt, least)),
    ...puts.map((put) => placed(put, rowAt(put.table, put.row.id))),
    ...patches.map((patch) => patched(patch, rowAt(patch.table, patch.id), now)),
    ...removes.map((removal) => removed(removal, rowAt(removal.table, removal.id))),
  ].filter((change) => change !== null);

const apply = async (changes: readonly Change[], which: 'before' | 'after'): Promise<void> => {
  for (const change of changes) {
    const row = change[which];
    const table = book().table<StoredRow, string>(change.table);
    if (row !== null) book().recent.note(change.table, row);
    await Promise.all([row === null ? table.delete(change.id) : table.put(row), storeWords(change.table, change.id, row)]);
  }
};

/** Adds an edit to the history; returns its number. */
const remember = async (edit: Edit): Promise<number> => {
  const { edits } = book();
  const addOne = async (): Promise<number> => {
    const seq = await edits.add(edit);
    await edits
      .where('seq')
      .belowOrEqual(seq - HISTORY_LENGTH)
      .delete();
    return seq;
  };
  const [seq] = await Promise.all([addOne(), edits.where('state').equals('undone').modify({ state: 'dropped' })]);
  return seq;
};

const isSame = ({ before, after }: Change): boolean =>
  before !== null && after !== null && dequal({ ...before, changedAt: null }, { ...after, changedAt: null });

type Written = { readonly changes: readonly Change[]; readonly seq: number };

/** A refusal as its sentence. */
const orRefused = async <T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> => {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Refusal) return refused(error.message, error.where);
    throw error;
  }
};

const writeOnce = async (
  label: string,
  now: string,
  edits: Edits,
  onRead: (rows: Recall, changes: readonly Change[]) => void,
): Promise<Outcome<Written>> => {
  return orRefused(async () => {
    const written = await book().transaction('rw', book().tables, async (): Promise<Written> => {
      const least = edits.numbered === undefined ? 0 : await leastOfYear(now);
      const rows = await readStored(edits);
      const changes = changesOf(edits, now, rows, least);
      onRead(rows, changes);
      // A field that is left before its edit is stored enters it again; that is no edit of its own.
      if (changes.every(isSame)) return { changes: [], seq: 0 };
      // Requested together: each wait for an answer costs as much as a request.
      const [seq] = await Promise.all([
        remember({
          instant: now,
          label,
          changes,
          state: 'standing',
          by: thisWindow(),
          ...(edits.final !== undefined && { final: edits.final }),
        }),
        apply(changes, 'after'),
      ]);
      const broken = await brokenRule(changes, edits.isImport === true);
      if (broken !== null) throw new Refusal(broken, '');
      return { changes, seq };
    });
    return done(written);
  });
};

async function writePending(writing: Writing, edits: Edits, isRetry = false): Promise<Outcome> {
  const { label, instant } = writing;
  const ticket = beginEdit(writing);
  // Noted before the commit, because a transaction can still be aborted after the cached record shows the edit.
  const outcome = await attempt(() => writeOnce(label, instant, edits, (rows, changes) => Object.assign(writing, { rows, changes })));
  if (outcome.ok) {
    ticket.end(true);
    // The edit is stored, whatever becomes of the report.
    if (outcome.value.changes.length > 0) await tellOverlap({ label, instant, ...outcome.value }).catch(() => undefined);
    return done(undefined);
  }
  // A form that adds records stays open and saves them itself; a retry here would add them twice.
  const isRepeatable = edits.numbered === undefined && (edits.puts === undefined || edits.puts.length === 0);
  if (outcome.isFault === true) ticket.fail(outcome.message, isRepeatable ? () => writePending(writing, edits, true) : null);
  // Nobody waits for the answer of a retry, so that a refusal is listed.
  else if (isRetry) ticket.fail(outcome.message, null);
  else ticket.end(false);
  return outcome;
}

/**
 * Writes records in one transaction with strict durability, checked against their schemas. Never rejects. When the database fails, the edit
 * stays pending: it is listed on the screen and retried.
 * @param label what the edit did, for the undo button: `name of the hall`
 * @returns done, or why nothing was written
 */
export function write(label: string, now: string, edits: Edits): Promise<Outcome> {
  const changesOver = (rows: Recall): Change[] => changesOf(edits, now, rows);
  return writePending({ label, instant: now, records: recordsOf(edits), changesOver, rows: null, changes: null }, edits);
}

/** Changes one record by a pure function of the stored row. */
export function change<T extends TableName>(table: T, id: string, label: string, now: string, edit: Update<RowOf<T>>): Promise<Outcome> {
  // Rebuilds the union member that `Patch` distributes over.
  return write(label, now, { patches: [{ table, id, change: edit } as unknown as Patch] });
}

export function add<T extends TableName>(table: T, row: RowOf<T>, label: string, now: string): Promise<Outcome> {
  return write(label, now, { puts: [{ table, row } as unknown as Put] });
}

type Archivable = readonly { readonly table: Exclude<TableName, 'pourEvents'>; readonly id: string }[];

const stamp = (records: Archivable, label: string, now: string, deletedAt: string | null): Promise<Outcome> =>
  write(label, now, { patches: records.map(({ table, id }) => ({ table, id, change: { deletedAt } })) });

/** Archives records; undo or the list of archived records brings them back. */
export const archive = (records: Archivable, label: string, now: string): Promise<Outcome> => stamp(records, label, now, now);

export const unarchive = (records: Archivable, label: string, now: string): Promise<Outcome> => stamp(records, label, now, null);

const same = (a: StoredRow | undefined, b: StoredRow | null): boolean => JSON.stringify(a ?? null) === JSON.stringify(b);

const step = (from: 'standing' | 'undone', which: 'before' | 'after'): Promise<Outcome<string>> =>
  book().transaction('rw', book().tables, async () => {
    const { edits } = book();
    const found = await edits.where('state').equals(from).sortBy('seq');
    const edit = from === 'standing' ? found.at(-1) : found[0];
    if (edit?.seq === undefined) return refused(from === 'standing' ? 'There is nothing to undo.' : 'There is nothing to redo.');
    if (edit.final !== undefined) {
      // Said once: after that, undo goes on with the edit before it.
      await edits.update(edit.seq, { state: 'dropped' });
      const before = found.at(-2);
      const more = before === undefined || before.final !== undefined ? '' : ` Undo again to undo “${before.label}”.`;
      return refused(`“${edit.label}” cannot be undone. ${edit.final}${more}`);
    }
    const expected = which === 'before' ? 'after' : 'before';
    const word = from === 'standing' ? 'undone' : 'redone';
    for (const c of edit.changes) {
      if (!same(await book().table<StoredRow, string>(c.table).get(c.id), c[expected]))
        return refused(`“${edit.label}” was not ${word} because the record has changed since.`);
    }
    await apply(edit.changes, which);
    const steps = edit.changes.map((c) => ({ ...c, before: c[expected], after: c[which] }));
    const broken = (which === 'before' ? await stillNamed(steps) : null) ?? (await brokenRule(steps, true));
    if (broken !== null) throw new Refusal(`“${edit.label}” was not ${word}. ${broken}`);
    await edits.update(edit.seq, { state: from === 'standing' ? 'undone' : 'standing' });
    return done(edit.label);
  });

const stepOnce = (from: 'standing' | 'undone', which: 'before' | 'after'): Promise<Outcome<string>> =>
  attempt(() => orRefused(() => step(from, which)));

export function undo(): Promise<Outcome<string>> {
  return stepOnce('standing', 'before');
}

export function redo(): Promise<Outcome<string>> {
  return stepOnce('undone', 'after');
}
