/** The pour's log: one event, one row, on the disk before it shows. It is never part of undo; a correction is a new event. */
import type { PourEvent } from '../../shared-core/book/pour-record.ts';
import { checkRow } from '../../shared-core/book/rows.ts';
import { book } from './database.ts';
import { attempt, done, type Outcome, refused } from './outcome.ts';

type WithoutSeq<E> = E extends PourEvent ? Omit<E, 'seq'> : never;
/** An event before it has its place in the log. */
export type NewPourEvent = WithoutSeq<PourEvent>;

/** Appends an event with the next number of its pour. Resolves when it is on the disk. */
export function logPourEvent(event: NewPourEvent): Promise<Outcome<PourEvent>> {
  return attempt(() => {
    const table = book().rowsOf('pourEvents');
    return book().transaction('rw', table, async () => {
      // A try before may have reached the disk although it was reported as failed.
      const known = await table.get(event.id);
      if (known !== undefined) return done(known);
      const last = await table.where('[pourId+seq]').between([event.pourId, 0], [event.pourId, Number.MAX_SAFE_INTEGER]).last();
      const check = checkRow('pourEvents', { ...event, seq: (last?.seq ?? 0) + 1 });
      if (!check.ok) return refused(check.message, check.where);
      await table.add(check.row);
      return done(check.row);
    });
  });
}
