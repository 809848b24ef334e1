// @vitest-environment node
/** Every command of `renderer/book` with the database failing at each of its steps. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { book, swapBook } from '../../renderer/book/database.ts';
import { discardUnsaved, retryUnsaved, unsavedEdits } from '../../renderer/book/pending.ts';
import { freshBook } from '../renderer/book/fresh-book.ts';
import { CASES, type Commands } from './command-cases.ts';
import { failFrom, fault, heal, NOW, openFailingBook, printOfTables, storedJob } from './failing-book.ts';

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
