/** Compresses the parts of a workbook, one after another, beside the worker that writes them. */
import { expose, transfer } from 'comlink';
import { packHere } from '../parts/workbook.ts';

let part = packHere();

const work = {
  write: (text: string): Promise<void> => part.write(text),
  /** The part as a gzip; what is written after it is the next part. */
  async finish(): Promise<ArrayBuffer> {
    const finished = part;
    part = packHere();
    const gzip = await finished.finish();
    return transfer(gzip, [gzip]);
  },
};
export type PackWork = typeof work;

expose(work);
