/** The files of exported lists, one at a time, so that no more than one is in memory. */
import { dataLists } from '../../shared-core/documents/lists/data-lists.ts';
import { dataCsv } from '../../shared-core/documents/lists/data-table.ts';
import type { ListRows } from '../../shared-core/documents/lists/list-rows.ts';
import { base64OfBytes, base64OfText } from '../desk/base64.ts';
import { workbookOf } from '../parts/workbook.ts';

export interface ListFile {
  readonly name: string;
  readonly about: string;
  readonly base64: string;
}

/** Every list that has rows as CSV, and all lists as one workbook, which comes first. */
export function* listFiles(rows: ListRows): Generator<ListFile> {
  const lists = dataLists(rows).filter((list) => list.rows.length > 0);
  yield { name: 'all lists.xlsx', about: 'All lists as one workbook.', base64: base64OfBytes(workbookOf(lists)) };
  for (const list of lists) yield { name: `${list.name}.csv`, about: list.about, base64: base64OfText(dataCsv(list)) };
}
