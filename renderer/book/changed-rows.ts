/**
 * Notes each changed record in the transaction that changes it, so that a backup reads only what changed and no change can be stored
 * without its note. The last mark is stored too: what was calculated under it is still right.
 */
import Dexie, { type DBCore, type DBCoreMutateRequest, type DBCoreTransaction, type Middleware } from 'dexie';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';

export const CHANGED = 'changed';
/** The key is `rooms/abc`, or `rooms/*` for a whole table; the mark tells repeated changes of a record apart. */
export type ChangedRow = { readonly key: string; readonly mark: string };

const MARK_TABLE = 'meta';
const MARK_KEY = 'records/mark';

/** The mark of the last change of any record; null before one. Read beside Dexie, so that no live query follows it. */
export function readMark(database: IDBDatabase): Promise<string | null> {
  const request = database.transaction(MARK_TABLE).objectStore(MARK_TABLE).get(MARK_KEY);
  return new Promise((resolve) => {
    request.onsuccess = () => {
      const row: unknown = request.result;
      resolve(typeof row === 'object' && row !== null && 'value' in row && typeof row.value === 'string' ? row.value : null);
    };
    request.onerror = () => resolve(null);
  });
}

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

/** Tables that a transaction has noted as a whole: a restore writes thousands of rows into a table that it cleared. */
const notedWhole = new WeakMap<DBCoreTransaction, Set<string>>();

/** The notes that a transaction lacks, of those of one request. */
function lackingOf(trans: DBCoreTransaction, table: string, keys: string[]): string[] {
  const noted = notedWhole.get(trans) ?? new Set();
  notedWhole.set(trans, noted);
  if (noted.has(table)) return [];
  if (keys.includes(`${table}/*`)) noted.add(table);
  return keys;
}

export const noteChanges: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'note-changes',
  create: (core) => ({
    ...core,
    transaction: (stores, mode, options): DBCoreTransaction => {
      const isWriting = mode === 'readwrite' && stores.some((name) => NOTED.has(name));
      return core.transaction(isWriting ? [...new Set([...stores, CHANGED, MARK_TABLE])] : stores, mode, options);
    },
    table: (name) => {
      const table = core.table(name);
      if (!NOTED.has(name)) return table;
      return {
        ...table,
        // Requested together and returned as Dexie's own promise, because `await` would leave the transaction's zone.
        mutate: (request) => {
          const mark = nextMark();
          const { trans } = request;
          const values = lackingOf(trans, name, keysOf(name, request)).map((key) => ({ key, mark }));
          const answer = table.mutate(request);
          if (values.length === 0) return answer;
          const noted = core.table(CHANGED).mutate({ type: 'put', trans, values });
          const marked = core.table(MARK_TABLE).mutate({ type: 'put', trans, values: [{ key: MARK_KEY, value: mark }] });
          return Dexie.Promise.all([answer, noted, marked]).then(([first]) => first);
        },
      };
    },
  }),
};
