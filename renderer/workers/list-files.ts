/** The files of exported lists. Each list is read once: a row goes to its CSV file and to the workbook. */
import { dataLists } from '../../shared-core/documents/lists/data-lists.ts';
import { csvHead, csvLines } from '../../shared-core/documents/lists/data-table.ts';
import type { ListRows } from '../../shared-core/documents/lists/list-rows.ts';
import { TextBytes } from '../parts/text-bytes.ts';
import { type Packing, Workbook } from '../parts/workbook.ts';

export interface ListFile {
  readonly name: string;
  readonly about: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** The share of the lists written so far, 0 to 1. */
  readonly share: number;
}

/** Every list that has rows as CSV, then all lists as one workbook. @param newPacking compresses each part of the workbook */
export async function* listFiles(rows: ListRows, newPacking?: () => Packing): AsyncGenerator<ListFile, void> {
  const lists = dataLists(rows).filter((list) => list.rows.length > 0);
  const all = lists.reduce((sum, list) => sum + list.rows.length, 0);
  const workbook = new Workbook(lists, newPacking);
  let done = 0;
  for (const list of lists) {
    const csv = new TextBytes(csvHead(list.columns));
    const line = csvLines(list.columns);
    await workbook.add(list, (row) => csv.add(line(row)));
    done += list.rows.length;
    yield { name: `${list.name}.csv`, about: list.about, bytes: csv.take(), share: done / all };
  }
  yield { name: 'all lists.xlsx', about: 'All lists as one workbook.', bytes: await workbook.finish(), share: 1 };
}
