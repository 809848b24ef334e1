/** A logger's file off the screen's thread: half a million rows take their time. */
import { expose } from 'comlink';
import type { LogTable } from '../../shared-core/cure/log-choice.ts';
import { readText } from '../parts/read-text.ts';
import { type LogAsked, type LogRead, parseLog, readLog } from './read-log.ts';

let table: LogTable = [];

const work = {
  /** Takes a file or a long text in; gives how many rows it has, 0 for an empty one. */
  async open(source: File | string): Promise<number> {
    table = parseLog(typeof source === 'string' ? source : await readText(source));
    return table.length;
  },
  read: (asked: LogAsked, nowMs: number, onShare: (share: number) => void): LogRead => readLog(table, asked, nowMs, onShare),
};
export type LogWork = typeof work;

expose(work);
