// @vitest-environment node
/** A room that takes what another room of its job has. */
import { expect, it } from 'vitest';
import { changeJobRoom, changeRoom } from '../../../renderer/book/job-commands.ts';
import { sameAs } from '../../../renderer/book/job-rooms.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

const JOB = 'sample-job-abara';

it('keeps what was entered for it a moment before, and takes what was entered for the other', async () => {
  const book = await freshBook();
  await addSample(sampleAt(NOW));
  const ids = (await book.rowsOf('jobs').get(JOB))?.rooms.map((r) => r.roomId) ?? [];
  const [from = '', to = ''] = ids;
  await changeRoom(from, 'grade', (room) => ({ ...room, circumstances: { ...room.circumstances, belowGrade: true } }));
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
