/** All data as plain tables, for use in another program. */
import { columnsTable, type DataTable } from './data-table.ts';
import { type ListRows, Names } from './list-rows.ts';
import { workLists } from './job-lists.ts';
import { moneyLists } from './money-lists.ts';
import { peopleLists } from './people-lists.ts';
import { pourLists } from './pour-lists.ts';

/** All lists, the description of their columns first. Deleted and archived records are left out, except where others name them. */
export function dataLists(rows: ListRows): readonly DataTable[] {
  const names = new Names(rows);
  const lists = [...peopleLists(rows, names), ...workLists(rows, names), ...pourLists(rows, names), ...moneyLists(rows, names)];
  return [columnsTable(lists), ...lists];
}
