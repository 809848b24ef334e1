import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { emptyAddress, newCustomer, newProperty } from '../../../shared-core/book/new-records.ts';
import { book, type Book } from '../../../renderer/book/database.ts';
import { storeDraft } from '../../../renderer/book/drafts.ts';
import { recoverPending } from '../../../renderer/book/recover-pending.ts';
import { discardUnsaved, LEFT_PREFIX, leaving, unsavedEdits } from '../../../renderer/book/pending.ts';
import { add, change, archive, undo, write } from '../../../renderer/book/write.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

/** Replaces the browser's storage; it writes synchronously. */
function memoryStorage() {
  const stored = new Map<string, string>();
  return {
    get length() {
      return stored.size;
    },
    key: (n: number) => [...stored.keys()][n] ?? null,
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => void stored.set(key, value),
    removeItem: (key: string) => void stored.delete(key),
    clear: () => stored.clear(),
  };
}

const wren = newCustomer({ id: 'c-01', now: NOW }, 'Wren Holloway');
const read = (id = 'c-01') => book().rowsOf('customers').get(id);
const keys = () => Array.from({ length: localStorage.length }, (_, n) => localStorage.key(n));

/** What remains when the window closes in the middle of `typing`, whose own write is lost. */
async function cutOff(before: (into: Book) => Promise<unknown>, typing: () => unknown): Promise<void> {
  await before(await freshBook());
  await read();
  leaving(true);
  const written = typing();
  const pending = localStorage.getItem(keys()[0] ?? '') ?? '';
  await written;
  leaving(false);
  expect(keys()).toEqual([]);
  await before(await freshBook());
  localStorage.setItem(`${LEFT_PREFIX}gone`, JSON.stringify({ ...(JSON.parse(pending) as object), book: book().name }));
}

beforeEach(async () => {
  vi.stubGlobal('localStorage', memoryStorage());
  await freshBook();
});
afterEach(() => vi.unstubAllGlobals());
const withWren = () => add('customers', wren, 'new customer', NOW);

describe('the pending edits of a closed window', () => {
  it('are stored at the next start, and undo reverts them', async () => {
    await cutOff(withWren, () => change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' })));
    expect((await read())?.phone).toBe('');
    await recoverPending();
    expect(await read()).toMatchObject({ phone: '555 0101', name: 'Wren Holloway', changedAt: LATER });
    expect(keys()).toEqual([]);
    expect(await undo()).toEqual({ ok: true, value: 'phone' });
    expect((await read())?.phone).toBe('');
  });

  it('include every unfinished edit, each based on the one before', async () => {
    await cutOff(withWren, () =>
      Promise.all([
        change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555' })),
        change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: `${c.phone} 0101` })),
        add('customers', newCustomer({ id: 'c-02', now: LATER }, 'Sorrel Finch'), 'new customer', LATER),
      ]),
    );
    await recoverPending();
    expect((await read())?.phone).toBe('555 0101');
    expect((await read('c-02'))?.name).toBe('Sorrel Finch');
  });

  it('include an edit whose transaction is aborted after the row was put and before it was committed', async () => {
    await withWren();
    await read();
    const cut = new Error('cut off');
    const { edits } = book();
    const cutOnce = () => {
      leaving(true);
      edits.hook('creating').unsubscribe(cutOnce);
      throw cut;
    };
    edits.hook('creating', cutOnce);
    await change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' }));
    const pending = localStorage.getItem(keys()[0] ?? '') ?? '';
    leaving(false);
    expect((await read())?.phone).toBe('');
    localStorage.clear();
    localStorage.setItem(`${LEFT_PREFIX}gone`, pending);
    await recoverPending();
    expect((await read())?.phone).toBe('555 0101');
  });

  it('include every edit that failed, though they change parts of one field', async () => {
    await withWren();
    await read();
    const { edits } = book();
    const full = () => {
      throw Object.assign(new Error('full'), { name: 'QuotaExceededError' });
    };
    edits.hook('creating', full);
    const setAddress = (part: object) =>
      change('customers', 'c-01', 'billing address', LATER, (c) => ({ ...c, address: { ...(c.address ?? emptyAddress('US')), ...part } }));
    await setAddress({ city: 'Dover' });
    await setAddress({ zip: '03820' });
    leaving(true);
    const pending = localStorage.getItem(keys()[0] ?? '') ?? '';
    leaving(false);
    edits.hook('creating').unsubscribe(full);
    for (const one of unsavedEdits()) discardUnsaved(one);
    expect((await read())?.address).toBeNull();
    localStorage.clear();
    localStorage.setItem(`${LEFT_PREFIX}gone`, pending);
    await recoverPending();
    expect((await read())?.address).toMatchObject({ city: 'Dover', zip: '03820' });
  });

  it('leave later changes, and recover the rest of the record', async () => {
    await cutOff(withWren, () => change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101', notes: 'Side door' })));
    await change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0177' }));
    await recoverPending();
    expect(await read()).toMatchObject({ phone: '555 0177', notes: 'Side door' });
  });

  it('of several records are recovered together or not at all', async () => {
    const house = newProperty(
      { id: 'p-01', now: NOW },
      'c-01',
      { line: '12 Mill Lane', city: '', region: '', zip: '', country: 'US' },
      'America/New_York',
    );
    const both = async () => {
      await withWren();
      await add('properties', house, 'new house', NOW);
      await book().rowsOf('properties').get('p-01');
    };
    const typing = () =>
      write('both', LATER, {
        patches: [
          { table: 'customers', id: 'c-01', change: (c) => ({ ...c, phone: '555 0101' }) },
          { table: 'properties', id: 'p-01', change: (p) => ({ ...p, yearBuilt: 1961 }) },
        ],
      });
    await cutOff(both, typing);
    await change('properties', 'p-01', 'year built', LATER, (p) => ({ ...p, yearBuilt: 1990 }));
    await recoverPending();
    expect((await read())?.phone).toBe('');
    expect((await book().rowsOf('properties').get('p-01'))?.yearBuilt).toBe(1990);
  });

  it('add nothing when the write finished in time', async () => {
    const edit = () => change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' }));
    await cutOff(withWren, edit);
    await edit();
    const before = await book().edits.count();
    await recoverPending();
    expect(await book().edits.count()).toBe(before);
  });

  it('do not restore a record that was archived or deleted', async () => {
    await cutOff(withWren, () => change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' })));
    await archive([{ table: 'customers', id: 'c-01' }], 'put away', LATER);
    await recoverPending();
    expect((await read())?.deletedAt).toBe(LATER);
    await cutOff(withWren, () => change('customers', 'c-01', 'phone', LATER, (c) => ({ ...c, phone: '555 0101' })));
    await write('removed', LATER, { removes: [{ table: 'customers', id: 'c-01' }] });
    await recoverPending();
    expect(await read()).toBeUndefined();
  });

  it('include a draft under its key', async () => {
    await cutOff(withWren, () => storeDraft('room/r-01/sides', "12' 3 1/"));
    await recoverPending();
    expect((await book().drafts.get('room/r-01/sides'))?.text).toBe("12' 3 1/");
  });

  it('of another database, or unreadable ones, store nothing', async () => {
    await withWren();
    const other = JSON.stringify({ book: 'another', edits: [], drafts: [{ key: 'a', text: 'b', instant: NOW }] });
    localStorage.setItem(`${LEFT_PREFIX}other`, other);
    for (const [n, text] of ['', '{', 'null', '[]', '{"book":1}', `{"book":"${book().name}","edits":[{}],"drafts":[{}]}`].entries())
      localStorage.setItem(`${LEFT_PREFIX}${n}`, text);
    const rows = `{"book":"${book().name}","edits":[{"label":"x","instant":"${NOW}","changes":[{"table":"edits","id":"1","before":null,"after":{}}]}],"drafts":[]}`;
    localStorage.setItem(`${LEFT_PREFIX}rows`, rows);
    const before = await book().edits.count();
    await recoverPending();
    expect(await book().edits.count()).toBe(before);
    expect(await book().drafts.count()).toBe(0);
    expect(keys()).toEqual([`${LEFT_PREFIX}other`]);
  });

  it('refuse a row that its schema does not accept', async () => {
    await withWren();
    const edit = { label: 'x', instant: NOW, changes: [{ table: 'customers', id: 'c-09', before: null, after: { id: 'c-09', name: 7 } }] };
    localStorage.setItem(`${LEFT_PREFIX}bad`, JSON.stringify({ book: book().name, edits: [edit], drafts: [] }));
    await recoverPending();
    expect(await book().rowsOf('customers').count()).toBe(1);
  });
});
