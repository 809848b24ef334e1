/** A new database for each test, in memory. */
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { Book, swapBook } from '../../../renderer/book/database.ts';

export const NOW = '2026-05-12T11:05:00.000Z';
export const LATER = '2026-05-12T11:06:00.000Z';

/** Opens an empty database with a company record. */
export async function freshBook(): Promise<Book> {
  // Files share one memory database, and some load this module again: a counter would start over.
  const book = new Book(`test-${crypto.randomUUID()}`);
  await book.open();
  await book.rowsOf('business').put(newBusiness(NOW, 'America/New_York', 'en-US'));
  swapBook(book);
  return book;
}
