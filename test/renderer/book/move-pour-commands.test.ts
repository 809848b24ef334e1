/** Moving a pour: previewed first, then one edit that undo reverts as a whole. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { saveMove } from '../../../renderer/book/date-commands.ts';
import { tryMove } from '../../../renderer/book/move-pour-commands.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook } from './fresh-book.ts';

const [JOB, ROOM, ELSEWHERE] = ['sample-job-lindqvist', 'sample-family', 'sample-job-tremaine'];
/** Days after all dates of the sample, which are near today. */
const inDays = (days: number): string => `${new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10)}T15:00:00.000Z`;
const TO = inDays(100);
/** Made once, because it has five properties with all their readings. */
const SAMPLE = sampleAt(new Date().toISOString());
let book: Book;
beforeEach(async () => {
  book = await freshBook();
  expect(await addSample(SAMPLE)).toMatchObject({ ok: true });
  // Validates each row as it is stored.
}, 60_000);
const pourAt = async (jobId = JOB, roomId = ROOM) =>
  (await book.rowsOf('jobs').get(jobId))?.rooms.find((r) => r.roomId === roomId)?.pourAt ?? null;

describe('moving a pour', () => {
  it('changes nothing in the preview, and is one edit when done', async () => {
    const before = await pourAt();
    const move = await tryMove(JOB, ROOM, TO);
    if (move === null) throw new Error('The sample has a pour set there.');
    expect(await pourAt()).toBe(before);
    expect(move.moved.map(({ entry }) => entry.kind)).toContain('pour');
    expect(move.moved.map(({ entry }) => entry.kind)).toContain('walk-on');
    expect(await saveMove(move, 'Move pour')).toMatchObject({ ok: true });
    expect(await pourAt()).toBe(TO);
    await undo();
    expect(await pourAt()).toBe(before);
  });

  it('reports that another property is poured at that time, and no longer once it is moved away', async () => {
    const job = await book.rowsOf('jobs').get(ELSEWHERE);
    const [room] = job?.rooms ?? [];
    if (job === undefined || room === undefined) throw new Error('The sample has another house.');
    await book.rowsOf('jobs').put({ ...job, rooms: job.rooms.map((r, i) => (i === 0 ? { ...r, pourAt: TO } : r)) });
    const clash = await tryMove(JOB, ROOM, TO);
    expect(clash?.breaks.map((b) => b.sentence).join(' ')).toContain('Two pours at the same time');
    const later = await tryMove(JOB, ROOM, inDays(101));
    expect(later?.breaks.map((b) => b.sentence).join(' ')).not.toContain('Two pours at the same time');
  });

  it('leaves a room that is placed whole at the date of its pour', async () => {
    const job = await book.rowsOf('jobs').get(JOB);
    const placed = job?.rooms.find((r) => r.roomId === 'sample-sunroom');
    const plan = job?.rooms.find((r) => r.pourPlan !== null)?.pourPlan;
    if (job === undefined || placed === undefined || plan == null) throw new Error('The sunroom of the sample is poured.');
    const together = { pourAt: placed.pourAt, pourPlan: { ...plan, withRoomIds: [ROOM, placed.roomId] } };
    await book.rowsOf('jobs').put({ ...job, rooms: job.rooms.map((r) => (r.roomId === ROOM ? { ...r, ...together } : r)) });
    expect((await tryMove(JOB, ROOM, TO))?.dates.pour?.roomIds).toEqual([ROOM]);
  });

  it('returns nothing for a job that does not exist', async () => {
    expect(await tryMove('job-none', ROOM, TO)).toBeNull();
  });
});
