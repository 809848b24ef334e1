import { beforeEach, describe, expect, it } from 'vitest';
import { newClient } from '../../../shared-core/book/new-records.ts';
import { book } from '../../../renderer/book/database.ts';
import { keepDraft } from '../../../renderer/book/drafts.ts';
import { beginLooking, endLooking, lookingAt } from '../../../renderer/book/look-book.ts';
import { logPourEvent } from '../../../renderer/book/pour-log.ts';
import { readBookRows, replaceBook } from '../../../renderer/book/snapshot-commands.ts';
import { add, undo } from '../../../renderer/book/write.ts';
import { freshBook, NOW } from './fresh-book.ts';

const client = (id: string, name: string) => newClient({ id, now: NOW }, name);

beforeEach(async () => {
  await freshBook();
  await add('clients', client('client-1', 'Odell'), 'a new customer', NOW);
});

describe('looking around in a copy', () => {
  it('shows the copy’s records, lets nothing in them be changed, and leaves the book as it was', async () => {
    const before = await readBookRows();
    expect(await beginLooking({ ...before, clients: [client('client-2', 'Rusk')] }, NOW)).toMatchObject({ ok: true });
    expect(lookingAt()).toEqual({ madeAt: NOW });
    expect((await book().rowsOf('clients').toArray()).map((c) => c.name)).toEqual(['Rusk']);
    expect(await add('clients', client('client-3', 'Abara'), 'a new customer', NOW)).toMatchObject({
      ok: false,
      message: expect.stringMatching(/looking around in a copy/),
    });
    expect(await undo()).toMatchObject({ ok: false });
    expect(
      await logPourEvent({ id: 'event-1', pourId: 'pour-1', kind: 'note', at: NOW, recordedAt: NOW, text: 'x' } as never),
    ).toMatchObject({ ok: false });
    await keepDraft('field', 'typed');
    await endLooking();
    expect(lookingAt()).toBeNull();
    expect(await readBookRows()).toEqual(before);
  });
});

describe('putting a copy in place of the book', () => {
  it('is all or nothing: a book changed meanwhile is left as it is', async () => {
    const copied = await readBookRows();
    await add('clients', client('client-2', 'Rusk'), 'a new customer', NOW);
    const changed = await readBookRows();
    expect(await replaceBook({ ...copied, clients: [] }, copied)).toMatchObject({ ok: false });
    expect(await readBookRows()).toEqual(changed);
    expect(await replaceBook(copied, changed)).toMatchObject({ ok: true });
    expect(await readBookRows()).toEqual(copied);
  });

  it('of which one record cannot be stored changes nothing', async () => {
    const before = await readBookRows();
    const bad = { ...before, jobs: [{ id: undefined as unknown as string }] };
    await expect(replaceBook(bad, before)).rejects.toThrow();
    expect(await readBookRows()).toEqual(before);
  });
});
