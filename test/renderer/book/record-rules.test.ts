// @vitest-environment node
/** Rules between records, and edits that keep concurrent ones. */
import { expect, test } from 'vitest';
import { changeBusiness } from '../../../renderer/book/business-commands.ts';
import { latestReading } from '../../../renderer/book/document-commands.ts';
import { addRoom } from '../../../renderer/book/customer-commands.ts';
import { book } from '../../../renderer/book/database.ts';
import { changeRoom, putJob } from '../../../renderer/book/job-commands.ts';
import { recordAnswer, nextQuote } from '../../../renderer/book/quote-commands.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { archive, change, unarchive } from '../../../renderer/book/write.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, NOW } from './fresh-book.ts';

const filled = async (): Promise<void> => {
  await freshBook();
  await addSample(sampleAt(NOW));
};
const wholeOf = async (id: string) => {
  const whole = await readWholeJob(id);
  if (whole === null) throw new Error(`${id} is missing.`);
  return whole;
};

test('two rooms of a property never have the same name: added, renamed or unarchived', async () => {
  await filled();
  const [first, second] = (await wholeOf('sample-job-abara')).rooms;
  if (first === undefined || second === undefined) throw new Error('The sample has two rooms there.');
  const duplicate = {
    ok: false,
    message: `This property already has a room named ${first.name}. Use another name, or rename that room first.`,
  };
  expect(await addRoom(first.propertyId, ` ${first.name.toUpperCase()}`)).toMatchObject(duplicate);
  expect(await changeRoom(second.id, 'name', (r) => ({ ...r, name: first.name }))).toMatchObject(duplicate);
  expect((await book().rowsOf('rooms').get(second.id))?.name).toBe(second.name);
  const added = await addRoom(first.propertyId, 'Pantry');
  if (!added.ok) throw new Error(added.message);
  const pantry = [{ table: 'rooms' as const, id: added.value }];
  await archive(pantry, 'archive', NOW);
  expect(await addRoom(first.propertyId, 'Pantry')).toMatchObject({ ok: true });
  expect(await unarchive(pantry, 'unarchive', NOW)).toMatchObject({ ok: false });
  // Another edit of the room does not check its name.
  expect(await changeRoom(first.id, 'notes', (r) => ({ ...r, circumstances: { ...r.circumstances, notes: 'door sticks' } }))).toMatchObject(
    {
      ok: true,
    },
  );
});

test('a customer, a property or a room of an open job cannot be archived', async () => {
  await filled();
  const { job, customer, property, rooms } = await wholeOf('sample-job-abara');
  const message = `Job ${job.number} is still open. Finish or archive the job before you archive this `;
  const all = [
    [{ table: 'customers' as const, id: customer.id }, 'customer'],
    [{ table: 'properties' as const, id: property.id }, 'property'],
    [{ table: 'rooms' as const, id: rooms[0]?.id ?? '' }, 'room'],
  ] as const;
  for (const [one, word] of all) expect(await archive([one], 'archive', NOW)).toMatchObject({ ok: false, message: `${message}${word}.` });
  await putJob(job, 'finished');
  for (const [one] of all) expect(await archive([one], 'archive', NOW)).toMatchObject({ ok: true });
});

test('a decision keeps what was recorded on the quote meanwhile, and is refused where the stored quote has one', async () => {
  await filled();
  const whole = await wholeOf('sample-job-tremaine');
  const quote = whole.quotes.find((q) => q.state === 'issued');
  if (quote === undefined) throw new Error('The sample has an issued quote.');
  await change('quotes', quote.id, 'elsewhere', NOW, (q) => ({ ...q, validUntil: '2099-12-31' }));
  const answer = { state: 'accepted' as const, by: 'Dale Tremaine', note: '', optionId: null };
  expect(await recordAnswer({ ...whole }, { ...quote, validUntil: '2099-12-31' }, answer)).toMatchObject({ ok: true });
  expect(await book().rowsOf('quotes').get(quote.id)).toMatchObject({ state: 'accepted', validUntil: '2099-12-31' });
  // The screen still shows it as issued.
  expect(await recordAnswer(whole, { ...quote, validUntil: '2099-12-31' }, { ...answer, by: 'Somebody' })).toMatchObject({ ok: false });
});

test('a quote is issued with what was entered a moment before, not with what the screen last showed', async () => {
  await filled();
  const shown = readJob(await wholeOf('sample-job-odell'), NOW);
  await changeBusiness('name', (b) => ({ ...b, name: 'Level and True Floors' }));
  const issued = nextQuote(await latestReading(shown), new Date().toISOString());
  if (!issued.ok) return expect(issued.message).not.toMatch(/name/);
  return expect(issued.value.quote.frozen.business.name).toBe('Level and True Floors');
});
