/** Pours and their logs: one row per entry, stored before it is shown. Undo does not cover it; a correction is a new entry. */
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import { checkRow } from '../../shared-core/book/rows.ts';
import { voidedIds } from '../../shared-core/pour/log-time.ts';
import type { Entry } from '../../shared-core/pour/pour-commands.ts';
import { pourOfJournal } from '../../shared-core/pour/pour-journal.ts';
import { runningPour } from '../../shared-core/standing/read-pour.ts';
import { attempt, done, nowInstant, type Outcome, refused } from './command.ts';
import { book } from './database.ts';
import { readPourLog } from './read-pour-log.ts';

type WithoutSeq<E> = E extends PourEvent ? Omit<E, 'seq'> : never;
/** An entry without its sequence number. */
export type NewPourEvent = WithoutSeq<PourEvent>;

/** The `where` of a refused batch that another window logged first. */
export const LOGGED_TWICE = 'logged-twice';

const NOT_FOUND = 'This pour was not found. Your data was not changed.';

/** Whether the log already has this batch, mixed or placed as the event says. */
function isTwice(event: NewPourEvent, inLog: readonly PourEvent[]): boolean {
  if (event.kind !== 'mixed' && event.kind !== 'placed') return false;
  const voided = voidedIds(inLog);
  return inLog.some((other) => other.kind === event.kind && other.batch === event.batch && !voided.has(other.id) && other.id !== event.id);
}

/**
 * Keeps the end of a finished pour's record that of its log, within a transaction: a correction may move it.
 * @param isEnding whether a pour that is finished in its log only is finished in its record too
 */
async function keepEnd(pour: Pour | undefined, isEnding: boolean): Promise<void> {
  if (pour === undefined || (pour.finishedAt === null && !isEnding)) return;
  const { finishedAt } = pourOfJournal(pour, await readPourLog(pour.id));
  if (finishedAt === null || finishedAt === pour.finishedAt) return;
  await book()
    .rowsOf('pours')
    .put({ ...pour, finishedAt, changedAt: nowInstant() });
}

/** Adds an entry with the next sequence number of its pour, within a transaction. */
async function addEntry(event: NewPourEvent): Promise<Outcome<PourEvent>> {
  const inLog = await readPourLog(event.pourId);
  const same = inLog.find((other) => other.id === event.id);
  if (same !== undefined) return done(same);
  if (isTwice(event, inLog) && 'batch' in event)
    return refused(`Batch ${event.batch} was already logged in another window. Check the log, then log this batch again.`, LOGGED_TWICE);
  const check = checkRow('pourEvents', { ...event, seq: (inLog.at(-1)?.seq ?? 0) + 1 });
  if (!check.ok) return refused(check.message, check.where);
  await book().rowsOf('pourEvents').add(check.row);
  return done(check.row);
}

/**
 * Appends an event with the next sequence number of its pour. Resolves when it is stored. Does not write an id twice, and refuses a batch
 * that is already logged.
 */
export function logPourEvent(event: NewPourEvent): Promise<Outcome<PourEvent>> {
  return together(async () => {
    // Requested together: each wait for an answer costs as much as a request.
    const [logged, pour] = await Promise.all([addEntry(event), book().rowsOf('pours').get(event.pourId)]);
    if (logged.ok) await keepEnd(pour, false);
    return logged;
  });
}

/** Runs work on the pours and their logs in one transaction, outside the undo history, so that undo never removes a pour. */
const together = <T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> =>
  attempt(() => book().transaction('rw', book().rowsOf('pours'), book().rowsOf('pourEvents'), work));

/** That another pour runs in one of a pour's rooms, in words; null when none does. A room has one running pour at most. */
async function runningWords({ id, jobId, roomIds }: Pick<Pour, 'id' | 'jobId' | 'roomIds'>): Promise<string | null> {
  const ofJob = await book().rowsOf('pours').where('jobId').equals(jobId).toArray();
  const others = ofJob.filter((pour) => pour.id !== id);
  const roomId = roomIds.find((room) => runningPour(others, room) !== null);
  const running = roomId === undefined ? null : runningPour(others, roomId);
  const name = running?.asPoured.rooms.find((room) => room.roomId === roomId)?.name ?? '';
  return running === null ? null : `A pour is already running in ${name === '' ? 'this room' : name}. Finish that pour first.`;
}

/**
 * Stores a pour with its first entries and the end they give. Refuses a pour that is already stored, and one in a room where a pour is running.
 * @param entries in order, numbered from 1
 */
export function storePour(pour: Pour, entries: readonly NewPourEvent[]): Promise<Outcome> {
  return together(async () => {
    const check = checkRow('pours', pour);
    if (!check.ok) return refused(check.message, check.where);
    if ((await book().rowsOf('pours').get(pour.id)) !== undefined) return refused('This pour is already saved.');
    const running = await runningWords(pour);
    if (running !== null) return refused(running);
    const rows: PourEvent[] = [];
    for (const entry of entries) {
      const row = checkRow('pourEvents', { ...entry, seq: rows.length + 1 });
      if (!row.ok) return refused(row.message, row.where);
      rows.push(row.row);
    }
    await book().rowsOf('pours').add(pourOfJournal(check.row, rows));
    await book().rowsOf('pourEvents').bulkAdd(rows);
    return done(undefined);
  });
}

/** Sets the end of a pour's record to that of its log; a record keeps the one it has while its log has none. */
export function closePour(pourId: string): Promise<Outcome> {
  return together(async () => {
    const pour = await book().rowsOf('pours').get(pourId);
    if (pour === undefined) return refused(NOT_FOUND);
    await keepEnd(pour, true);
    return done(undefined);
  });
}

/** Reopens a finished pour. Refused where another pour is running in one of its rooms. */
export function resumePour({ event }: Entry): Promise<Outcome> {
  return together(async () => {
    const pour = await book().rowsOf('pours').get(event.pourId);
    if (pour === undefined) return refused(NOT_FOUND);
    const running = await runningWords(pour);
    if (running !== null) return refused(running);
    const logged = await addEntry(event);
    if (!logged.ok) return logged;
    await book()
      .rowsOf('pours')
      .put({ ...pour, finishedAt: null, changedAt: nowInstant() });
    return done(undefined);
  });
}
