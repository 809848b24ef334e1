/** Checks all data in a worker, so that no key waits for it. */
import { expose } from 'comlink';
import type { DataProblem } from '../../shared-core/book/data-check.ts';
import { Book, swapBook } from '../book/database.ts';
import { checkBook } from '../book/integrity.ts';

const work = {
  /** @param name name of the database */
  check(name: string, pause: () => Promise<boolean>): Promise<DataProblem[] | null> {
    swapBook(new Book(name));
    return checkBook(pause);
  },
};
export type CheckWork = typeof work;

expose(work);
