import { beforeEach, describe, expect, it } from 'vitest';
import { newCustomer } from '../../../shared-core/book/new-records.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { add, unarchive, change, archive, redo, undo } from '../../../renderer/book/write.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const customer = (id: string, name: string) => newCustomer({ id, now: NOW }, name);
const nameOf = async (id: string) => (await book.rowsOf('customers').get(id))?.name;

describe('writing to the book', () => {
  it('adds a record and stamps a change with its moment', async () => {
    await add('customers', customer('c-01', 'Wren Holloway'), 'new customer', NOW);
    await change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' }));
    expect(await book.rowsOf('customers').get('c-01')).toMatchObject({
      name: 'Wren Holloway',
      phone: '555 0101',
      createdAt: NOW,
      changedAt: LATER,
    });
  });

  it('refuses a record its schema cannot take, says where, and writes nothing', async () => {
    const outcome = await add('customers', customer('c-01', ''), 'new customer', NOW);
    expect(outcome).toEqual({ ok: false, message: 'Enter a name.', where: 'name' });
    expect(await book.rowsOf('customers').count()).toBe(0);
    expect(await book.edits.count()).toBe(0);
  });

  it('refuses a number that is not one', async () => {
    const outcome = await change('business', 'business', 'bucket', NOW, (b) => ({ ...b, bucketL: Number.NaN }));
    expect(outcome.ok).toBe(false);
    expect((await book.rowsOf('business').get('business'))?.bucketL).toBe(19);
  });

  it('leaves no line of history when nothing changed', async () => {
    await add('customers', customer('c-01', 'Wren Holloway'), 'new customer', NOW);
    await change('customers', 'c-01', 'nothing', LATER, (c) => c);
    expect(await book.edits.count()).toBe(1);
  });

  it('says so when the record was removed meanwhile', async () => {
    const outcome = await change('customers', 'gone-1', 'phone', NOW, (c) => ({ ...c, phone: '1' }));
    expect(outcome).toMatchObject({ ok: false, message: expect.stringContaining('was deleted') });
  });
});

describe('undo and redo', () => {
  it('takes edits back one by one and does them again in order', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await change('customers', 'c-01', 'name', LATER, (c) => ({ ...c, name: 'Second' }));
    expect(await undo()).toEqual({ ok: true, value: 'name' });
    expect(await nameOf('c-01')).toBe('First');
    await undo();
    expect(await nameOf('c-01')).toBeUndefined();
    await redo();
    await redo();
    expect(await nameOf('c-01')).toBe('Second');
    expect(await redo()).toMatchObject({ ok: false });
  });

  it('drops what was undone once something new is written', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await undo();
    await add('customers', customer('c-02', 'Other'), 'new customer', NOW);
    expect(await redo()).toMatchObject({ ok: false, message: 'There is nothing to redo.' });
  });

  it('leaves a record alone that another window changed since', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await book.rowsOf('customers').update('c-01', { name: 'Elsewhere' });
    expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining('has changed since') });
    expect(await nameOf('c-01')).toBe('Elsewhere');
  });

  it('keeps a bounded history', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    for (let i = 0; i < 310; i += 1) await change('customers', 'c-01', `name ${i}`, NOW, (c) => ({ ...c, name: `Name ${i}` }));
    expect(await book.edits.count()).toBe(300);
  });
});

describe('putting away', () => {
  it('keeps the record and brings it back', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await archive([{ table: 'customers', id: 'c-01' }], 'put away', LATER);
    expect((await book.rowsOf('customers').get('c-01'))?.deletedAt).toBe(LATER);
    await unarchive([{ table: 'customers', id: 'c-01' }], 'brought back', LATER);
    expect((await book.rowsOf('customers').get('c-01'))?.deletedAt).toBeNull();
  });
});
