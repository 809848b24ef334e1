/**
 * Notes each changed record in the transaction that changes it, so that a backup reads only what changed and no change can be stored
 * without its note.
 */
import type { DBCore, DBCoreMutateRequest, DBCoreTransaction, Middleware } from 'dexie';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';

export const CHANGED = 'changed';
/** The key is `rooms/abc`, or `rooms/*` for a whole table; the mark tells repeated changes of a record apart. */
export type ChangedRow = { readonly key: string; readonly mark: string };

const NOTED: ReadonlySet<string> = new Set(TABLE_NAMES);
/** A change of more rows is noted as the whole table. */
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
        // Returns Dexie's own promises, because `await` would leave the transaction's zone.
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
