import { beforeEach, describe, expect, it } from 'vitest';
import { newCustomer } from '../../../shared-core/book/new-records.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { add, unarchive, change, archive, redo, undo, write } from '../../../renderer/book/write.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const customer = (id: string, name: string) => newCustomer({ id, now: NOW }, name);
const nameOf = async (id: string) => (await book.rowsOf('customers').get(id))?.name;

describe('writing to the database', () => {
  it('adds a record and stamps a change with its time', async () => {
    await add('customers', customer('c-01', 'Wren Holloway'), 'new customer', NOW);
    await change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' }));
    expect(await book.rowsOf('customers').get('c-01')).toMatchObject({
      name: 'Wren Holloway',
      phone: '555 0101',
      createdAt: NOW,
      changedAt: LATER,
    });
  });

  it('refuses a record that its schema does not accept, says where, and stores nothing', async () => {
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

  it('adds no undo step when nothing changed', async () => {
    await add('customers', customer('c-01', 'Wren Holloway'), 'new customer', NOW);
    await change('customers', 'c-01', 'nothing', LATER, (c) => c);
    expect(await book.edits.count()).toBe(1);
    // A field left by a click enters its value again.
    const more = [{ kind: 'phone' as const, label: 'work', text: '555 0102' }];
    await change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101', more: structuredClone(more) }));
    await change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101', more: structuredClone(more) }));
    expect(await book.edits.count()).toBe(2);
  });

  it('reports a record that was deleted meanwhile', async () => {
    const outcome = await change('customers', 'gone-1', 'phone', NOW, (c) => ({ ...c, phone: '1' }));
    expect(outcome).toMatchObject({ ok: false, message: expect.stringContaining('was deleted') });
  });
});

describe('undo and redo', () => {
  it('revert and repeat edits in order', async () => {
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

  it('say once at an edit that cannot be undone what to do instead, and then go on before it', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await write('void purchase', LATER, {
      patches: [{ table: 'customers', id: 'c-01', change: { name: 'Void' } }],
      final: 'Record it again.',
    });
    const message = '“void purchase” cannot be undone. Record it again. Undo again to undo “new customer”.';
    expect(await undo()).toMatchObject({ ok: false, message });
    expect(await nameOf('c-01')).toBe('Void');
    expect(await redo()).toMatchObject({ ok: false, message: 'There is nothing to redo.' });
    // The customer is no longer as that edit left it.
    expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining('“new customer” was not undone') });
  });

  it('offer no undo of an edit before it that cannot be undone either', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    for (const name of ['one', 'two'])
      await write(`void ${name}`, LATER, { patches: [{ table: 'customers', id: 'c-01', change: { name } }], final: 'Record it again.' });
    expect(await undo()).toMatchObject({ ok: false, message: '“void two” cannot be undone. Record it again.' });
    expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining('“void one” cannot be undone.') });
  });

  it('drop undone edits after a new one', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await undo();
    await add('customers', customer('c-02', 'Other'), 'new customer', NOW);
    expect(await redo()).toMatchObject({ ok: false, message: 'There is nothing to redo.' });
  });

  it('leave a record that another window has changed since', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await book.rowsOf('customers').update('c-01', { name: 'Elsewhere' });
    expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining('has changed since') });
    expect(await nameOf('c-01')).toBe('Elsewhere');
  });

  it('have a limited history', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    for (let i = 0; i < 310; i += 1) await change('customers', 'c-01', `name ${i}`, NOW, (c) => ({ ...c, name: `Name ${i}` }));
    expect(await book.edits.count()).toBe(300);
  });
});

describe('archiving', () => {
  it('keeps the record and can be reverted', async () => {
    await add('customers', customer('c-01', 'First'), 'new customer', NOW);
    await archive([{ table: 'customers', id: 'c-01' }], 'put away', LATER);
    expect((await book.rowsOf('customers').get('c-01'))?.deletedAt).toBe(LATER);
    await unarchive([{ table: 'customers', id: 'c-01' }], 'brought back', LATER);
    expect((await book.rowsOf('customers').get('c-01'))?.deletedAt).toBeNull();
  });
});
