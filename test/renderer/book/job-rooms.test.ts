// @vitest-environment node
/** The rooms of a job: a room that takes what another has, and rooms that are removed. */
import { expect, it } from 'vitest';
import { addRoom } from '../../../renderer/book/customer-commands.ts';
import { changeJobRoom, changeRoom } from '../../../renderer/book/job-commands.ts';
import { addToJob, removeFromJob, sameAs } from '../../../renderer/book/job-rooms.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import type { Job } from '../../../shared-core/book/job.ts';
import { roomQuote } from '../../../shared-core/standing/room-standing.ts';
import { undo } from '../../../renderer/book/write.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

const JOB = 'sample-job-abara';

it('keeps what was entered for it a moment before, and takes what was entered for the other', async () => {
  const book = await freshBook();
  await addSample(sampleAt(NOW));
  const ids = (await book.rowsOf('jobs').get(JOB))?.rooms.map((r) => r.roomId) ?? [];
  const [from = '', to = ''] = ids;
  await changeRoom(from, 'grade', (room) => ({ ...room, circumstances: { ...room.circumstances, belowGrade: true } }));
  await changeRoom(to, 'grade', (room) => ({ ...room, circumstances: { ...room.circumstances, belowGrade: null } }));
  const saved = await Promise.all([
    changeJobRoom(JOB, to, 'pour', { pourAt: '2026-07-01T13:00:00.000Z' }),
    changeJobRoom(JOB, from, 'flooring', { flooring: 'carpet' }),
    changeRoom(to, 'notes', (room) => ({ ...room, circumstances: { ...room.circumstances, notes: 'door sticks' } })),
    sameAs(JOB, to, from),
  ]);
  expect(saved).toEqual(saved.map(() => ({ ok: true, value: undefined })));
  const job = await book.rowsOf('jobs').get(JOB);
  expect(job?.rooms.find((r) => r.roomId === to)).toMatchObject({ pourAt: '2026-07-01T13:00:00.000Z', flooring: 'carpet' });
  expect((await book.rowsOf('rooms').get(to))?.circumstances).toMatchObject({ notes: 'door sticks', belowGrade: true });
});

it('removes no room that is in the contract through a change order, signed or not', async () => {
  const book = await freshBook();
  await addSample(sampleAt(NOW));
  const quote = (await book.rowsOf('quotes').where('jobId').equals(JOB).toArray()).find(({ state }) => state === 'accepted');
  const [order] = quote?.orders ?? [];
  const jobNow = async () => (await book.rowsOf('jobs').get(JOB)) as Job;
  const { number, propertyId } = await jobNow();
  const added = await addRoom(propertyId, 'Pantry');
  if (quote === undefined || order === undefined || !added.ok) throw new Error('The sample has a change order.');
  const roomId = added.value;
  expect(await addToJob(await jobNow(), [roomId], 'Pantry')).toMatchObject({ ok: true });
  for (const state of ['issued', 'signed'] as const) {
    // Signed, it is in the contract by the price of that order.
    const rooms = order.priced.rooms.slice(0, 1).map((room) => ({ ...room, roomId }));
    const priced = state === 'signed' ? { ...order.priced, rooms: [...order.priced.rooms, ...rooms] } : order.priced;
    await book.rowsOf('quotes').put({ ...quote, orders: [{ ...order, roomIds: [roomId], state, priced }] });
    const message = `Pantry cannot be removed from job ${number} because it has a change order.`;
    expect(await removeFromJob(await jobNow(), roomId, 'Pantry')).toMatchObject({ ok: false, message });
  }
  await book.rowsOf('quotes').put({ ...quote, orders: [{ ...order, roomIds: [roomId], state: 'voided' }] });
  expect(await removeFromJob(await jobNow(), roomId, 'Pantry')).toMatchObject({ ok: true });
  expect((await jobNow()).rooms.some((room) => room.roomId === roomId)).toBe(false);
});

it('adds a room that a change order removed with its records, and not under contract until another order has it', async () => {
  const book = await freshBook();
  await addSample(sampleAt(NOW));
  const jobNow = async () => (await book.rowsOf('jobs').get(JOB)) as Job;
  const quote = (await book.rowsOf('quotes').where('jobId').equals(JOB).toArray()).find(({ state }) => state === 'accepted');
  const [order] = quote?.orders ?? [];
  const job = await jobNow();
  const [left] = job.rooms.toReversed();
  if (quote === undefined || order === undefined || left === undefined || job.rooms.length < 2) throw new Error('The sample has them.');
  const { roomId } = left;
  const signed = { ...order, state: 'signed' as const, roomIds: [roomId], withdrawnIds: [roomId] };
  const priced = { ...order.priced, rooms: order.priced.rooms.filter((room) => room.roomId !== roomId) };
  const after = { ...quote, orders: [{ ...signed, priced }] };
  expect([roomQuote(quote, roomId, NOW), roomQuote(after, roomId, NOW)]).toEqual(['accepted', 'none']);
  await book.rowsOf('quotes').put(after);
  await book.rowsOf('jobs').put({ ...job, rooms: job.rooms.slice(0, -1), withdrawn: [left] });
  expect(await addToJob(await jobNow(), [roomId], 'Room')).toMatchObject({ ok: true });
  const again = await jobNow();
  expect(again.rooms.at(-1)).toEqual(left);
  expect(again).not.toHaveProperty('withdrawn');
  await undo();
  expect((await jobNow()).withdrawn).toEqual([left]);
});

it('copies nothing from a room that is no longer in the job', async () => {
  const book = await freshBook();
  await addSample(sampleAt(NOW));
  const [to = '', from = ''] = (await book.rowsOf('jobs').get(JOB))?.rooms.map((r) => r.roomId) ?? [];
  await book.rowsOf('jobs').update(JOB, (job) => {
    job.rooms = job.rooms.filter((room) => room.roomId !== from);
  });
  const name = (await book.rowsOf('rooms').get(from))?.name ?? '';
  expect(await sameAs(JOB, to, from)).toMatchObject({ ok: false, message: `${name} was removed from the job, so nothing was copied.` });
});
