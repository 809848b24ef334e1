/** Reads all data and makes the files of the lists in a worker: thousands of jobs take seconds. */
import { expose, transfer, wrap } from 'comlink';
import { Book, swapBook } from '../book/database.ts';
import { readListRows } from '../book/export-rows.ts';
import type { Packing } from '../parts/workbook.ts';
import { type ListFile, listFiles } from './list-files.ts';
import type { PackWork } from './pack.worker.ts';

/** Compresses in a worker of its own, and takes the next piece while that one is busy with the last. */
function packBeside(): () => Packing {
  const packer = wrap<PackWork>(new Worker(new URL('./pack.worker.ts', import.meta.url), { type: 'module' }));
  return () => {
    let last = Promise.resolve();
    return {
      async write(text) {
        await last;
        last = packer.write(text);
      },
      async finish() {
        await last;
        return packer.finish();
      },
    };
  };
}

let files: AsyncIterator<ListFile, void> | null = null;

const work = {
  /** @param name name of the database */
  async open(name: string): Promise<void> {
    swapBook(new Book(name));
    files = listFiles(await readListRows(null), packBeside());
  },
  /** The next file; null after the last. */
  async next(): Promise<ListFile | null> {
    const next = await files?.next();
    return next === undefined || next.done === true ? null : transfer(next.value, [next.value.bytes.buffer]);
  },
};
export type ListsWork = typeof work;

expose(work);
