/** Reads all data and makes the files of the lists in a worker: thousands of jobs take seconds. */
import { expose, transfer } from 'comlink';
import { Book, swapBook } from '../book/database.ts';
import { readListRows } from '../book/export-rows.ts';
import { type ListFile, listFiles } from './list-files.ts';

let files: AsyncIterator<ListFile, void> | null = null;

const work = {
  /** @param name name of the database */
  async open(name: string): Promise<void> {
    swapBook(new Book(name));
    files = listFiles(await readListRows(null));
  },
  /** The next file; null after the last. */
  async next(): Promise<ListFile | null> {
    const next = await files?.next();
    return next === undefined || next.done === true ? null : transfer(next.value, [next.value.bytes.buffer]);
  },
};
export type ListsWork = typeof work;

expose(work);
