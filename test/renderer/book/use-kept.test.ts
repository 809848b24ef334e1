// @vitest-environment node
import { expect, test } from 'vitest';
import { book } from '../../../renderer/book/database.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readJobsToOpen } from '../../../renderer/book/use-whole-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

test('a job read again is the same object until one of its records changes', async () => {
  await freshBook();
  await addSample(sampleAt(NOW));
  const first = await readJobsToOpen(4);
  expect(first).toHaveLength(4);
  const [changed, ...others] = first;
  const again = await readJobsToOpen(4);
  for (const [i, whole] of again.entries()) expect(whole).toBe(first[i]);
  await book()
    .rowsOf('customers')
    .update(changed?.customer.id ?? '', { name: 'Another Name' });
  const [next, ...rest] = await readJobsToOpen(4);
  expect(next?.customer.name).toBe('Another Name');
  expect(next).toEqual({ ...changed, customer: { ...changed?.customer, name: 'Another Name' } });
  const ofOthers = others.filter(({ customer }) => customer.id !== changed?.customer.id);
  expect(ofOthers.length).toBeGreaterThan(0);
  for (const whole of ofOthers) expect(rest).toContain(whole);
});
