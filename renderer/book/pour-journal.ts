/**
 * The second place of a running pour's log: a journal on this machine outside the browser's profile. The book's own write is what
 * counts as logged; the journal follows it, and its failing stops nothing.
 */
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import type { WalkedBook } from './book-pieces.ts';
import { missingEntries, pourOfJournal, restoredLog } from '../../shared-core/pour/pour-journal.ts';
import { askDesk } from '../parts/desk-client.ts';
import { book } from './database.ts';
import { lookingAt } from './look-book.ts';
import { done, explainDatabase, type Outcome, refused } from './outcome.ts';
import { SAMPLE_PREFIX } from './sample-commands.ts';

/** A journal that holds what the book does not. */
export interface LostEntries {
  readonly pourId: string;
  /** The pour as the journal has it. */
  readonly pour: Pour;
  readonly journal: readonly PourEvent[];
  readonly missing: number;
  /** The rooms' names; empty where the book does not know them. */
  readonly rooms: readonly string[];
  /** Where the pour is to go: it runs in the book, it stands there otherwise, its job stands there alone, or not even that. */
  readonly stands: 'running' | 'otherwise' | 'job' | 'nothing';
}

const entriesOf = (pourId: string): Promise<PourEvent[]> => book().rowsOf('pourEvents').where('pourId').equals(pourId).toArray();

/** What a pour's journal holds beyond the book; null when nothing, or when it cannot be read now. */
export async function lostEntries(pourId: string): Promise<LostEntries | null> {
  const read = await askDesk('journal.read', { pourId });
  if (!read.ok || read.value.pour === null) return null;
  const { pour, events } = read.value;
  const missing = missingEntries(events, await entriesOf(pourId)).length;
  if (missing === 0) return null;
  const standing = await book().rowsOf('pours').get(pourId);
  const job = await book().rowsOf('jobs').get(pour.jobId);
  const rooms = (await book().rowsOf('rooms').bulkGet(pour.roomIds)).flatMap((room) => room?.name ?? []);
  const stands =
    standing === undefined
      ? job === undefined
        ? 'nothing'
        : 'job'
      : standing.finishedAt === null && standing.deletedAt === null
        ? 'running'
        : 'otherwise';
  return { pourId, pour, journal: events, missing, rooms, stands };
}

/** Every journal that holds more than the book; without those of a sample that was taken out. */
export async function allLostEntries(): Promise<LostEntries[]> {
  if (lookingAt() !== null) return [];
  const list = await askDesk('journal.list', {});
  if (!list.ok) return [];
  const lost: LostEntries[] = [];
  for (const pourId of list.value.pourIds) {
    const one = await lostEntries(pourId);
    if (one !== null && !(one.stands === 'nothing' && one.pour.jobId.startsWith(SAMPLE_PREFIX))) lost.push(one);
  }
  return lost;
}

/** Puts the missing entries into the book, and the pour itself where it is gone, in one transaction. Gives how many were taken up. */
export async function takeUpEntries({ pourId, pour, journal }: LostEntries): Promise<Outcome<number>> {
  const events = book().rowsOf('pourEvents');
  const pours = book().rowsOf('pours');
  try {
    return await book().transaction('rw', [events, pours, book().rowsOf('jobs')], async () => {
      const inBook = await events.where('pourId').equals(pourId).toArray();
      const missing = missingEntries(journal, inBook);
      const log = restoredLog(inBook, missing);
      const standing = await pours.get(pourId);
      if (standing === undefined && (await book().rowsOf('jobs').get(pour.jobId)) === undefined)
        return refused('The job of this pour is not in the book. Take back the last copy of the book first, then take the entries up.');
      if (standing === undefined || standing.finishedAt === null) await pours.put(pourOfJournal(standing ?? pour, log));
      const before = new Map(inBook.map((event) => [event.id, event.seq]));
      // The call that read the journal has checked every entry.
      await events.bulkPut(log.filter((event) => before.get(event.id) !== event.seq));
      return done(missing.length);
    });
  } catch (error) {
    return explainDatabase(error);
  }
}

/** Leaves a journal's entries out of the book; its file is set aside, not removed. */
export async function leaveEntries(pourId: string): Promise<void> {
  await askDesk('journal.close', { pourId, how: 'set-aside' });
}

/** Takes away the journals of finished pours that a copy, written and proven, holds whole. */
export async function tidyJournals(copied: WalkedBook): Promise<void> {
  const list = await askDesk('journal.list', {});
  if (!list.ok || list.value.pourIds.length === 0) return;
  const journalled = new Set<unknown>(list.value.pourIds);
  const over = new Set<unknown>();
  const held = new Set<unknown>();
  for await (const { table, rows } of copied.pieces())
    for (const row of rows) {
      if (table === 'pours' && journalled.has(row['id']) && typeof row['finishedAt'] === 'string') over.add(row['id']);
      if (table === 'pourEvents' && journalled.has(row['pourId'])) held.add(row['id']);
    }
  for (const pourId of list.value.pourIds) {
    if (!over.has(pourId)) continue;
    const read = await askDesk('journal.read', { pourId });
    if (read.ok && read.value.events.every((event) => held.has(event.id)))
      await askDesk('journal.close', { pourId, how: read.value.unreadable === 0 ? 'remove' : 'set-aside' });
  }
}

/** Entries in words: `12 entries of the pour in Hall`. */
export function entriesWords(many: number, rooms: readonly string[]): string {
  const entries = many === 1 ? 'One entry' : `${many} entries`;
  return rooms.length === 0 ? `${entries} of a pour` : `${entries} of the pour in ${rooms.join(', ')}`;
}

/**
 * Follows a running pour: first what its journal holds beyond the book is taken up, then the journal is kept up with the book.
 * @param tell told once in words what was taken up, and once that the journal cannot be written
 * @returns what to call with the pour and its entries whenever the book has changed; it never rejects and nothing waits for it
 */
export function followPour(pourId: string, tell: (words: string) => void): (pour: Pour, entries: readonly PourEvent[]) => void {
  const journalled = new Set<string>();
  let hasFailed = false;
  const failed = (why: string): void => {
    if (!hasFailed) tell(`The pour’s journal, its second place on this machine, is not being written; the book itself is. ${why}`);
    hasFailed = true;
  };
  let turn = (async () => {
    const lost = await lostEntries(pourId);
    if (lost !== null) {
      const taken = await takeUpEntries(lost);
      if (!taken.ok) tell(taken.message);
      else if (taken.value > 0)
        tell(`${entriesWords(taken.value, lost.rooms)} stood in the pour’s journal and not in the book: taken up. Read the log over.`);
    }
    const read = await askDesk('journal.read', { pourId });
    if (read.ok) for (const event of read.value.events) journalled.add(event.id);
  })().catch(() => undefined);
  return (pour, entries) => {
    turn = turn.then(async () => {
      for (const event of [...entries].sort((a, b) => a.seq - b.seq)) {
        if (journalled.has(event.id)) continue;
        const added = await askDesk('journal.add', { pour, event });
        // Tried again with the next entry.
        if (!added.ok) return failed(added.error.message);
        journalled.add(event.id);
      }
    });
  };
}
