/** Live views of the book: every screen that shows a record follows it as it changes, in this window or another. */
import { useLiveQuery } from 'dexie-react-hooks';
import type { Business } from '../../shared-core/book/business.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

/** Rows in use: readable and not put away. */
const inUse = <T extends TableName>(table: T, rows: RowOf<T>[]): RowOf<T>[] =>
  readable(table, rows).filter((row) => !('deletedAt' in row) || row.deletedAt === null);

/** All rows in use of a table; undefined while the book is being read. */
export function useAll<T extends TableName>(table: T): RowOf<T>[] | undefined {
  return useLiveQuery(async () => inUse(table, await book().rowsOf(table).toArray()), [table]);
}

/** Rows in use whose `index` equals `value`; none while `value` is null. */
export function useWhere<T extends TableName>(table: T, index: string, value: string | null): RowOf<T>[] | undefined {
  return useLiveQuery(
    async () => (value === null ? [] : inUse(table, await book().rowsOf(table).where(index).equals(value).toArray())),
    [table, index, value],
  );
}

/** Rows in use with these ids; undefined while reading. */
export function useById<T extends TableName>(table: T, ids: readonly string[]): RowOf<T>[] | undefined {
  return useLiveQuery(
    async () =>
      inUse(
        table,
        await book()
          .rowsOf(table)
          .where('id')
          .anyOf([...ids])
          .toArray(),
      ),
    [table, ids.join(' ')],
  );
}

/** One row, also when it was put away; null when there is none or it cannot be read, undefined while reading. */
export function useOne<T extends TableName>(table: T, id: string | null): RowOf<T> | null | undefined {
  return useLiveQuery(
    async () => (id === null ? null : (readable(table, await book().rowsOf(table).where('id').equals(id).toArray())[0] ?? null)),
    [table, id],
  );
}

/** The business's own record; undefined while reading. */
export function useBusiness(): Business | undefined {
  return useLiveQuery(async () => await book().rowsOf('business').get('business'), []);
}

/** Kinds whose put-away records are looked up by when that was. */
type AwayTable = 'customers' | 'properties' | 'rooms' | 'jobs' | 'materials';

/** What was put away, the last first; what is in use is not read. */
export function useArchive<T extends AwayTable>(table: T): RowOf<T>[] | undefined {
  return useLiveQuery(async () => readable(table, await book().rowsOf(table).where('deletedAt').above('').reverse().toArray()), [table]);
}

/** Rows in use of every one of these jobs. */
export function useOfJobs<T extends 'pours' | 'visits' | 'quotes' | 'documents'>(table: T, jobIds: readonly string[]): RowOf<T>[] {
  return (
    useLiveQuery(
      async () =>
        inUse(
          table,
          await book()
            .rowsOf(table)
            .where('jobId')
            .anyOf([...jobIds])
            .toArray(),
        ),
      [table, jobIds.join(' ')],
    ) ?? []
  );
}

/** Log entries of these pours; undefined while they or the pours are being read. */
export function useOfPours(pourIds: readonly string[] | undefined): RowOf<'pourEvents'>[] | undefined {
  return useLiveQuery(async () => {
    if (pourIds === undefined) return undefined;
    const rows = book().rowsOf('pourEvents').where('pourId');
    return inUse('pourEvents', await rows.anyOf([...pourIds]).toArray());
  }, [pourIds?.join(' ')]);
}

/** The pours finished last, the newest first; undefined while reading. */
export function useLastPours(most: number): RowOf<'pours'>[] | undefined {
  return useLiveQuery(async () => {
    const pours = book().rowsOf('pours').orderBy('finishedAt').reverse();
    const last = await pours
      .filter((pour) => pour.deletedAt === null)
      .limit(most)
      .toArray();
    return inUse('pours', last);
  }, [most]);
}

/** The label of the edit that undo would take back, and that redo would do again; null when there is none. */
export function useHistory(): { undo: string | null; redo: string | null } | undefined {
  return useLiveQuery(async () => {
    const standing = await book().edits.where('state').equals('standing').last();
    const undone = await book().edits.where('state').equals('undone').sortBy('seq');
    return { undo: standing?.label ?? null, redo: undone[0]?.label ?? null };
  }, []);
}
