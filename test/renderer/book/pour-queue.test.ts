import { describe, expect, it } from 'vitest';
import { done, type Outcome, refused } from '../../../renderer/book/command.ts';
import { pourQueue, type QueueView } from '../../../renderer/book/pour-queue.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import { placedEntry, type Stamp } from '../../../shared-core/pour/pour-commands.ts';
import { type PourRecordPlan, type PourState, readLog } from '../../../shared-core/pour/pour-state.ts';

const PLAN: PourRecordPlan = { layout: null, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch: 1 };
const POUR = { id: 'pour-1', bagsOnSite: 20 } as unknown as Pour;

/** A queue over a list that stands for the disk; `fail` decides whether a write fails. */
function queueOver(fail: (n: number) => 'ok' | 'throws' | 'refused' | 'wrong') {
  const disk: PourEvent[] = [];
  const aside: string[] = [];
  const retries: (() => void)[] = [];
  const views: QueueView[] = [];
  let writes = 0;
  let ids = 0;
  let minute = 0;
  const queue = pourQueue(
    { pour: POUR, log: readLog(PLAN, POUR, []) },
    {
      write: (event): Promise<Outcome<PourEvent>> => {
        const failure = fail(++writes);
        if (failure === 'throws') return Promise.reject(new Error('The transaction was aborted.'));
        if (failure === 'refused') return Promise.resolve(refused('The disk is full.'));
        if (failure === 'wrong') return Promise.resolve(refused('Enter a lot number.', 'lot'));
        disk.push({ ...event, seq: disk.length + 1 });
        return Promise.resolve(done(event));
      },
      keepAside: (_, event) => Promise.resolve(aside.push(event.id)),
      later: (next) => retries.push(next),
      now: () => new Date(Date.UTC(2026, 4, 12, 14, minute++)).toISOString(),
      newId: () => `event-${++ids}`,
      onChange: (view) => views.push(view),
    },
  );
  const place = (): void => queue.log((state: PourState, stamp: Stamp) => placedEntry(state, PLAN, stamp));
  const settle = async (): Promise<void> => {
    for (let i = 0; i < 20; i++) await Promise.resolve();
  };
  return { queue, place, settle, disk, aside, again: retries, last: () => views.at(-1) };
}
const batchesOf = (events: readonly PourEvent[]): number[] => events.flatMap((e) => (e.kind === 'placed' ? [e.batch] : []));

describe('entries waiting for the log', () => {
  it('are stored in the order of the keys', async () => {
    const q = queueOver(() => 'ok');
    q.place();
    q.place();
    q.place();
    await q.settle();
    expect(batchesOf(q.disk)).toEqual([1, 2, 3]);
    expect(q.last()).toMatchObject({ waiting: [], problem: null });
  });

  it.each(['throws', 'refused'] as const)('are all kept while the database %s, visible and in order', async (failure) => {
    const q = queueOver((n) => (n <= 2 ? failure : 'ok'));
    q.place();
    await q.settle();
    q.place();
    q.place();
    await q.settle();
    expect(q.disk).toEqual([]);
    expect(batchesOf(q.last()?.waiting ?? [])).toEqual([1, 2, 3]);
    expect(q.last()?.problem).toContain('Not saved yet');
    expect(q.aside).toContain('event-1');
    // The one scheduled retry writes them all.
    expect(q.again).toHaveLength(1);
    q.again[0]?.();
    await q.settle();
    expect(batchesOf(q.disk)).toEqual([1, 2, 3]);
    expect(q.last()).toMatchObject({ waiting: [], problem: null });
  });

  it('are in the state that a decision is made from, though no query has returned them', async () => {
    const q = queueOver((n) => (n === 1 ? 'ok' : 'refused'));
    q.place();
    await q.settle();
    q.place();
    await q.settle();
    expect(batchesOf(q.disk)).toEqual([1]);
    expect(q.queue.state().placed).toBe(2);
  });

  it('drop an entry that is invalid and continue with the next', async () => {
    const q = queueOver((n) => (n === 1 ? 'wrong' : 'ok'));
    q.place();
    await q.settle();
    expect(q.last()).toMatchObject({ waiting: [], problem: 'Not logged. Enter a lot number.' });
    q.place();
    await q.settle();
    expect(batchesOf(q.disk)).toEqual([1]);
  });
});
