import type { PourEvent } from '../../shared-core/book/pour-record.ts';
import { book, type Book } from './database.ts';

/** The log read last. Entries are only added to a log, so that its known part is not read again. */
let lastRead: { readonly of: Book; readonly pourId: string; readonly log: readonly PourEvent[] } | null = null;

/** Reads the log of a pour in the order of its sequence numbers: what was added since the last time, or all. */
export async function readPourLog(pourId: string): Promise<PourEvent[]> {
  const of = book();
  const from = (seq: number) => of.rowsOf('pourEvents').where('[pourId+seq]').between([pourId, seq], [pourId, Number.MAX_SAFE_INTEGER]);
  const known = lastRead?.of === of && lastRead.pourId === pourId ? lastRead.log : [];
  const last = known.at(-1);
  const [added, count] = last === undefined ? [[], 0] : await Promise.all([from(last.seq).toArray(), from(0).count()]);
  // A restored log, or one with recovered or removed entries, has another entry there or another number of them.
  const isSame = last !== undefined && added[0]?.id === last.id && count === known.length + added.length - 1;
  const log = isSame ? [...known, ...added.slice(1)] : await from(0).toArray();
  lastRead = { of, pourId, log };
  return log;
}
