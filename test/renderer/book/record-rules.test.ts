// @vitest-environment node
/** Rules between records, and edits that keep concurrent ones. */
import { expect, test } from 'vitest';
import { changeBusiness } from '../../../renderer/book/business-commands.ts';
import { documentRow, latestReading, storeDocument } from '../../../renderer/book/document-commands.ts';
import { addRoom } from '../../../renderer/book/customer-commands.ts';
import { book } from '../../../renderer/book/database.ts';
import { changeRoom, putJob } from '../../../renderer/book/job-commands.ts';
import { issueInvoice, voidEntry } from '../../../renderer/book/ledger-commands.ts';
import { recordAnswer, recordOrder, nextQuote, storeQuote } from '../../../renderer/book/quote-commands.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { archive, change, unarchive } from '../../../renderer/book/write.ts';
import { jobAgenda } from '../../../shared-core/agenda/job-agenda.ts';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { QUOTE_IS_ACCEPTED } from '../../../shared-core/price/issue-quote.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

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

const PDF = { sha256: null, version: '0.1.0' };
const issuedBefore = (row: string) => ({
  ok: false,
  message: `${row} was issued a moment ago. Read it, then issue another if you need one.`,
});

test('two presses on Issue, or two windows, issue one revision', async () => {
  await filled();
  const reading = readJob(await wholeOf('sample-job-tremaine'), NOW);
  const [first, second] = [nextQuote(reading, LATER), nextQuote(reading, LATER)];
  if (!first.ok || !second.ok) throw new Error('The sample’s quote can be issued.');
  const { revision } = first.value.quote;
  expect(await storeQuote(first.value, PDF)).toMatchObject({ ok: true });
  expect(await storeQuote(second.value, PDF)).toMatchObject(issuedBefore(`Revision ${revision} of the quote`));
  const { quotes, documents } = await wholeOf('sample-job-tremaine');
  expect(quotes.filter((quote) => quote.revision === revision).map((quote) => quote.id)).toEqual([first.value.quote.id]);
  expect(documents.filter((one) => one.kind === 'quote' && one.revision === revision)).toHaveLength(1);
});

test('a revision that was accepted while the next one was made stays the contract', async () => {
  await filled();
  const whole = await wholeOf('sample-job-tremaine');
  const next = nextQuote(readJob(whole, NOW), LATER);
  const [quote] = whole.quotes;
  if (!next.ok || quote === undefined) throw new Error('The sample’s quote can be issued.');
  const answer = { state: 'accepted' as const, by: 'Dale Tremaine', note: '', optionId: null };
  expect(await recordAnswer(whole, quote, answer, LATER)).toMatchObject({ ok: true });
  expect(await storeQuote(next.value, PDF)).toEqual({ ok: false, message: QUOTE_IS_ACCEPTED, where: '' });
  expect((await wholeOf('sample-job-tremaine')).quotes).toMatchObject([{ id: quote.id, state: 'accepted' }]);
});

test('a revision issued after a decline reopens the job, unless its room is in another open job by then', async () => {
  await filled();
  const jobId = 'sample-job-tremaine';
  const whole = await wholeOf(jobId);
  const [quote] = whole.quotes;
  if (quote === undefined) throw new Error('The sample has an issued quote.');
  const answer = { state: 'declined' as const, by: 'Dale Tremaine', note: 'Too expensive', optionId: null };
  expect(await recordAnswer(whole, quote, answer, NOW)).toMatchObject({ ok: true });
  const reading = readJob(await wholeOf(jobId), NOW);
  expect(reading.whole.job.state).toBe('declined');
  const next = nextQuote(reading, LATER);
  if (!next.ok) throw new Error(next.message);
  const other = { ...whole.job, id: 'another', number: '26-900' };
  await book().rowsOf('jobs').put(other);
  expect(await storeQuote(next.value, PDF)).toMatchObject({ ok: false, message: expect.stringContaining('is already in job 26-900') });
  expect(await wholeOf(jobId)).toMatchObject({ job: { state: 'declined' }, quotes: [{ id: quote.id }] });
  await book()
    .rowsOf('jobs')
    .put({ ...other, state: 'finished' });
  expect(await storeQuote(next.value, PDF)).toMatchObject({ ok: true });
  const { job, ...rest } = readJob(await wholeOf(jobId), LATER).whole;
  expect(job.state).toBe('open');
  const { revision } = next.value.quote;
  expect(jobAgenda(readJob({ job, ...rest }, LATER).bundle, rest.business).entries).toContainEqual(
    expect.objectContaining({ kind: 'quote-expires', key: `${jobId}:quote-expires:${revision}` }),
  );
});

test('a document of a job is stored once under its number', async () => {
  await filled();
  const jobId = 'sample-job-tremaine';
  const tree = { ...jobRecord(readJob(await wholeOf(jobId), NOW), [], NOW, 1), title: 'Statement 7' };
  const of = { jobId, kind: 'statement' as const, tree, sha256: null, programVersion: '' };
  expect(await storeDocument({ ...of, revision: 7 })).toMatchObject({ ok: true });
  for (const revision of [6, 7]) expect(await storeDocument({ ...of, revision })).toMatchObject(issuedBefore('Statement 7'));
  expect(await storeDocument({ ...of, revision: 8 })).toMatchObject({ ok: true });
  expect(await storeDocument({ ...of, kind: 'receipt', revision: 7 })).toMatchObject({ ok: true });
});

/** Stores a copy of a record that its schema cannot read, under another id. */
const damage = async (table: 'quotes' | 'documents' | 'ledger', row: object, of: object): Promise<void> => {
  await book()
    .table<StoredRow, string>(table)
    .put({ ...row, id: `damaged-${table}`, createdAt: 7, ...of });
};
const TERMS = { onDay: '2026-05-12', dueOn: '2026-05-12', title: 'Floor leveling', retainageMinor: 0, note: '', currency: 'USD' };

test('the number of a record that cannot be read is skipped, and the next one is issued', async () => {
  await filled();
  const jobId = 'sample-job-tremaine';
  const whole = await wholeOf(jobId);
  const [quote] = whole.quotes;
  if (quote === undefined) throw new Error('The sample has an issued quote.');
  const { revision } = quote;
  await damage('quotes', quote, { revision: revision + 1 });
  const next = nextQuote(readJob(await wholeOf(jobId), NOW), LATER);
  if (!next.ok) throw new Error(next.message);
  expect(next.value.quote.revision).toBe(revision + 2);
  expect(await storeQuote(next.value, PDF)).toMatchObject({ ok: true });

  const tree = { ...jobRecord(readJob(whole, NOW), [], NOW, 1), title: 'Statement' };
  const of = { jobId, kind: 'statement' as const, tree, sha256: null, programVersion: '' };
  await damage('documents', documentRow({ ...of, revision: 3 }, NOW), {});
  const read = await wholeOf(jobId);
  expect(read.documents.filter(({ kind }) => kind === 'statement')).toEqual([]);
  expect(nextRevision(read, 'statement')).toBe(4);
  expect(await storeDocument({ ...of, revision: nextRevision(read, 'statement') })).toMatchObject({ ok: true });

  const draft = { purpose: 'other' as const, stageName: null, netMinor: 100, taxes: [], totalMinor: 100, isReady: true, key: 'x' };
  const first = await issueInvoice(jobId, { ...draft, due: 'on-acceptance' }, TERMS);
  if (!first.ok) throw new Error(first.message);
  const number = (more: number): string => `INV-2026-${String(first.value.serial + more).padStart(3, '0')}`;
  await damage('ledger', first.value, { number: number(1), serial: first.value.serial + 1 });
  const second = await issueInvoice(jobId, { ...draft, key: 'y', due: 'on-acceptance' }, TERMS);
  expect(second.ok && second.value.number).toBe(number(2));
});

test('a payment of the contract is billed once', async () => {
  await filled();
  const draft = {
    purpose: 'deposit' as const,
    stageName: 'Deposit',
    netMinor: 10_000,
    taxes: [],
    totalMinor: 10_000,
    isReady: true,
    key: 'Deposit',
  };
  const issue = () => issueInvoice('sample-job-tremaine', { ...draft, due: 'on-acceptance' }, TERMS);
  const first = await issue();
  if (!first.ok) throw new Error(first.message);
  expect(await issue()).toMatchObject(issuedBefore(`Invoice ${first.value.number}`));
  expect(first.value.key).toBe('Deposit');
  await voidEntry(first.value, 'wrong day');
  expect(await issue()).toMatchObject({ ok: true });
});

test('a change order is decided once, whatever the screen still shows', async () => {
  await filled();
  const whole = await wholeOf('sample-job-abara');
  const quote = whole.quotes.find((one) => one.state === 'accepted');
  const order = quote?.orders[0];
  if (quote === undefined || order === undefined) throw new Error('The sample has a change order there.');
  const waiting = { ...order, state: 'issued' as const, decidedAt: null, decidedBy: '' };
  await change('quotes', quote.id, 'waits', NOW, { orders: [waiting] });
  const shown = await wholeOf('sample-job-abara');
  const [seen] = shown.quotes;
  if (seen === undefined) throw new Error('The quote is missing.');
  expect(await recordOrder(shown, seen, order.id, { state: 'declined', by: 'A. Abara' })).toMatchObject({ ok: true });
  expect(await recordOrder(shown, seen, order.id, { state: 'signed', by: 'A. Abara' })).toMatchObject({
    ok: false,
    message: `Change order ${order.number} is already declined. Write another one.`,
  });
});
