/** The pour log: one row per entry, stored before it is shown. Undo does not cover it; a correction is a new entry. */
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import { checkRow } from '../../shared-core/book/rows.ts';
import { voidedIds } from '../../shared-core/pour/log-time.ts';
import { book } from './database.ts';
import { attempt, done, type Outcome, refused, stored } from './command.ts';
import { readPourLog } from './read-pour-log.ts';

type WithoutSeq<E> = E extends PourEvent ? Omit<E, 'seq'> : never;
/** An entry without its sequence number. */
export type NewPourEvent = WithoutSeq<PourEvent>;

/** The `where` of a refused batch that another window logged first. */
export const LOGGED_TWICE = 'logged-twice';

/** Whether the log already has this batch, mixed or placed as the event says. */
function isTwice(event: NewPourEvent, inLog: readonly PourEvent[]): boolean {
  if (event.kind !== 'mixed' && event.kind !== 'placed') return false;
  const voided = voidedIds(inLog);
  return inLog.some((other) => other.kind === event.kind && other.batch === event.batch && !voided.has(other.id) && other.id !== event.id);
}

/**
 * Appends an event with the next sequence number of its pour. Resolves when it is stored. Does not write an id twice, and refuses a batch
 * that is already logged.
 */
export function logPourEvent(event: NewPourEvent): Promise<Outcome<PourEvent>> {
  return attempt(() => {
    const table = book().rowsOf('pourEvents');
    return book().transaction('rw', table, async () => {
      const inLog = await readPourLog(event.pourId);
      const same = inLog.find((other) => other.id === event.id);
      if (same !== undefined) return done(same);
      if (isTwice(event, inLog) && 'batch' in event)
        return refused(
          `Batch ${event.batch} was already logged in another window. Check the log, then log this batch again.`,
          LOGGED_TWICE,
        );
      const check = checkRow('pourEvents', { ...event, seq: (inLog.at(-1)?.seq ?? 0) + 1 });
      if (!check.ok) return refused(check.message, check.where);
      await table.add(check.row);
      return done(check.row);
    });
  });
}

/** Adds a pour's record outside the undo history, so that undo never removes a pour. */
export async function addPour(pour: Pour): Promise<Outcome> {
  const check = checkRow('pours', pour);
  if (!check.ok) return refused(check.message, check.where);
  return stored(() => book().rowsOf('pours').put(check.row));
}

/** Changes a pour's record outside the undo history. Refused when the pour does not exist. */
export function changePour(pourId: string, now: string, update: (pour: Pour) => Pour): Promise<Outcome> {
  return attempt(() => {
    const table = book().rowsOf('pours');
    return book().transaction('rw', table, async () => {
      const stored = await table.get(pourId);
      if (stored === undefined) return refused('This pour was not found. Your data was not changed.');
      const next = update(stored);
      if (next === stored) return done(undefined);
      const check = checkRow('pours', { ...next, changedAt: now });
      if (!check.ok) return refused(check.message, check.where);
      await table.put(check.row);
      return done(undefined);
    });
  });
}
