/** A new database for each test, in memory. */
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { Book, swapBook } from '../../../renderer/book/database.ts';

let serial = 0;
export const NOW = '2026-05-12T11:05:00.000Z';
export const LATER = '2026-05-12T11:06:00.000Z';

/** Opens an empty database with a company record. */
export async function freshBook(): Promise<Book> {
  serial += 1;
  const book = new Book(`test-${serial}`);
  await book.open();
  await book.rowsOf('business').put(newBusiness(NOW, 'America/New_York', 'en-US'));
  swapBook(book);
  return book;
}
