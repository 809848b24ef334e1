/** Caches the records read last, so that a pending edit can be calculated synchronously when the window closes. */
import type { DBCore, Middleware } from 'dexie';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';

/** Many times the records of a screen and its agenda. */
const MOST_ROWS = 4000;
/** A longer result is a scan of all data, not the rows of a screen. */
const LONGEST_ANSWER = 400;
/** Users do not edit these. */
const LEFT_OUT: ReadonlySet<string> = new Set(['pourEvents', 'calendarEntries']);
const KEPT: ReadonlySet<string> = new Set(TABLE_NAMES.filter((name) => !LEFT_OUT.has(name)));

const isRow = (value: unknown): value is StoredRow => typeof value === 'object' && value !== null && 'id' in value;

export class RecentRows {
  readonly #rows = new Map<string, StoredRow>();

  /** The record as last read or written in this window; undefined when it is not cached. */
  recall(table: string, id: string): StoredRow | undefined {
    return this.#rows.get(`${table} ${id}`);
  }

  note(table: string, row: unknown): void {
    if (!KEPT.has(table) || !isRow(row)) return;
    const key = `${table} ${String(row['id'])}`;
    this.#rows.delete(key);
    this.#rows.set(key, row);
    if (this.#rows.size <= MOST_ROWS) return;
    const oldest = this.#rows.keys().next();
    if (oldest.done !== true) this.#rows.delete(oldest.value);
  }

  /** Caches the result of every read. */
  middleware(): Middleware<DBCore> {
    const noteAll = (table: string, rows: readonly unknown[]): void => {
      if (rows.length <= LONGEST_ANSWER) for (const row of rows) this.note(table, row);
    };
    return {
      stack: 'dbcore',
      name: 'recent-rows',
      create: (core) => ({
        ...core,
        table: (name) => {
          const table = core.table(name);
          if (!KEPT.has(name)) return table;
          return {
            ...table,
            // Returns Dexie's own promises, because `await` would leave the transaction's zone.
            get: (request) =>
              table.get(request).then((row: unknown) => {
                this.note(name, row);
                return row;
              }),
            getMany: (request) =>
              table.getMany(request).then((rows: unknown[]) => {
                noteAll(name, rows);
                return rows;
              }),
            query: (request) =>
              table.query(request).then((answer) => {
                if (request.values === true) noteAll(name, answer.result);
                return answer;
              }),
          };
        },
      }),
    };
  }
}
