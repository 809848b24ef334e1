/** The pour's log: one event, one row, on the disk before it shows. It is never part of undo; a correction is a new event. */
import type { PourEvent } from '../../shared-core/book/pour-record.ts';
import { checkRow } from '../../shared-core/book/rows.ts';
import { book } from './database.ts';
import { done, explainDatabase, type Outcome, refused } from './outcome.ts';

type WithoutSeq<E> = E extends PourEvent ? Omit<E, 'seq'> : never;
/** An event before it has its place in the log. */
export type NewPourEvent = WithoutSeq<PourEvent>;

/** Appends an event with the next number of its pour. Resolves when it is on the disk. */
export async function logPourEvent(event: NewPourEvent): Promise<Outcome<PourEvent>> {
  const table = book().rowsOf('pourEvents');
  try {
    return await book().transaction('rw', table, async () => {
      const last = await table.where('[pourId+seq]').between([event.pourId, 0], [event.pourId, Number.MAX_SAFE_INTEGER]).last();
      const check = checkRow('pourEvents', { ...event, seq: (last?.seq ?? 0) + 1 });
      if (!check.ok) return refused(check.message, check.where);
      await table.add(check.row);
      return done(check.row);
    });
  } catch (error) {
    return explainDatabase(error);
  }
}
