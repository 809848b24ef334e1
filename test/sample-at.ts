import { sampleBook } from '../shared-core/sample/sample-book.ts';
import type { SampleBook } from '../shared-core/sample/whole-jobs.ts';

const books = new Map<string, SampleBook>();

/** The sample data as of a day's 11 am in New York, made once per day and process; returns a copy that a test may change. */
export function sampleAt(now: string): SampleBook {
  const morning = `${now.slice(0, 10)}T15:00:00.000Z`;
  const book = books.get(morning) ?? sampleBook(morning);
  books.set(morning, book);
  return structuredClone(book);
}
