/** A logger's file off the screen's thread: half a million rows take their time. */
import { expose } from 'comlink';
import type { NamedTable } from '../parts/read-table.ts';
import { type LogAsked, type LogRead, openLogTables, readLog, rowsOf } from './read-log.ts';

let tables: readonly NamedTable[] = [];

const work = {
  /** Takes a file or a long text in; gives how many rows it has, 0 for an empty one, or a sentence about a file that is no table. */
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
