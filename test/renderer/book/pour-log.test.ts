import { beforeEach, describe, expect, it } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { logPourEvent } from '../../../renderer/book/pour-log.ts';
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

  it('is not affected by undo', async () => {
    await logPourEvent({ id: 'ev-1', pourId: 'pour-a', instant: NOW, estimated: false, kind: 'started' });
    expect(await undo()).toMatchObject({ ok: false });
    expect(await book.rowsOf('pourEvents').count()).toBe(1);
  });
});
