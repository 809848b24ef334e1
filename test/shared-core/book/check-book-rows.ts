import { bookChecker, type DataProblem } from '../../../shared-core/book/data-check.ts';
import type { BookRows } from '../../../shared-core/book/backup.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';

/**
 * Lists the problems of data in memory.
 * @param pictures names of the photo files that exist
 */
export function checkBookRows(rows: BookRows, pictures: readonly string[]): DataProblem[] {
  const checker = bookChecker();
  for (const table of TABLE_NAMES) for (const row of rows[table]) checker.see(table, row);
  for (const name of pictures) checker.seePicture(name);
  return checker.finish();
}
