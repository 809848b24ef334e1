// @vitest-environment node
import Dexie from 'dexie';
import { expect, test } from 'vitest';
import { figuresOf } from '../../../shared-core/standing/job-figures.ts';
import { glanceJob, readJob } from '../../../shared-core/standing/read-job.ts';
import { SCHEMA_VERSION, TABLE_NAMES, TABLES } from '../../../shared-core/book/tables.ts';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { sampleAt } from '../../sample-at.ts';
import { Book, book, swapBook } from '../../../renderer/book/database.ts';
import { openRecordSearch } from '../../../renderer/book/search.ts';
import { figuresStamp, forgetFiguresBut, readFigures } from '../../../renderer/book/stored-figures.ts';
import { openBook } from '../../../renderer/book/open-book.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readJobsAhead, readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { change } from '../../../renderer/book/write.ts';
import { invoice, payment } from '../../shared-core/ledger/entries.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

const SAMPLE = sampleAt(NOW);
const wholes = async () => {
  const ids = (await book().rowsOf('jobs').toArray()).map((job) => job.id);
  return (await Promise.all(ids.map((id) => readWholeJob(id)))).filter((whole) => whole !== null);
};
const filled = async () => {
  await freshBook();
  await addSample(SAMPLE);
  return wholes();
};

test('data stored before search words and figures were cached opens unchanged, and can be searched', async () => {
  const before = new Dexie('book-before-lookups');
  const stores: Record<string, string> = { edits: '++seq, state', drafts: 'key', meta: 'key', pictures: 'name' };
  for (const name of TABLE_NAMES) stores[name] = ['id', ...TABLES[name].indexes].join(', ');
  before.version(1).stores(stores);
  await before.open();
  const rows = SAMPLE;
  const filledRows = (table: (typeof TABLE_NAMES)[number]) => rows[table] as readonly StoredRow[];
  for (const table of TABLE_NAMES) await before.table(table).bulkPut([...filledRows(table)]);
  before.close();
  swapBook(new Book('book-before-lookups'));
  expect(await openBook(NOW)).toMatchObject({ ok: true });
  // Records are still of version 1, so an older program can read the database.
  expect(Math.floor(book().backendDB().version / 10)).toBe(SCHEMA_VERSION);
  for (const table of TABLE_NAMES) {
    const sorted = [...filledRows(table)].sort((a, b) => (String(a['id']) < String(b['id']) ? -1 : 1));
    expect(await book().table(table).orderBy(':id').toArray()).toEqual(sorted);
  }
  expect((await (await openRecordSearch())('odell'))[0]?.kind).toBe('customer');
});

test('a glance with cached figures says the same of every room as a full reading', async () => {
  for (const whole of await filled()) {
    const reading = readJob(whole, NOW);
    const figures = JSON.parse(JSON.stringify(figuresOf(reading.estimate))) as ReturnType<typeof figuresOf>;
    const glance = glanceJob(whole, figures, NOW);
    expect(glance.bundle).toEqual(reading.bundle);
    expect(glance.rooms).toEqual(reading.rooms.map(({ estimate: _, ...rest }) => rest));
  }
});

test('the jobs with dates ahead include those canceled or archived with an invoice unpaid, and those canceled with money received', async () => {
  await filled();
  const jobId = 'sample-job-tremaine';
  const isAhead = async () => (await readJobsAhead()).some(({ job }) => job.id === jobId);
  for (const state of ['declined', 'set-aside'] as const) {
    await change('jobs', jobId, 'state', LATER, { state });
    expect(await isAhead()).toBe(false);
    const billed = invoice('unpaid', 900, 150_000, { jobId, onDay: '2099-01-01' });
    await book().rowsOf('ledger').put(billed);
    expect(await isAhead()).toBe(true);
    await book()
      .rowsOf('ledger')
      .put({ ...payment('paid', 150_000), jobId, onDay: '2099-01-02' });
    // What was received for a canceled contract is still to be settled. An archived job is settled.
    expect(await isAhead()).toBe(state === 'declined');
    // However long ago it was, and without an invoice.
    await book().rowsOf('ledger').delete('unpaid');
    await change('ledger', 'paid', 'day', LATER, { onDay: '2016-01-02' });
    expect(await isAhead()).toBe(state === 'declined');
    await book().rowsOf('ledger').delete('paid');
  }
});

test('only a changed job is estimated again', async () => {
  const first = await filled();
  await readFigures(first, NOW, () => true);
  const stored = await book().figures.toArray();
  expect(stored).toHaveLength(first.length);
  // A marker in cached figures: it stays where nothing is calculated again.
  await book().figures.bulkPut(stored.map((row) => ({ ...row, figures: row.figures.map((f) => ({ ...f, bags: 777 })) })));
  await change('jobs', 'sample-job-odell', 'title', LATER, (job) => ({ ...job, title: 'Another title' }));
  const next = await readFigures(await wholes(), LATER, () => true);
  for (const whole of first) {
    const bags = next?.get(whole.job.id)?.map((f) => f.bags) ?? [];
    if (whole.job.id === 'sample-job-odell') expect(bags).toEqual(figuresOf(readJob(whole, NOW).estimate).map((f) => f.bags));
    else expect(bags.every((b) => b === 777)).toBe(true);
  }
});

test('figures depend on a day only where a price or a lab result takes effect on it', async () => {
  const [whole] = await filled();
  if (whole === undefined) throw new Error('no job');
  const stampOn = (day: string) => figuresStamp(whole, `${day}T15:00:00.000Z`);
  expect(stampOn('2026-06-03')).toBe(stampOn('2026-06-04'));
  const [material, ...others] = whole.materials;
  if (material === undefined) throw new Error('no material');
  const dearer = {
    ...whole,
    materials: [{ ...material, prices: [...material.prices, { from: '2026-06-04', minor: 1, note: '' }] }, ...others],
  };
  expect(figuresStamp(dearer, '2026-06-03T15:00:00.000Z')).not.toBe(figuresStamp(dearer, '2026-06-04T15:00:00.000Z'));
});

test('a canceled reading returns nothing, and figures of jobs no longer open are deleted', async () => {
  const all = await filled();
  expect(await readFigures(all, NOW, () => false)).toBeNull();
  await readFigures(all, NOW, () => true);
  await forgetFiguresBut(all.slice(0, 2));
  expect((await book().figures.toCollection().primaryKeys()).sort()).toEqual(
    all
      .slice(0, 2)
      .map((w) => w.job.id)
      .sort(),
  );
});
