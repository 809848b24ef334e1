import { beforeEach, describe, expect, it } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { logPourEvent } from '../../../renderer/book/pour-log.ts';
import { readPourLog } from '../../../renderer/book/read-pour-log.ts';
import { undo } from '../../../renderer/book/write.ts';
import { freshBook, NOW } from './fresh-book.ts';

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});

describe('the pour log', () => {
  it('numbers entries of each pour separately, without a gap, when many are logged at once', async () => {
    const log = (pourId: string, n: number) =>
      logPourEvent({
        id: `${pourId}-${n}`,
        pourId,
        instant: NOW,
        estimated: false,
        kind: 'placed',
        batch: n,
        roomId: null,
        lane: null,
        bags: 2,
      });
    await Promise.all([1, 2, 3, 4, 5].flatMap((n) => [log('pour-a', n), log('pour-b', n)]));
    for (const pourId of ['pour-a', 'pour-b']) {
      const seqs = (await book.rowsOf('pourEvents').where('pourId').equals(pourId).toArray()).map((e) => e.seq).sort();
      expect(seqs).toEqual([1, 2, 3, 4, 5]);
    }
  });

  it('refuses a lot number of a thousand characters in a sentence and stores nothing', async () => {
    const outcome = await logPourEvent({
      id: 'ev-1',
      pourId: 'pour-a',
      instant: NOW,
      estimated: false,
      kind: 'lot',
      lot: 'x'.repeat(1000),
    });
    expect(outcome).toMatchObject({ ok: false, message: expect.stringContaining('60 characters') });
    expect(await book.rowsOf('pourEvents').count()).toBe(0);
  });

  it('is numbered on from what another window added and from what was restored since it was read', async () => {
    const log = (id: string) => logPourEvent({ id, pourId: 'pour-a', instant: NOW, estimated: false, kind: 'started' });
    const ids = async () => (await readPourLog('pour-a')).map(({ id, seq }) => `${id} ${seq}`);
    await log('first');
    await log('second');
    expect(await ids()).toEqual(['first 1', 'second 2']);
    const row = { pourId: 'pour-a', instant: NOW, estimated: false, kind: 'started' } as const;
    await book.rowsOf('pourEvents').add({ ...row, id: 'theirs', seq: 3 });
    await log('third');
    expect(await ids()).toEqual(['first 1', 'second 2', 'theirs 3', 'third 4']);
    await book.rowsOf('pourEvents').clear();
    await book
      .rowsOf('pourEvents')
      .bulkAdd([{ ...row, id: 'recovered', seq: 1 }, ...[2, 3, 4, 5].map((seq) => ({ ...row, id: `line-${seq}`, seq }))]);
    await log('last');
    expect(await ids()).toEqual(['recovered 1', 'line-2 2', 'line-3 3', 'line-4 4', 'line-5 5', 'last 6']);
    await book.rowsOf('pourEvents').delete('line-3');
    expect(await ids()).toEqual(['recovered 1', 'line-2 2', 'line-4 4', 'line-5 5', 'last 6']);
  });

  it('is not affected by undo', async () => {
    await logPourEvent({ id: 'ev-1', pourId: 'pour-a', instant: NOW, estimated: false, kind: 'started' });
    expect(await undo()).toMatchObject({ ok: false });
    expect(await book.rowsOf('pourEvents').count()).toBe(1);
  });
});
