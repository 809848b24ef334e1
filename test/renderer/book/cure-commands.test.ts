// @vitest-environment node
/** The results of one visit, entered in one step. */
import { expect, test } from 'vitest';
import { addClearanceTests } from '../../../renderer/book/cure-commands.ts';
import { book } from '../../../renderer/book/database.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

test('several results are a record each, and one undo takes them back', async () => {
  await freshBook();
  await addSample(sampleAt(NOW));
  const of = {
    jobId: 'sample-job-abara',
    roomId: 'sample-dining',
    method: 'slab-humidity',
    unit: 'share',
    flooring: 'wood-glued',
  } as const;
  const stored = async () => (await book().rowsOf('clearanceTests').toArray()).filter(({ roomId }) => roomId === of.roomId);
  expect(await stored()).toEqual([]);
  expect(await addClearanceTests({ ...of, by: 'Ada', takenAt: NOW, note: 'by the window' }, [0.71, 0.74, 0.69])).toMatchObject({
    ok: true,
  });
  const rows = await stored();
  expect(rows.map(({ value }) => value).sort()).toEqual([0.69, 0.71, 0.74]);
  expect(new Set(rows.map(({ takenAt, by, note }) => `${takenAt} ${by} ${note}`))).toEqual(new Set([`${NOW} Ada by the window`]));
  await undo();
  expect(await stored()).toEqual([]);
});
