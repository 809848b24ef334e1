/**
 * The recovery log of a running pour, a file outside the browser's profile. An entry counts as saved when the database has it; the recovery
 * log follows, and its failure stops nothing.
 */
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import { missingEntries, pourOfJournal, restoredLog } from '../../shared-core/pour/pour-journal.ts';
import { askDesk } from '../desk/desk-client.ts';
import { book } from './database.ts';
import { openBackup } from './open-read-only.ts';
import { attempt, done, type Outcome, refused } from './command.ts';
import { SAMPLE_PREFIX } from '../../shared-core/book/sample-company.ts';

/** A recovery log with entries that the database has not. */
export interface LostEntries {
  readonly pourId: string;
  /** The pour according to the recovery log. */
  readonly pour: Pour;
  readonly journal: readonly PourEvent[];
  readonly missing: number;
  /** Room names; empty where the database does not have the rooms. */
  readonly rooms: readonly string[];
  /** What the database has of it: the running pour, the pour in another state, only its job, or nothing. */
  readonly place: 'running' | 'otherwise' | 'job' | 'nothing';
}

const entriesOf = (pourId: string): Promise<PourEvent[]> => book().rowsOf('pourEvents').where('pourId').equals(pourId).toArray();

/** The entries of a pour that only its recovery log has; null when there are none or it cannot be read now. */
export async function lostEntries(pourId: string): Promise<LostEntries | null> {
  const read = await askDesk('journal.read', { pourId });
  if (!read.ok || read.value.pour === null) return null;
  const { pour, events } = read.value;
  const missing = missingEntries(events, await entriesOf(pourId)).length;
  if (missing === 0) return null;
  const stored = await book().rowsOf('pours').get(pourId);
  const job = await book().rowsOf('jobs').get(pour.jobId);
  const rooms = (await book().rowsOf('rooms').bulkGet(pour.roomIds)).flatMap((room) => room?.name ?? []);
  const place =
    stored === undefined
      ? job === undefined
        ? 'nothing'
        : 'job'
      : stored.finishedAt === null && stored.deletedAt === null
        ? 'running'
        : 'otherwise';
  return { pourId, pour, journal: events, missing, rooms, place };
}

/** All recovery logs with entries that the database has not, except those of removed sample data. */
export async function allLostEntries(): Promise<LostEntries[]> {
  if (openBackup() !== null) return [];
  const list = await askDesk('journal.list', {});
  if (!list.ok) return [];
  const lost: LostEntries[] = [];
  for (const pourId of list.value.pourIds) {
    const one = await lostEntries(pourId);
    if (one !== null && !(one.place === 'nothing' && one.pour.jobId.startsWith(SAMPLE_PREFIX))) lost.push(one);
  }
  return lost;
}

/** Adds the missing entries, and the pour itself if it is missing, in one transaction. Returns how many were recovered. */
export function recoverEntries({ pourId, pour, journal }: LostEntries): Promise<Outcome<number>> {
  return attempt(() => {
    const events = book().rowsOf('pourEvents');
    const pours = book().rowsOf('pours');
    return book().transaction('rw', [events, pours, book().rowsOf('jobs')], async () => {
      const inBook = await events.where('pourId').equals(pourId).toArray();
      const missing = missingEntries(journal, inBook);
      const log = restoredLog(inBook, missing);
      const stored = await pours.get(pourId);
      if (stored === undefined && (await book().rowsOf('jobs').get(pour.jobId)) === undefined)
        return refused('The job of this pour is not in your data. Restore your latest backup first, then recover the entries.');
      const recovered = pourOfJournal(stored ?? pour, log);
      if (recovered.finishedAt !== null || (stored?.finishedAt ?? null) === null) await pours.put(recovered);
      const before = new Map(inBook.map((event) => [event.id, event.seq]));
      // The desk call has validated every entry.
      await events.bulkPut(log.filter((event) => before.get(event.id) !== event.seq));
      return done(missing.length);
    });
  });
}

/** Discards a recovery log's entries; its file is renamed, not deleted. */
export async function leaveEntries(pourId: string): Promise<void> {
  await askDesk('journal.close', { pourId, fate: 'set-aside' });
}

/** Deletes the recovery logs of finished pours whose entries are all in the last backup. */
export async function tidyJournals(): Promise<void> {
  const list = await askDesk('journal.list', {});
  if (!list.ok) return;
  for (const pourId of list.value.pourIds) {
    const pour = await book().rowsOf('pours').get(pourId);
    if (typeof pour?.finishedAt !== 'string') continue;
    const entries = await entriesOf(pourId);
    const keys = [`pours/${pourId}`, 'pours/*', 'pourEvents/*', ...entries.map(({ id }) => `pourEvents/${id}`)];
    if ((await book().changed.where('key').anyOf(keys).count()) > 0) continue;
    const backedUp = new Set(entries.map(({ id }) => id));
    const read = await askDesk('journal.read', { pourId });
    if (read.ok && read.value.events.every((event) => backedUp.has(event.id)))
      await askDesk('journal.close', { pourId, fate: read.value.unreadable === 0 ? 'remove' : 'set-aside' });
  }
}

/** Example: `3 pour log entries were recovered for Hall.` */
export function recoveredWords(many: number, rooms: readonly string[]): string {
  const entries = many === 1 ? '1 pour log entry was recovered' : `${many} pour log entries were recovered`;
  return rooms.length === 0 ? `${entries}.` : `${entries} for ${rooms.join(', ')}.`;
}

/**
 * Follows a running pour: recovers missing entries first, then copies new ones to the recovery log.
 * @param onMessage gets one sentence about recovered entries, and one when the recovery log cannot be written
 * @returns a function to call with the pour and its entries after each change; it never rejects and nothing waits for it
 */
export function followPour(pourId: string, onMessage: (words: string) => void): (pour: Pour, entries: readonly PourEvent[]) => void {
  const journaled = new Set<string>();
  let hasFailed = false;
  const failed = (why: string): void => {
    if (!hasFailed) onMessage(`The recovery log of this pour is not being written. The pour log itself is saved. ${why}`);
    hasFailed = true;
  };
  let turn = (async () => {
    const lost = await lostEntries(pourId);
    if (lost !== null) {
      const recovered = await recoverEntries(lost);
      if (!recovered.ok) onMessage(recovered.message);
      else if (recovered.value > 0) onMessage(`${recoveredWords(recovered.value, lost.rooms)} Review the log.`);
    }
    const read = await askDesk('journal.read', { pourId });
    if (read.ok) for (const event of read.value.events) journaled.add(event.id);
  })().catch(() => undefined);
  return (pour, entries) => {
    turn = turn.then(async () => {
      for (const event of [...entries].sort((a, b) => a.seq - b.seq)) {
        if (journaled.has(event.id)) continue;
        const added = await askDesk('journal.add', { pour, event });
        // Retried with the next entry.
        if (!added.ok) return failed(added.error.message);
        journaled.add(event.id);
      }
    });
  };
}
