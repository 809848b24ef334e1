/**
 * The records read last, by the way of everything the book reads: what an edit starts from is known at once here, when the
 * window is going and nothing can be waited for.
 */
import type { DBCore, Middleware } from 'dexie';
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';

/** What a screen and the agenda behind it read fits many times over. */
const MOST_ROWS = 4000;
/** A longer answer is a look through the book: nobody types into it. */
const LONGEST_ANSWER = 400;
/** Edited by hand, all but these. */
const LEFT_OUT: ReadonlySet<string> = new Set(['pourEvents', 'calendarEntries']);
const KEPT: ReadonlySet<string> = new Set(TABLE_NAMES.filter((name) => !LEFT_OUT.has(name)));

const isRow = (value: unknown): value is StoredRow => typeof value === 'object' && value !== null && 'id' in value;

export class RecentRows {
  readonly #rows = new Map<string, StoredRow>();

  /** The record as it was last read or written in this window; undefined when it was not, or long ago. */
  recall(table: string, id: string): StoredRow | undefined {
    return this.#rows.get(`${table} ${id}`);
  }

  /** Notes a record as it stands now. */
  note(table: string, row: unknown): void {
    if (!KEPT.has(table) || !isRow(row)) return;
    const key = `${table} ${String(row['id'])}`;
    this.#rows.delete(key);
    this.#rows.set(key, row);
    if (this.#rows.size <= MOST_ROWS) return;
    const oldest = this.#rows.keys().next();
    if (oldest.done !== true) this.#rows.delete(oldest.value);
  }

  /** Sees every read go by, changing nothing. */
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
            // Dexie's own promises stay Dexie's: awaiting them here would leave the transaction's zone.
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
