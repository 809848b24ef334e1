/** Compares a pour's recovery log with its log in the database, and restores missing entries in their place. */
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { pourEnd } from './log-time.ts';

/**
 * Entries in the recovery log that are missing in the database, each once, in the order they were written.
 * @param journal the entries of the recovery log, in its order
 * @param inBook the pour's entries in the database, in any order
 */
export function missingEntries(journal: readonly PourEvent[], inBook: readonly PourEvent[]): PourEvent[] {
  const known = new Set(inBook.map((event) => event.id));
  return journal.filter((event) => {
    if (known.has(event.id)) return false;
    known.add(event.id);
    return true;
  });
}

/**
 * The log with the missing entries restored. Each keeps its number unless another entry has it now; then both
 * lists are merged by time, each in its own order, and numbered again.
 * @param inBook the pour's entries in the database
 * @param missing from {@link missingEntries}
 * @returns every entry, ascending by `seq`
 */
export function restoredLog(inBook: readonly PourEvent[], missing: readonly PourEvent[]): PourEvent[] {
  const standing = [...inBook].sort((a, b) => a.seq - b.seq);
  const events = [...standing, ...missing];
  if (new Set(events.map((event) => event.seq)).size === events.length) return events.sort((a, b) => a.seq - b.seq);
  const merged: PourEvent[] = [];
  let next = 0;
  for (const event of standing) {
    for (let other = missing[next]; other !== undefined && other.instant < event.instant; other = missing[next]) {
      merged.push(other);
      next += 1;
    }
    merged.push(event);
  }
  return [...merged, ...missing.slice(next)].map((event, i) => (event.seq === i + 1 ? event : { ...event, seq: i + 1 }));
}

/** The pour's record with the end that its log gives: finished when the last end in the log is valid and the pour was not resumed. */
export function pourOfJournal(pour: Pour, log: readonly PourEvent[]): Pour {
  return { ...pour, finishedAt: pourEnd(log) };
}
