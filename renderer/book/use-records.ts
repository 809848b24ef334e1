/** Live queries: a screen follows the records it shows, whichever window changes them. Undefined while loading. */
import { dequal } from 'dequal';
import { useLiveQuery } from 'dexie-react-hooks';
import type { Business } from '../../shared-core/book/business.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import type { PourEvent } from '../../shared-core/book/pour-record.ts';
import { book } from './database.ts';
import { readPourLog } from './read-pour-log.ts';
import { readable } from './integrity.ts';
import { useKept } from './use-kept.ts';

/** Rows that are readable and not archived. */
export const inUse = <T extends TableName>(table: T, rows: RowOf<T>[]): RowOf<T>[] =>
  readable(table, rows).filter((row) => !('deletedAt' in row) || row.deletedAt === null);

/** Tables whose rows say when they were made. A log entry has its place in the log instead. */
type StampedTable = Exclude<TableName, 'pourEvents'>;
const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Rows by an index, in the order in which they were made: their ids are random. */
export const readBy = async <T extends StampedTable>(table: T, index: string, values: readonly string[]): Promise<RowOf<T>[]> => {
  const rows = book().rowsOf(table).where(index);
  const used = inUse(table, await rows.anyOf([...values]).toArray());
  return used.sort((a, b) => byText(a.createdAt, b.createdAt) || byText(a.id, b.id));
};

export function useAll<T extends TableName>(table: T): RowOf<T>[] | undefined {
  return useKept(`all ${table}`, async () => inUse(table, await book().rowsOf(table).toArray()));
}

/** Rows whose `index` equals `value`, as made; none while `value` is null. */
export function useWhere<T extends StampedTable>(table: T, index: string, value: string | null): RowOf<T>[] | undefined {
  return useKept(`where ${table} ${index} ${value}`, async () => (value === null ? [] : readBy(table, index, [value])));
}

export function usePourLogEntries(pourId: string): PourEvent[] | undefined {
  return useKept(`log ${pourId}`, async () => readable('pourEvents', await readPourLog(pourId)));
}

export function useById<T extends StampedTable>(table: T, ids: readonly string[]): RowOf<T>[] | undefined {
  return useKept(`by id ${table} ${ids.join(' ')}`, () => readBy(table, 'id', ids));
}

/** One row, archived or not; null when it does not exist or cannot be read, undefined while loading. */
export function useOne<T extends TableName>(table: T, id: string | null): RowOf<T> | null | undefined {
  return useKept(`one ${table} ${id}`, async () =>
    id === null ? null : (readable(table, await book().rowsOf(table).where('id').equals(id).toArray())[0] ?? null),
  );
}

let lastBusiness: Business | undefined;

/** The company record: the same object while it is unchanged, because what is calculated from it is kept by that object. */
export async function readBusiness(): Promise<Business | undefined> {
  const read = await book().rowsOf('business').get('business');
  if (read === undefined || lastBusiness === undefined || !dequal(read, lastBusiness)) lastBusiness = read;
  return lastBusiness;
}

export function useBusiness(): Business | undefined {
  return useKept('business', readBusiness);
}

/** Tables with an index on the time of archiving. */
type AwayTable = 'customers' | 'properties' | 'rooms' | 'jobs' | 'materials';

/** Archived rows, newest first, without reading the others. */
export function useArchive<T extends AwayTable>(table: T): RowOf<T>[] | undefined {
  return useKept(`archive ${table}`, async () =>
    readable(table, await book().rowsOf(table).where('deletedAt').above('').reverse().toArray()),
  );
}

/** Rooms in use of these properties; empty while they load. */
export function useOfProperties(propertyIds: readonly string[]): RowOf<'rooms'>[] {
  return useKept(`rooms of ${propertyIds.join(' ')}`, () => readBy('rooms', 'propertyId', propertyIds)) ?? [];
}

export function useOfJobs<T extends 'pours' | 'visits' | 'quotes' | 'documents'>(table: T, jobIds: readonly string[]): RowOf<T>[] {
  return useKept(`of jobs ${table} ${jobIds.join(' ')}`, () => readBy(table, 'jobId', jobIds)) ?? [];
}

/** Log entries of these pours; undefined while loading. */
export function useOfPours(pourIds: readonly string[] | undefined): RowOf<'pourEvents'>[] | undefined {
  return useKept(`of pours ${pourIds?.join(' ')}`, async () =>
    pourIds === undefined
      ? undefined
      : readable(
          'pourEvents',
          await book()
            .rowsOf('pourEvents')
            .where('pourId')
            .anyOf([...pourIds])
            .toArray(),
        ),
  );
}

/** The pours finished last, newest first; undefined while loading. */
export function useLastPours(most: number): RowOf<'pours'>[] | undefined {
  return useKept(`last pours ${most}`, async () => {
    const pours = book().rowsOf('pours').orderBy('finishedAt').reverse();
    const last = await pours
      .filter((pour) => pour.deletedAt === null)
      .limit(most)
      .toArray();
    return inUse('pours', last);
  });
}

/** Labels of the edits that undo and redo would apply; null for none. */
export function useHistory(): { undo: string | null; redo: string | null; seq: number } | undefined {
  return useLiveQuery(async () => {
    const applied = await book().edits.where('state').equals('standing').last();
    const undone = await book().edits.where('state').equals('undone').sortBy('seq');
    return { undo: applied?.label ?? null, redo: undone[0]?.label ?? null, seq: applied?.seq ?? 0 };
  }, []);
}
