/** Reads a logger's file in a worker, because half a million rows take seconds. */
import { expose } from 'comlink';
import type { NamedTable } from '../parts/read-table.ts';
import { type LogAsked, type LogRead, openLogTables, readLog, rowsOf } from './read-log.ts';

let tables: readonly NamedTable[] = [];

const work = {
  /** Takes a file or a long text; returns its row count, 0 for an empty one, or a sentence about a file without a table. */
  async open(source: File | string): Promise<number | string> {
    const opened = await openLogTables(source);
    if (typeof opened === 'string') return opened;
    tables = opened;
    return rowsOf(tables);
  },
  read: (asked: LogAsked, nowMs: number, onShare: (share: number) => void): LogRead => readLog(tables, asked, nowMs, onShare),
};
export type LogWork = typeof work;

expose(work);
