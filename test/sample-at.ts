import { type SampleBook, sampleBook } from '../shared-core/sample/sample-book.ts';

const books = new Map<string, SampleBook>();

/** The sample data of an instant, made once per process; returns a copy that a test may change. */
export function sampleAt(now: string): SampleBook {
  const book = books.get(now) ?? sampleBook(now);
  books.set(now, book);
  return structuredClone(book);
}
