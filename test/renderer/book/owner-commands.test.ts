// @vitest-environment node
import { expect, test } from 'vitest';
import { book } from '../../../renderer/book/database.ts';
import { mergeCustomers, moveProperty } from '../../../renderer/book/owner-commands.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import type { RowOf } from '../../../shared-core/book/rows.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

const one = async <T extends 'customers' | 'properties' | 'jobs'>(table: T, id: string): Promise<RowOf<T>> => {
  const row = await book().rowsOf(table).get(id);
  if (row === undefined) throw new Error(`${id} is missing.`);
  return row;
};
const filled = async (): Promise<void> => {
  await freshBook();
  await addSample(sampleAt(NOW));
};
const issued = async (): Promise<string> => JSON.stringify(await book().rowsOf('quotes').toArray());

test('a merged customer brings properties, jobs, leads and numbers; quotes do not change; undo separates them again', async () => {
  await filled();
  const before = await issued();
  const [stays, goes] = [await one('customers', 'sample-abara'), await one('customers', 'sample-lindqvist')];
  expect(await mergeCustomers(stays, goes)).toMatchObject({ ok: true });
  expect(await one('customers', 'sample-abara')).toMatchObject({
    name: stays.name,
    phone: stays.phone,
    more: [{ kind: 'phone', text: goes.phone }],
    contacts: [...stays.contacts, ...goes.contacts],
  });
  expect((await one('customers', 'sample-lindqvist')).deletedAt).not.toBeNull();
  expect((await one('properties', 'sample-coopers-wharf')).customerId).toBe('sample-abara');
  expect((await one('jobs', 'sample-job-lindqvist')).customerId).toBe('sample-abara');
  expect(await issued()).toBe(before);
  await undo();
  expect(await one('customers', 'sample-abara')).toEqual(stays);
  expect(await one('jobs', 'sample-job-lindqvist')).toMatchObject({ customerId: 'sample-lindqvist' });
});

test('a customer cannot be merged with itself', async () => {
  await filled();
  const stays = await one('customers', 'sample-abara');
  expect(await mergeCustomers(stays, stays)).toMatchObject({ ok: false });
});

test('a property moves with its open jobs; a job whose quote was issued stays with the customer who was quoted', async () => {
  await filled();
  const before = await issued();
  const to = await one('customers', 'sample-haldane');
  // The Odell job has no quote yet; the Tremaine job has one.
  for (const id of ['sample-pennant-hill', 'sample-old-orchard'])
    expect(await moveProperty(await one('properties', id), to)).toMatchObject({ ok: true });
  expect((await one('properties', 'sample-old-orchard')).customerId).toBe(to.id);
  expect((await one('jobs', 'sample-job-odell')).customerId).toBe(to.id);
  expect((await one('jobs', 'sample-job-tremaine')).customerId).toBe('sample-tremaine');
  expect(await issued()).toBe(before);
});
