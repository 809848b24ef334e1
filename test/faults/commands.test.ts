// @vitest-environment node
/** Every command of `renderer/book` with the database failing at each of its steps. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { book, swapBook } from '../../renderer/book/database.ts';
import { discardUnsaved, retryUnsaved, unsavedEdits } from '../../renderer/book/pending.ts';
import { newCustomer } from '../../shared-core/book/new-records.ts';
import { freshBook } from '../renderer/book/fresh-book.ts';
import { CASES, type Commands } from './command-cases.ts';
import { failFrom, fault, heal, NOW, openFailingBook, printOfTables, ROOM, storedJob } from './failing-book.ts';

beforeAll(openFailingBook);
afterAll(() => {
  heal();
  book().close();
});

const FOLDER = join(import.meta.dirname, '../../renderer/book');
const FILES = readdirSync(FOLDER).filter((name) => /-commands\.ts$/.test(name) || Object.hasOwn(CASES, name.replace('.ts', '')));

it('knows every export of every command file', async () => {
  for (const file of FILES) {
    const exports = Object.keys((await import(join(FOLDER, file))) as object);
    const known = Object.keys(CASES[file.replace('.ts', '')] ?? {});
    expect(
      exports.filter((name) => !known.includes(name) && !name.startsWith('use')),
      file,
    ).toEqual([]);
  }
});

const RUNS = FILES.flatMap((file) =>
  Object.entries(CASES[file.replace('.ts', '')] ?? {}).flatMap(([name, cases]) => (cases === null ? [] : [[name, file, cases] as const])),
);
const MOST_STEPS = 60;

it.each(RUNS)(
  '%s (%s) never rejects, changes nothing when the database fails at any step, and works afterwards',
  async (name, file, cases) => {
    const commands = (await import(join(FOLDER, file))) as Commands;
    const command = commands[name];
    if (command === undefined) throw new Error(`${file} has no ${name}.`);
    const run = cases(command);
    let steps = 0;
    for (let from = 1; from <= MOST_STEPS; from += 1) {
      heal();
      const before = await printOfTables();
      failFrom(from, ['DataError', 'QuotaExceededError', 'NotFoundError'][from % 3]);
      const outcome = await run();
      const reached = fault.met >= from;
      heal();
      if (!reached) {
        // A refusal is allowed, but it has to be reported.
        if (!outcome.ok) expect(outcome.message).toMatch(/\.$/);
        break;
      }
      steps = from;
      if (!outcome.ok) {
        expect(outcome.message, name).toMatch(/^[A-Z“].*\.$/);
        // Photos write parts that are harmless alone; every other command is atomic.
        if (name !== 'storePhoto') expect(await printOfTables(), `${name} step ${from}`).toEqual(before);
      }
      for (const one of unsavedEdits()) discardUnsaved(one);
    }
    expect(steps).toBeLessThan(MOST_STEPS);
  },
);

it('a temporary failure is retried without a message', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  for (const from of [1, 2, 4, 6]) {
    failFrom(from, 'UnknownError', 1);
    const outcome = await change('customers', storedJob().customer.id, 'phone', NOW, (c) => ({ ...c, phone: `555 010${from}` }));
    heal();
    expect(outcome).toMatchObject({ ok: true });
  }
});

it('an edit that could not be saved stays listed, and is saved when the database works again', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  failFrom(1, 'QuotaExceededError');
  const outcome = await change('customers', storedJob().customer.id, 'notes', NOW, (c) => ({ ...c, notes: 'Side door' }));
  expect(outcome).toMatchObject({ ok: false, isFault: true });
  expect(unsavedEdits()).toMatchObject([{ label: 'notes', message: expect.stringMatching(/disk is full/) }]);
  heal();
  retryUnsaved();
  await expect.poll(async () => (await book().rowsOf('customers').get(storedJob().customer.id))?.notes).toBe('Side door');
  await expect.poll(() => unsavedEdits().length).toBe(0);
});

it('an edit that failed in one database is never written to another that is open meanwhile', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  failFrom(1, 'QuotaExceededError');
  await change('customers', storedJob().customer.id, 'notes', NOW, (c) => ({ ...c, notes: 'Back door' }));
  heal();
  const own = book();
  await freshBook();
  retryUnsaved();
  expect(unsavedEdits()).toMatchObject([{ label: 'notes' }]);
  book().close();
  swapBook(own);
  retryUnsaved();
  await expect.poll(async () => (await book().rowsOf('customers').get(storedJob().customer.id))?.notes).toBe('Back door');
  await expect.poll(() => unsavedEdits().length).toBe(0);
});

it('saving a field again drops its failed edit, so that the older value does not come back', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  failFrom(1, 'QuotaExceededError');
  await change('customers', storedJob().customer.id, 'email', NOW, (c) => ({ ...c, email: 'old@example.com' }));
  heal();
  await change('customers', storedJob().customer.id, 'email', NOW, (c) => ({ ...c, email: 'new@example.com' }));
  expect(unsavedEdits()).toEqual([]);
  retryUnsaved();
  expect((await book().rowsOf('customers').get(storedJob().customer.id))?.email).toBe('new@example.com');
});

const property = () => storedJob().property.id;
const addressNow = async () => (await book().rowsOf('properties').get(property()))?.address;
const setAddress = async (part: { readonly city?: string; readonly zip?: string }) => {
  const { change } = await import('../../renderer/book/write.ts');
  return change('properties', property(), 'address', NOW, (p) => ({ ...p, address: { ...p.address, ...part } }));
};
const failing = async <T>(work: () => Promise<T>): Promise<T> => {
  failFrom(1, 'QuotaExceededError');
  const outcome = await work();
  heal();
  return outcome;
};

it('saving another field under the same label saves the failed edit first', async () => {
  await failing(() => setAddress({ city: 'Dover' }));
  await setAddress({ zip: '03820' });
  expect(await addressNow()).toMatchObject({ city: 'Dover', zip: '03820' });
  expect(unsavedEdits()).toEqual([]);
  // Both stay listed while neither can be saved.
  await failing(() => setAddress({ city: 'Lee' }));
  await failing(() => setAddress({ zip: '03861' }));
  expect(unsavedEdits().map(({ label }) => label)).toEqual(['address', 'address']);
  expect(new Set(unsavedEdits().map(({ id }) => id)).size).toBe(2);
  retryUnsaved();
  await expect.poll(addressNow).toMatchObject({ city: 'Lee', zip: '03861' });
  await expect.poll(() => unsavedEdits().length).toBe(0);
});

it('an item added to a list leaves a failed one before it', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  const read = (id: string) =>
    change('rooms', ROOM, 'reading in the Hall', NOW, (room) => ({
      ...room,
      survey: { ...room.survey, readings: [...room.survey.readings, { id, xM: 1, yM: 1, valueM: 0.01, note: null, confirmed: false }] },
    }));
  await failing(() => read('reading-1'));
  await read('reading-2');
  const readings = (await book().rowsOf('rooms').get(ROOM))?.survey.readings.map(({ id }) => id);
  expect(readings?.slice(-2)).toEqual(['reading-1', 'reading-2']);
  expect(unsavedEdits()).toEqual([]);
});

it('failed edits of two records with one label both stay listed', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  const rooms = storedJob()
    .rooms.slice(0, 2)
    .map(({ id }) => id);
  expect(new Set(rooms).size).toBe(2);
  const note = (id: string) => change('rooms', id, 'room notes', NOW, { notes: `Notes of ${id}` });
  for (const id of rooms) await failing(() => note(id));
  expect(unsavedEdits()).toHaveLength(2);
  retryUnsaved();
  const notes = async () => (await book().rowsOf('rooms').bulkGet(rooms)).map((room) => room?.notes);
  await expect.poll(notes).toEqual(rooms.map((id) => `Notes of ${id}`));
  await expect.poll(() => unsavedEdits().length).toBe(0);
});

it('a refused entry leaves the failed edit, and the stored value entered again drops it', async () => {
  const { change } = await import('../../renderer/book/write.ts');
  await failing(() => setAddress({ city: 'Lee' }));
  const refused = await change('properties', property(), 'address', NOW, (p) => ({ ...p, address: { ...p.address, city: 7 as never } }));
  expect(refused).toMatchObject({ ok: false });
  expect(await addressNow()).toMatchObject({ city: 'Lee' });
  await failing(() => setAddress({ city: 'Dover' }));
  await failing(() => setAddress({ city: 'Lee' }));
  expect(unsavedEdits()).toHaveLength(1);
  retryUnsaved();
  await expect.poll(() => unsavedEdits().length).toBe(0);
  await setAddress({ zip: '03820' });
  expect(await addressNow()).toMatchObject({ city: 'Lee', zip: '03820' });
});

it('a failed edit that is refused when it is tried again stays listed with the reason', async () => {
  const { add, change } = await import('../../renderer/book/write.ts');
  const wren = newCustomer({ id: 'gone', now: NOW }, 'Wren Holloway');
  await add('customers', wren, 'new customer', NOW);
  await failing(() => change('customers', 'gone', 'phone', NOW, { phone: '555 0107' }));
  await book().rowsOf('customers').delete('gone');
  retryUnsaved();
  const gone = 'This record was deleted, so your change was not saved.';
  await expect.poll(unsavedEdits).toMatchObject([{ label: 'phone', message: gone, retry: null }]);
  for (const one of unsavedEdits()) discardUnsaved(one);
  expect(unsavedEdits()).toEqual([]);
});
