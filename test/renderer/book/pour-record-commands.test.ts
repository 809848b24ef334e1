import { beforeEach, describe, expect, it } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { closePour, logPourEvent, resumePour } from '../../../renderer/book/pour-log.ts';
import { enterPaper, openPour, type PourOpening } from '../../../renderer/book/pour-record-commands.ts';
import { barePlan } from '../../shared-core/pour/bare-plan.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});

const opening = (...roomIds: string[]): PourOpening => ({
  ...{ job: { id: 'job-0001' }, roomIds, lift: 1, materialId: 'powder-1', bagsOnSite: 20, bagsPlanned: 18, plans: [], fromPaper: false },
  asPoured: barePlan(roomIds),
});
const batch = { estimated: true, seq: 1, kind: 'placed', batch: 1, roomId: null, lane: null, bags: 2, instant: NOW } as const;
const paper = (id: string) => ({ id, events: [{ ...batch, id: `batch-${id}`, pourId: id }], bagsLeft: null, floor: 'whole' as const });
const stored = async () => [await book.rowsOf('pours').count(), await book.rowsOf('pourEvents').count()];
const idOf = async (opened: ReturnType<typeof openPour>): Promise<string> => {
  const outcome = await opened;
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value;
};
const finish = (pourId: string) =>
  logPourEvent({ id: `end-${pourId}`, pourId, instant: LATER, estimated: false, kind: 'finished', bagsLeft: 0, floor: 'whole' });
const resumed = (pourId: string) => ({
  event: { id: `on-${pourId}`, pourId, seq: 9, instant: LATER, estimated: false, kind: 'resumed' as const, by: 'RT', why: 'by mistake' },
  ask: null,
});
const RUNS = { ok: false, message: 'A pour is already running in room-hall. Finish that pour first.' };

describe('a pour started in two windows', () => {
  it('runs once in each room, with its start in the log', async () => {
    const both = await Promise.all([openPour(opening('room-hall')), openPour(opening('room-bath', 'room-hall'))]);
    expect(both.map((one) => one.ok).sort()).toEqual([false, true]);
    expect(await openPour(opening('room-hall'))).toMatchObject({ ok: false, message: /is already running in room-hall\. Go back/ });
    expect(await stored()).toEqual([1, 1]);
    expect(await openPour(opening('room-attic'))).toMatchObject({ ok: true });
  });

  it('keeps out a handwritten log and a resumed pour of its rooms until it is finished', async () => {
    const first = await idOf(openPour(opening('room-hall')));
    await finish(first);
    await closePour(first);
    const second = await idOf(openPour(opening('room-bath', 'room-hall')));
    expect(await enterPaper(opening('room-hall'), paper('paper-0001'))).toMatchObject(RUNS);
    expect(await resumePour(resumed(first))).toMatchObject(RUNS);
    expect([await stored(), (await book.rowsOf('pours').get(first))?.finishedAt]).toEqual([[2, 3], LATER]);
    await finish(second);
    await closePour(second);
    expect(await resumePour(resumed(first))).toMatchObject({ ok: true });
    expect((await book.rowsOf('pours').get(first))?.finishedAt).toBeNull();
  });
});

it('a handwritten log saved twice is one pour, with its entries in order', async () => {
  const both = await Promise.all([1, 2].map(() => enterPaper(opening('room-hall'), paper('paper-0001'))));
  expect(both.map((one) => (one.ok ? 'saved' : one.message)).sort()).toEqual(['This pour is already saved.', 'saved']);
  expect(await stored()).toEqual([1, 3]);
  const log = await book.rowsOf('pourEvents').where('pourId').equals('paper-0001').sortBy('seq');
  expect(log.map((event) => [event.seq, event.kind])).toEqual([
    [1, 'started'],
    [2, 'placed'],
    [3, 'finished'],
  ]);
});

it('a finished pour ends when its log says so, however much later its record is closed, and not before', async () => {
  const id = await idOf(openPour(opening('room-hall')));
  await closePour(id);
  expect((await book.rowsOf('pours').get(id))?.finishedAt).toBeNull();
  await finish(id);
  expect(await closePour(id)).toMatchObject({ ok: true });
  expect((await book.rowsOf('pours').get(id))?.finishedAt).toBe(LATER);
});

it('a finished pour ends with its last batch, and a corrected time moves that end', async () => {
  const id = await idOf(openPour(opening('room-hall')));
  await logPourEvent({ ...batch, id: 'batch-1', pourId: id });
  await finish(id);
  await closePour(id);
  expect((await book.rowsOf('pours').get(id))?.finishedAt).toBe(NOW);
  const toAt = new Date(Date.parse(NOW) - 600_000).toISOString();
  const fix = { pourId: id, instant: LATER, estimated: false, kind: 'corrected', toAt, toBags: null, by: 'RT', why: 'late' } as const;
  await logPourEvent({ ...fix, id: 'fix-1', eventId: 'batch-1' });
  expect((await book.rowsOf('pours').get(id))?.finishedAt).toBe(toAt);
});
