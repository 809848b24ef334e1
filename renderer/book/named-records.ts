/** Records that name another record, read by the indexes in the transaction of an undo. */
import { RECORD_WORDS, REFERENCES } from '../../shared-core/book/data-check.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES, TABLES, type TableName } from '../../shared-core/book/tables.ts';
import { book, type Change } from './database.ts';

type Naming = { readonly table: TableName; readonly row: StoredRow };

const hasIndex = (table: TableName, field: string): boolean =>
  TABLES[table].indexes.some((index) => index === field || index.startsWith(`[${field}+`));

/** A stored record that names one of these deleted ones; null when none does. Without an index of its field, it is found by its job. */
async function namingOf(target: TableName, deleted: readonly StoredRow[]): Promise<Naming | null> {
  const ids = new Set(deleted.map(({ id }) => String(id)));
  const of = (field: string): string[] => [...new Set(deleted.map((row) => String(row[field])))];
  const jobs = target === 'rooms' ? await book().rowsOf('jobs').where('propertyId').anyOf(of('propertyId')).toArray() : [];
  const job = jobs.find((one) => [...one.rooms, ...(one.withdrawn ?? [])].some(({ roomId }) => ids.has(roomId)));
  if (job !== undefined) return { table: 'jobs', row: job };
  const jobIds = target === 'rooms' ? jobs.map(({ id }) => id) : of('jobId');
  for (const table of TABLE_NAMES)
    for (const [field, named] of Object.entries(REFERENCES[table] ?? {})) {
      if (named !== target) continue;
      const rows = book().table<StoredRow, string>(table);
      const likely = hasIndex(table, field)
        ? rows.where(field).anyOf([...ids])
        : target === 'properties'
          ? rows.toCollection()
          : rows.where('jobId').anyOf(jobIds);
      const row = await likely.filter((one) => ids.has(String(one[field]))).first();
      if (row !== undefined) return { table, row };
    }
  return null;
}

const ARCHIVED: readonly TableName[] = ['customers', 'properties', 'rooms', 'jobs'];

/**
 * That a record outside these changes names one that they delete, as a sentence; null when none does. Issued documents and pour log
 * entries are not undone, and would lose the record that they belong to.
 */
export async function stillNamed(changes: readonly Change[]): Promise<string | null> {
  for (const target of TABLE_NAMES) {
    const deleted = changes.flatMap(({ table, before, after }) => (table === target && after === null && before !== null ? [before] : []));
    const found = deleted.length === 0 ? null : await namingOf(target, deleted);
    if (found === null) continue;
    const { table, row } = found;
    const name = table === 'ledger' && row['kind'] === 'invoice' ? `Invoice ${String(row['number'])}` : `A ${RECORD_WORDS[table]}`;
    if (target === 'ledger') return `${name} still needs this entry. Void the entry in Money instead.`;
    const word = RECORD_WORDS[target];
    return `${name} still needs this ${word}. Archive the ${ARCHIVED.includes(target) ? word : 'job'} instead.`;
  }
  return null;
}
