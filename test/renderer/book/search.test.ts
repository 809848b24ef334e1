// @vitest-environment node
import { expect, test } from 'vitest';
import { sampleAt } from '../../sample-at.ts';
import { book } from '../../../renderer/book/database.ts';
import { openRecordSearch } from '../../../renderer/book/search.ts';
import { addSample, removeSample } from '../../../renderer/book/sample-commands.ts';
import { replaceData } from '../../../renderer/book/backup-commands.ts';
import { FOUND_TABLES, wordsRow } from '../../../renderer/book/words.ts';
import { unarchive, change, archive, redo, undo } from '../../../renderer/book/write.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';
import { readBookRows, walkRows } from './whole-book.ts';

const SAMPLE = sampleAt(NOW);
const filled = async () => {
  await freshBook();
  await addSample(SAMPLE);
  return openRecordSearch();
};

/** The stored words, and the words that the records have now. */
const bothWords = async () => {
  const stored = await book().words.orderBy('key').toArray();
  const rebuilt = [];
  for (const table of FOUND_TABLES)
    for (const row of await book().rowsOf(table).toArray()) {
      const words = wordsRow(table, row);
      if (words !== null) rebuilt.push(words);
    }
  return { kept: stored, rebuilt: rebuilt.sort((a, b) => (a.key < b.key ? -1 : 1)) };
};
const expectWordsKept = async () => {
  const { kept: stored, rebuilt } = await bothWords();
  expect(stored).toEqual(rebuilt);
  expect(rebuilt.length).toBeGreaterThan(10);
};

test('a customer is found by the beginning of any name, without accents or case, with the property, rooms and job', async () => {
  const find = await filled();
  const found = await find('ODEL');
  expect(found[0]).toMatchObject({ kind: 'customer', href: '/customers/sample-odell' });
  expect(new Set(found.map((f) => f.kind))).toEqual(new Set(['customer', 'property', 'job', 'room']));
});

test('several words narrow the result: a room of one customer is found among all rooms of that name', async () => {
  const find = await filled();
  const job = await book().rowsOf('jobs').get('sample-job-odell');
  const room = await book()
    .rowsOf('rooms')
    .get(job?.rooms[0]?.roomId ?? '');
  const found = await find(`odell ${room?.name ?? ''}`);
  expect(found.some((f) => f.id === `rooms/${room?.id ?? ''}`)).toBe(true);
  expect(found.every((f) => !f.detail.includes('Rusk') && !f.title.includes('Rusk'))).toBe(true);
});

test('a job is found by its number, and by a part of it', async () => {
  const find = await filled();
  const job = await book().rowsOf('jobs').get('sample-job-odell');
  const number = job?.number ?? '';
  expect((await find(number))[0]).toMatchObject({ id: 'jobs/sample-job-odell' });
  expect((await find(number.slice(-3))).some((f) => f.id === 'jobs/sample-job-odell')).toBe(true);
});

test('a misspelled name is found by close words, and a word close to none finds nothing', async () => {
  const find = await filled();
  expect((await find('lindqist')).some((f) => f.id === 'customers/sample-lindqvist')).toBe(true);
  expect(await find('zzzzzzzz')).toEqual([]);
});

test('search words follow every edit, undo, redo, archiving and unarchive', async () => {
  const find = await filled();
  await expectWordsKept();
  await change('customers', 'sample-odell', 'name', LATER, (c) => ({ ...c, name: 'Marguerite Ångström', contacts: [] }));
  expect((await find('angstrom'))[0]?.title).toBe('Marguerite Ångström');
  // A result under another record says that record's new name.
  const job = (await find('angstrom')).find((f) => f.id === 'jobs/sample-job-odell');
  const property = await book().rowsOf('properties').get('sample-pennant-hill');
  expect(job?.detail).toBe(`Marguerite Ångström, ${property?.address.line ?? ''}, ${property?.address.city ?? ''}`);
  expect((await find('odell')).filter((f) => f.kind === 'customer')).toEqual([]);
  await expectWordsKept();
  await undo();
  expect((await find('odell'))[0]?.kind).toBe('customer');
  await redo();
  await expectWordsKept();
  await change('jobs', 'sample-job-odell', 'finished', LATER, (job) => ({ ...job, state: 'finished' }));
  await archive([{ table: 'customers', id: 'sample-odell' }], 'away', LATER);
  expect((await find('angstrom')).filter((f) => f.kind === 'customer')).toEqual([]);
  await unarchive([{ table: 'customers', id: 'sample-odell' }], 'back', LATER);
  expect((await find('angstrom'))[0]?.kind).toBe('customer');
  await expectWordsKept();
});

test('after the data is replaced, and after the sample is removed, only existing records are found', async () => {
  await filled();
  await book().changed.clear();
  const rows = await readBookRows();
  const renamed = { ...rows, customers: rows.customers.map((c) => ({ ...c, name: `Quill ${String(c['id'])}` })) };
  expect(await replaceData(walkRows(renamed).pieces())).toMatchObject({ ok: true });
  const find = await openRecordSearch();
  expect((await find('quill')).filter((f) => f.kind === 'customer')).toHaveLength(rows.customers.length);
  await expectWordsKept();
  await removeSample();
  expect(await (await openRecordSearch())('quill')).toEqual([]);
});

test('a property without a street has a name in the results', async () => {
  const find = await filled();
  const [property] = SAMPLE.properties;
  if (property === undefined) throw new Error('The sample has properties.');
  await change('properties', property.id, 'address', LATER, (p) => ({ ...p, address: { ...p.address, line: ' ', city: 'Quarry Bend' } }));
  expect((await find('quarry')).find(({ kind }) => kind === 'property')?.title).toBe('Address not recorded, Quarry Bend');
});

// The North American Numbering Plan: an area code, an exchange and a line, after a 1 from outside. From memory.
test('a customer is found first by a phone however it is written, and another number finds no one', async () => {
  const find = await filled();
  await change('customers', 'sample-odell', 'phone', LATER, (c) => ({
    ...c,
    phone: '(617) 555-0191',
    more: [{ kind: 'phone' as const, label: '', text: '508 555 0192' }],
  }));
  for (const typed of [
    '6175550191',
    '617555',
    '617-555-0191',
    '+1 617-555-0191',
    '16175550191',
    '5550191',
    '1-508-555-0192',
    '15085550192',
  ])
    expect((await find(typed))[0], typed).toMatchObject({ id: 'customers/sample-odell' });
  expect((await find('odell 617.555.0191'))[0]).toMatchObject({ id: 'customers/sample-odell' });
  for (const other of ['6175559191', '508-555-0191']) expect(await find(other), other).toEqual([]);
  await expectWordsKept();
});
