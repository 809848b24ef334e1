import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { followPour, lostEntries, recoverEntries, tidyJournals } from '../../../renderer/book/recovery-log.ts';
import type { Envelope } from '../../../shared-core/desk/envelope.ts';
import type { WorkingDesk } from '../../main/desk/working-desk.ts';
import { pageDesk } from '../page-desk.ts';
import { aPour, entry, theEnd } from '../../shared-core/pour/journal-entries.ts';
import { freshBook, NOW } from './fresh-book.ts';

/** A busy computer takes its time over five files. */
const PATIENT = { timeout: 20_000 };

let book: Book;
let desk: WorkingDesk;
let refuse: Envelope<unknown> | null;
let added: number;
beforeEach(async () => {
  book = await freshBook();
  refuse = null;
  added = 0;
  desk = pageDesk((name) => {
    if (name !== 'journal.add') return undefined;
    added += 1;
    return refuse ?? undefined;
  });
});
afterEach(() => vi.unstubAllGlobals());

const log = [1, 2, 3, 4, 5].map((seq) => entry(seq));
const journaled = async (): Promise<string[]> => {
  const read = await desk.dispatch('journal.read', { pourId: aPour.id });
  return read.ok ? (read.value as { events: { id: string }[] }).events.map(({ id }) => id) : [];
};
const ids = async (): Promise<string[]> =>
  (await book.rowsOf('pourEvents').where('pourId').equals(aPour.id).sortBy('seq')).map(({ id }) => id);
const all = log.map(({ id }) => id);
const follow = async (messages: string[] = []): Promise<void> => {
  followPour(aPour.id, (words) => messages.push(words))(aPour, log);
  await vi.waitFor(async () => expect(await journaled()).toEqual(all), PATIENT);
};

describe('the recovery log of a pour', () => {
  it('follows the database in order, and adds the same entry once', async () => {
    const on = followPour(aPour.id, () => undefined);
    on(aPour, log.slice(0, 2));
    on(aPour, [...log].reverse());
    on(aPour, log);
    await vi.waitFor(async () => expect(await journaled()).toEqual(all), PATIENT);
    expect(added).toBe(5);
  });

  it('restores entries that the database of a running pour lost, and reports it once', async () => {
    await follow();
    await book.rowsOf('pours').add(aPour);
    await book.rowsOf('pourEvents').bulkAdd(log.slice(0, 2));
    const messages: string[] = [];
    followPour(aPour.id, (words) => messages.push(words))(aPour, log.slice(0, 2));
    await vi.waitFor(() => expect(messages).toHaveLength(1), PATIENT);
    expect(messages[0]).toContain('3 pour log entries');
    expect(await ids()).toEqual(all);
    expect(await lostEntries(aPour.id)).toBeNull();
  });

  it('restores the whole pour where only its job is left, and refuses in a sentence without the job', async () => {
    await follow();
    const lost = await lostEntries(aPour.id);
    expect(lost).toMatchObject({ missing: 5, place: 'nothing' });
    if (lost === null) throw new Error('Nothing was found.');
    expect(await recoverEntries(lost)).toMatchObject({ ok: false, message: expect.stringContaining('latest backup first') });
    expect(await ids()).toEqual([]);
    await book.table('jobs').put({ id: aPour.jobId });
    expect(await recoverEntries(lost)).toEqual({ ok: true, value: 5 });
    expect(await recoverEntries(lost)).toEqual({ ok: true, value: 0 });
    expect(await ids()).toEqual(all);
    expect(await book.rowsOf('pours').get(aPour.id)).toEqual(aPour);
  });

  it('reports once that it cannot be written, and catches up when it can', async () => {
    const messages: string[] = [];
    const on = followPour(aPour.id, (words) => messages.push(words));
    refuse = { ok: false, error: { code: 'disk-full', message: 'The disk is full.' } };
    on(aPour, log.slice(0, 1));
    on(aPour, log.slice(0, 2));
    await vi.waitFor(() => expect(added).toBe(2), PATIENT);
    refuse = null;
    on(aPour, log);
    await vi.waitFor(async () => expect(await journaled()).toEqual(all), PATIENT);
    expect(messages).toEqual([expect.stringContaining('The pour log itself is saved')]);
  });

  it('is deleted once a backup has the complete finished pour, and not before', async () => {
    const backedUp = async (): Promise<void> => {
      await book.changed.clear();
      await tidyJournals();
    };
    await follow();
    await book.rowsOf('pours').add(aPour);
    await book.rowsOf('pourEvents').bulkAdd(log);
    await backedUp();
    expect(await journaled()).toEqual(all);
    const end = theEnd(6);
    await book.rowsOf('pours').put({ ...aPour, finishedAt: NOW });
    await desk.dispatch('journal.add', { pour: aPour, event: end });
    await backedUp();
    expect(await journaled()).toHaveLength(6);
    await book.rowsOf('pourEvents').add(end);
    // Changed since the backup, so not in it.
    await tidyJournals();
    expect(await journaled()).toHaveLength(6);
    await backedUp();
    expect(await journaled()).toEqual([]);
  });
});
