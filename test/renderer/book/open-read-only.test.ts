import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { checkBookRows } from '../../shared-core/book/check-book-rows.ts';
import type { CalendarEntry } from '../../../shared-core/book/papers.ts';
import { noteCalendarSent, readCalendarSent } from '../../../renderer/book/calendar-commands.ts';
import { newCustomer, newProperty } from '../../../shared-core/book/new-records.ts';
import type { BookRows } from '../../../shared-core/book/backup.ts';
import { gatherRows, holdBook, type Pieces, PiecesStopped } from '../../../renderer/book/book-pieces.ts';
import { book } from '../../../renderer/book/database.ts';
import { storeDraft } from '../../../renderer/book/drafts.ts';
import { openReadOnly, closeBackup, openBackup } from '../../../renderer/book/open-read-only.ts';
import { readBackupKey, saveBackupKey } from '../../../renderer/book/backup-key.ts';
import { storeSetting } from '../../../renderer/book/settings.ts';
import { logPourEvent } from '../../../renderer/book/pour-log.ts';
import { readDataset, replaceData } from '../../../renderer/book/backup-commands.ts';
import { add, undo, write } from '../../../renderer/book/write.ts';
import { pageLocks } from '../page-locks.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';
import { readBookRows, walkRows } from './whole-book.ts';

/** Turns of the event loop, in which the database and other windows go on. */
async function turns(count = 20): Promise<void> {
  for (let i = 0; i < count; i += 1) await new Promise((resolve) => setImmediate(resolve));
}

const customerOf = (id: string, name: string) => newCustomer({ id, now: NOW }, name);

beforeEach(async () => {
  vi.stubGlobal('navigator', { locks: pageLocks() });
  await freshBook();
  await add('customers', customerOf('customer-1', 'Odell'), 'a new customer', NOW);
});

afterEach(() => vi.unstubAllGlobals());

describe('a backup open read-only', () => {
  it('shows its records, refuses changes, and leaves the data unchanged', async () => {
    const before = await readBookRows();
    expect(await openReadOnly(walkRows({ ...before, customers: [customerOf('customer-2', 'Rusk')] }).pieces(), NOW)).toMatchObject({
      ok: true,
    });
    expect(openBackup()).toEqual({ madeAt: NOW, photosProblem: null });
    expect((await book().rowsOf('customers').toArray()).map((c) => c.name)).toEqual(['Rusk']);
    expect(await add('customers', customerOf('customer-3', 'Abara'), 'a new customer', NOW)).toMatchObject({
      ok: false,
      message: expect.stringMatching(/open read-only/),
    });
    expect(await undo()).toMatchObject({ ok: false });
    expect(
      await logPourEvent({ id: 'event-1', pourId: 'pour-1', kind: 'note', instant: NOW, recordedAt: NOW, text: 'x' } as never),
    ).toMatchObject({ ok: false });
    await storeDraft('field', 'typed');
    await closeBackup();
    expect(openBackup()).toBeNull();
    expect(await readBookRows()).toEqual(before);
  });

  it('is refused while another window has one open, until that is closed or could not be opened', async () => {
    const rows = walkRows(await readBookRows());
    // As in another window, which has modules of its own and shares the locks.
    vi.resetModules();
    const there = await import('../../../renderer/book/open-read-only.ts');
    const stops = async function* (): Pieces {
      await turns(1);
      yield { table: 'customers', rows: [] };
      throw new PiecesStopped('The backup is gone.');
    };
    expect(await there.openReadOnly(stops(), LATER)).toMatchObject({ ok: false });
    expect(await openReadOnly(rows.pieces(), NOW)).toMatchObject({ ok: true });
    expect(await there.openReadOnly(rows.pieces(), LATER)).toMatchObject({
      ok: false,
      message: 'A backup is open read-only in another window. Close it there first.',
    });
    expect(there.openBackup()).toBeNull();
    expect((await book().rowsOf('customers').toArray()).map((c) => c.name)).toEqual(['Odell']);
    await closeBackup();
    expect(await there.openReadOnly(rows.pieces(), LATER)).toMatchObject({ ok: true });
    await there.closeBackup();
  });
});

describe('what belongs to this computer', () => {
  const KEY = { salt: '00', key: '11' };

  it('is the user’s own while a backup is open, and what is set there stays', async () => {
    const dataset = await readDataset();
    await saveBackupKey(KEY);
    await openReadOnly(walkRows(await readBookRows()).pieces(), NOW);
    expect(await readDataset()).toBe(dataset);
    expect(await readBackupKey()).toEqual(KEY);
    expect(await saveBackupKey({ ...KEY, key: '22' })).toMatchObject({ ok: true });
    expect(await storeSetting('look', 'dark')).toMatchObject({ ok: true });
    await closeBackup();
    expect(await readBackupKey()).toEqual({ ...KEY, key: '22' });
    expect((await book().meta.get('setting/look'))?.value).toBe('dark');
  });

  it('is the user’s own after one backup is opened after another', async () => {
    const own = book();
    const rows = await readBookRows();
    await openReadOnly(walkRows(rows).pieces(), NOW);
    await closeBackup();
    await openReadOnly(walkRows({ ...rows, customers: [] }).pieces(), LATER);
    expect(await book().rowsOf('customers').count()).toBe(0);
    await closeBackup();
    expect(book()).toBe(own);
    expect(await readBookRows()).toEqual(rows);
  });
});

describe('restoring a backup', () => {
  /** As after a backup, nothing has changed since. */
  const backedUp = () => book().changed.clear();
  const replaceWith = async (rows: BookRows) => replaceData(walkRows(rows).pieces());

  it('is all or nothing: data that changed since the backup is left unchanged', async () => {
    const copied = await readBookRows();
    await backedUp();
    await add('customers', customerOf('customer-2', 'Rusk'), 'a new customer', NOW);
    const changed = await readBookRows();
    expect(await replaceWith({ ...copied, customers: [] })).toMatchObject({ ok: false });
    expect(await readBookRows()).toEqual(changed);
    await backedUp();
    expect(await replaceWith(copied)).toMatchObject({ ok: true });
    expect(await readBookRows()).toEqual(copied);
  });

  it('never sets back the sequence number of a calendar entry, and keeps those the backup lacks, to be canceled (RFC 5545, 3.8.7.4)', async () => {
    const entry = (key: string, sequence: number): CalendarEntry => ({
      ...{ id: `cal-${key}`, createdAt: NOW, changedAt: NOW, deletedAt: null, jobId: 'job-a', uid: `job-a:visit:${key}@straightedge` },
      ...{ sequence, fingerprint: `${key} ${sequence}`, cancelled: false, lastSentAt: NOW },
      note: JSON.stringify({ summary: key, location: '', startAt: NOW, endAt: LATER, day: null, timeZone: 'America/New_York' }),
    });
    const rows = await readBookRows();
    await noteCalendarSent({ records: [entry('moved', 5), entry('older', 1), entry('new', 0)] });
    await backedUp();
    expect(await replaceWith({ ...rows, calendarEntries: [entry('moved', 3), entry('older', 2)] })).toMatchObject({ ok: true });
    const sent = await readCalendarSent(null);
    expect(Object.fromEntries(sent.map(({ id, sequence }) => [id, sequence]))).toEqual({ 'cal-moved': 5, 'cal-older': 2, 'cal-new': 0 });
    // The job of the new one is not in the backup.
    const feed = calendarFeed([], sent, () => ({ kind: 'dropped' }), LATER);
    expect(feed.events.find(({ uid }) => uid.includes(':new@'))).toMatchObject({ status: 'CANCELLED', sequence: 1 });
    expect(checkBookRows(await readBookRows(), [])).toEqual([]);
  });

  it('with a record that cannot be stored changes nothing', async () => {
    const before = await readBookRows();
    const bad = { ...before, jobs: [{ id: undefined as unknown as string }] };
    await backedUp();
    expect(await replaceWith(bad)).toMatchObject({ ok: false, isFault: true });
    expect(await readBookRows()).toEqual(before);
  });

  it('that stops half way changes nothing and says why', async () => {
    const before = await readBookRows();
    const stops = async function* (): Pieces {
      yield { table: 'customers', rows: [customerOf('customer-2', 'Rusk')] };
      await turns();
      throw new PiecesStopped('The backup is gone.');
    };
    await backedUp();
    expect(await replaceData(stops())).toMatchObject({ ok: false, message: 'The backup is gone.' });
    expect(await readBookRows()).toEqual(before);
  });

  it('waits for each piece in one transaction: an edit of another window comes after it, never between', async () => {
    await backedUp();
    const rows = await readBookRows();
    let edited: Promise<unknown> = Promise.resolve();
    const slow = async function* (): Pieces {
      for await (const piece of walkRows({ ...rows, customers: [customerOf('customer-2', 'Rusk')] }).pieces()) {
        if (piece.table === 'customers') edited = add('customers', customerOf('customer-3', 'Abara'), 'a new customer', NOW);
        await turns();
        yield piece;
      }
    };
    expect(await replaceData(slow())).toMatchObject({ ok: true });
    await edited;
    expect((await book().rowsOf('customers').toArray()).map((c) => c.name)).toEqual(['Rusk', 'Abara']);
  });
});

describe('data read in pieces', () => {
  const many = (from: number, to: number) =>
    Array.from({ length: to - from }, (_, i) => customerOf(`many-${String(from + i).padStart(6, '0')}`, `Ünal ${from + i}`));

  it('has every record of one moment, in order, whatever is edited meanwhile', async () => {
    await book().rowsOf('customers').bulkPut(many(0, 2500));
    const before = await readBookRows();
    const held = await holdBook();
    await book().rowsOf('customers').clear();
    for (const turn of [1, 2]) {
      const found: Record<string, unknown[]> = {};
      let most = 0;
      for await (const { table, rows } of held.pieces()) {
        (found[table] ??= []).push(...rows);
        most = Math.max(most, rows.length);
      }
      expect(found, `walk ${turn}`).toEqual(Object.fromEntries(Object.entries(before).filter(([, rows]) => rows.length > 0)));
      expect(most).toBe(1000);
    }
  });

  it('can be canceled between pieces, and then nothing changes', async () => {
    const before = await readBookRows();
    await book().changed.clear();
    expect(
      await replaceData(
        walkRows(before).pieces(),
        () => undefined,
        () => true,
      ),
    ).toMatchObject({ ok: false, message: expect.stringContaining('canceled') });
    expect(await readBookRows()).toEqual(before);
  });
});

it('lets an edit through while it is large, and has the whole of the edit or none of it', async () => {
  const db = await freshBook();
  await db.rowsOf('customers').bulkPut(Array.from({ length: 4000 }, (_, n) => customerOf(`client-${String(n).padStart(5, '0')}`, 'Odell')));
  const begun = new Promise<void>((resolve) => {
    db.table('customers').hook('reading', (row: unknown) => {
      resolve();
      return row;
    });
  });
  let isHeld = false;
  const holding = holdBook().then((held) => {
    isHeld = true;
    return held;
  });
  await begun;
  const address = { line: '4 Quarry Road', city: 'Fenwick Bend', region: '', zip: '', country: 'US' };
  const house = newProperty({ id: 'house-new', now: NOW }, 'a-new-customer', address, 'America/New_York');
  expect(
    await write('a customer with a house', NOW, {
      puts: [
        { table: 'customers', row: customerOf('a-new-customer', 'Rusk') },
        { table: 'properties', row: house },
      ],
      removes: [],
    }),
  ).toMatchObject({ ok: true });
  expect(isHeld).toBe(false);
  const rows = await gatherRows((await holding).pieces(), (_, row) => row);
  const [customer, home] = [rows.customers.some((row) => row['id'] === 'a-new-customer'), rows.properties.length === 1];
  expect(customer).toBe(home);
  expect(rows.customers.length).toBe(customer ? 4001 : 4000);
});
