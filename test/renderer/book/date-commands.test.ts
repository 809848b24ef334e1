// @vitest-environment node
/** Dates moved on Today, one after another. */
import { beforeEach, describe, expect, it } from 'vitest';
import { changeJobRoom } from '../../../renderer/book/job-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { saveMove } from '../../../renderer/book/date-commands.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { undo } from '../../../renderer/book/write.ts';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { moveDate } from '../../../shared-core/agenda/move-date.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

const JOB = 'sample-job-lindqvist';
const SAMPLE = sampleAt(NOW);
let book: Book;
beforeEach(async () => {
  book = await freshBook();
  expect(await addSample(SAMPLE)).toMatchObject({ ok: true });
  await book.rowsOf('jobs').update(JOB, { prepVisitAt: '2026-05-14T13:00:00.000Z', handoverAt: '2026-06-10T13:00:00.000Z' });
}, 60_000);
const job = async () => {
  const row = await book.rowsOf('jobs').get(JOB);
  if (row === undefined) throw new Error('The sample has this job.');
  return row;
};
/** The agenda as a screen shows it. */
const shown = async () => {
  const whole = await readWholeJob(JOB);
  if (whole === null) throw new Error('The sample has this job.');
  return agenda([readJob(whole, NOW).bundle], whole.business, null);
};
type Shown = Awaited<ReturnType<typeof shown>>;
const moved = (whole: Shown, kind: string) => {
  const entry = whole.entries.find((one) => one.kind === kind);
  const move = entry === undefined ? null : moveDate(whole, entry, NOW);
  if (move === null) throw new Error(`${kind} is on the agenda.`);
  return move;
};

describe('a date moved by a working day', () => {
  it('leaves a date that was moved a moment before, which the screen does not show yet', async () => {
    const before = await shown();
    const kinds = ['prep-visit', 'handover', 'pour'] as const;
    for (const kind of kinds) expect(await saveMove(moved(before, kind), kind)).toMatchObject({ ok: true });
    const { prepVisitAt, handoverAt, rooms } = await job();
    // Thursday to Friday, and Wednesday to Thursday.
    expect([prepVisitAt, handoverAt]).toEqual(['2026-05-15T13:00:00.000Z', '2026-06-11T13:00:00.000Z']);
    const { pour } = moved(before, 'pour').dates;
    expect(rooms.filter((r) => pour?.roomIds.includes(r.roomId) === true).map((r) => r.pourAt)).toEqual([pour?.pourAt]);
    for (const _ of kinds) expect(await undo()).toMatchObject({ ok: true });
    expect(await job()).toMatchObject({ prepVisitAt: '2026-05-14T13:00:00.000Z', handoverAt: '2026-06-10T13:00:00.000Z' });
  });

  it('leaves the pour of another room, and what was entered for its own', async () => {
    const before = await shown();
    const move = moved(before, 'pour');
    const [roomId = ''] = move.dates.pour?.roomIds ?? [];
    const other = (await job()).rooms.find((r) => move.dates.pour?.roomIds.includes(r.roomId) === false)?.roomId ?? '';
    await changeJobRoom(JOB, other, 'pour', { pourAt: '2026-07-01T13:00:00.000Z' });
    await changeJobRoom(JOB, roomId, 'coats', { primerCoatsDone: 2 });
    expect(await saveMove(move, 'pour')).toMatchObject({ ok: true });
    const { rooms } = await job();
    expect(rooms.find((r) => r.roomId === other)).toMatchObject({ pourAt: '2026-07-01T13:00:00.000Z' });
    expect(rooms.find((r) => r.roomId === roomId)).toMatchObject({ primerCoatsDone: 2, pourAt: move.dates.pour?.pourAt });
  });

  it('twice goes two days, from the agenda as the first move leaves it', async () => {
    const first = moved(await shown(), 'handover');
    const second = moved(first.after, 'handover');
    for (const move of [first, second]) expect(await saveMove(move, 'handover')).toMatchObject({ ok: true });
    expect((await job()).handoverAt).toBe('2026-06-12T13:00:00.000Z');
  });
});
