import { beforeEach, describe, expect, it, vi } from 'vitest';
import { newCustomer } from '../../../shared-core/book/new-records.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { beWindow, onOverlap, type Overlap } from '../../../renderer/book/windows.ts';
import { add, change, undo } from '../../../renderer/book/write.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

let book: Book;
const reported: Overlap[] = [];
onOverlap((overlap) => reported.push(overlap));

beforeEach(async () => {
  book = await freshBook();
  reported.length = 0;
  beWindow('one');
  await add('customers', newCustomer({ id: 'customer-1', now: NOW }, 'Odell'), 'a new customer', NOW);
});
const rename = (name: string) => change('customers', 'customer-1', `name ${name}`, LATER, (c) => ({ ...c, name }));

describe('two windows on the same data', () => {
  it('report when one overwrites a field that the other just changed, and undo restores it', async () => {
    await rename('Rusk');
    beWindow('two');
    await rename('Abara');
    expect(reported).toEqual([{ theirs: 'name Rusk', ours: 'name Abara', window: 'one' }]);
    expect((await undo()).ok).toBe(true);
    expect((await book.rowsOf('customers').get('customer-1'))?.name).toBe('Rusk');
  });

  it('read the history for an overwritten edit only while another is open', async () => {
    let read = 0;
    book.edits.hook('reading', (edit) => {
      read += 1;
      return edit;
    });
    const withOpen = (ids: readonly string[]) =>
      vi.stubGlobal('navigator', {
        locks: {
          request: () => Promise.resolve(),
          query: () => Promise.resolve({ held: ids.map((id) => ({ name: `straightedge/window/${id}` })) }),
        },
      });
    withOpen(['one']);
    await rename('Rusk');
    expect(read).toBe(0);
    withOpen(['one', 'two']);
    beWindow('two');
    await rename('Abara');
    vi.unstubAllGlobals();
    expect(read).toBeGreaterThan(0);
    expect(reported).toEqual([{ theirs: 'name Rusk', ours: 'name Abara', window: 'one' }]);
  });

  it('report nothing about an edit made before this window was reloaded', async () => {
    await rename('Rusk');
    vi.stubGlobal('navigator', {
      locks: { request: () => Promise.resolve(), query: () => Promise.resolve({ held: [{ name: 'straightedge/window/two' }] }) },
    });
    beWindow('two');
    await rename('Abara');
    vi.unstubAllGlobals();
    expect(reported).toEqual([]);
  });

  it('change different fields of one record, and both are stored without a message', async () => {
    await rename('Rusk');
    beWindow('two');
    await change('customers', 'customer-1', 'notes', LATER, (c) => ({ ...c, notes: 'Side door' }));
    expect(await book.rowsOf('customers').get('customer-1')).toMatchObject({ name: 'Rusk', notes: 'Side door' });
    expect(reported).toEqual([]);
  });

  it('report nothing about own edits, nor about old ones', async () => {
    await rename('Rusk');
    await rename('Abara');
    beWindow('two');
    await change('customers', 'customer-1', 'name', '2026-05-12T12:30:00.000Z', (c) => ({ ...c, name: 'Tremaine' }));
    expect(reported).toEqual([]);
  });
});
