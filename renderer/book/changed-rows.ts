/**
 * Which records changed since the last backup, noted in the very transaction that changes them, so that a backup need read only those.
 * A change that reaches the disk without its note cannot be.
 */
import type { DBCore, DBCoreMutateRequest, DBCoreTransaction, Middleware } from 'dexie';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';

/** The table of these notes. */
export const CHANGED = 'changed';
/** One note: `rooms/abc`, or `rooms/*` for all of a table; the mark tells a note from a later one of the same record. */
export type ChangedRow = { readonly key: string; readonly mark: string };

const NOTED: ReadonlySet<string> = new Set(TABLE_NAMES);
/** More at once are noted as the whole table. */
const MOST_AT_ONCE = 300;

const window = Math.random().toString(36).slice(2, 10);
let serial = 0;
const nextMark = (): string => {
  serial += 1;
  return `${window}-${serial}`;
};

const idOf = (value: unknown): string | null => {
  const { id } = value as { readonly id?: unknown };
  return typeof id === 'string' ? id : null;
};

/** What a change of a table is noted as. */
const keysOf = (table: string, request: DBCoreMutateRequest): string[] => {
  if (request.type === 'deleteRange') return [`${table}/*`];
  const ids = request.type === 'delete' ? request.keys : request.values.map(idOf);
  if (ids.length > MOST_AT_ONCE) return [`${table}/*`];
  return ids.flatMap((id) => (typeof id === 'string' ? [`${table}/${id}`] : []));
};

export const noteChanges: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'note-changes',
  create: (core) => ({
    ...core,
    transaction: (stores, mode, options): DBCoreTransaction => {
      const isWriting = mode === 'readwrite' && stores.some((name) => NOTED.has(name)) && !stores.includes(CHANGED);
      return core.transaction(isWriting ? [...stores, CHANGED] : stores, mode, options);
    },
    table: (name) => {
      const table = core.table(name);
      if (!NOTED.has(name)) return table;
      return {
        ...table,
        // Dexie's own promises stay Dexie's: awaiting them here would leave the transaction's zone.
        mutate: (request) =>
          table.mutate(request).then((answer) => {
            const mark = nextMark();
            const values = keysOf(name, request).map((key) => ({ key, mark }));
            if (values.length === 0) return answer;
            return core
              .table(CHANGED)
              .mutate({ type: 'put', trans: request.trans, values })
              .then(() => answer);
          }),
      };
    },
  }),
};
