// @vitest-environment node
/** Issued quotes and their acceptance: what undo leaves, and which dates become promises. */
import { expect, test, vi } from 'vitest';
import { issueInvoice, voidEntry } from '../../../renderer/book/ledger-commands.ts';
import { book } from '../../../renderer/book/database.ts';
import { putJob } from '../../../renderer/book/job-commands.ts';
import { nextQuote, recordAnswer, recordOrder, storeQuote } from '../../../renderer/book/quote-commands.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readOpenLeads } from '../../../renderer/book/use-leads.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { change, undo } from '../../../renderer/book/write.ts';
import type { Lead } from '../../../shared-core/book/lead.ts';
import { newLead } from '../../../shared-core/book/new-records.ts';
import { BASE_OPTION_ID } from '../../../shared-core/price/quote-state.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { orderCredit } from '../../shared-core/ledger/entries.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { pour, visit } from '../../shared-core/agenda/bundle-fixture.ts';
import { barePlan } from '../../shared-core/pour/bare-plan.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

const JOB = 'sample-job-tremaine';
/** The sample's job with an issued quote. */
const filled = async () => {
  await freshBook();
  await addSample(sampleAt(NOW));
  return wholeOf();
};
const wholeOf = async () => {
  const whole = await readWholeJob(JOB);
  const quote = whole?.quotes.at(-1);
  if (whole === null || quote === undefined) throw new Error('The sample has a quote there.');
  return { whole, quote };
};
const ACCEPTED = { state: 'accepted' as const, by: 'Dale Tremaine', note: '', optionId: null };
const invoiced = async (totalMinor = 100) => {
  const draft = {
    purpose: 'deposit' as const,
    stageName: 'Deposit',
    netMinor: totalMinor,
    taxes: [],
    totalMinor,
    isReady: true,
    key: 'Deposit',
  };
  const terms = { onDay: '2026-05-12', dueOn: '2026-05-12', title: 'Floor', retainageMinor: 0, note: '', currency: 'USD' };
  const issued = await issueInvoice(JOB, { ...draft, due: 'on-acceptance' }, terms);
  if (!issued.ok) throw new Error(issued.message);
  return issued.value;
};

/** Undo stops once at an edit that cannot be undone, and names it. */
const undoFinal = async (label: string): Promise<void> =>
  expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining(`“${label}” cannot be undone.`) });

test('undo leaves an issued revision, so that its number is given once', async () => {
  const { whole } = await filled();
  await change('jobs', JOB, 'title', NOW, { title: 'Before' });
  const next = nextQuote(readJob(whole, NOW), LATER);
  if (!next.ok) throw new Error(next.message);
  expect(await storeQuote(next.value, { sha256: null, version: '' })).toMatchObject({ ok: true });
  expect(await undo()).toMatchObject({
    ok: false,
    message: `“issue revision ${next.value.quote.revision} of the quote” cannot be undone. Issue another revision to change it. Undo again to undo “title”.`,
  });
  expect(await undo()).toEqual({ ok: true, value: 'title' });
  expect((await wholeOf()).quote).toMatchObject({ id: next.value.quote.id, state: 'issued' });
});

/** Gives the job a lead with a next step, issues a quote and records the decision. Both are entered on May 12, 2026. */
async function decidedWith(next: Lead['next'], state: 'accepted' | 'declined') {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(LATER) });
  const { whole } = await filled();
  const lead = { ...newLead({ id: 'lead-0000001', now: NOW }, whole.customer.id), propertyId: whole.property.id, jobId: JOB, next };
  await book().rowsOf('leads').put(lead);
  const issued = nextQuote(readJob(whole, NOW), LATER);
  if (!issued.ok) throw new Error(issued.message);
  expect(await storeQuote(issued.value, { sha256: null, version: '' })).toMatchObject({ ok: true });
  const { whole: now, quote } = await wholeOf();
  expect(await recordAnswer(now, quote, { ...ACCEPTED, state, note: 'Price' }, LATER)).toMatchObject({ ok: true });
  return (await readOpenLeads()).leads.find(({ id }) => id === lead.id);
}

test.each(['accepted', 'declined'] as const)('a visit of the call that is still ahead stays listed when the quote is %s', async (state) => {
  const of = (next: Lead['next']) => decidedWith(next, state);
  const tomorrow = { step: 'visit' as const, day: '2026-05-13', clock: '09:00' };
  try {
    expect(await of(tomorrow)).toMatchObject({ state: state === 'accepted' ? 'won' : 'lost', next: tomorrow });
    expect(await of({ ...tomorrow, day: '2026-05-12', clock: null })).toMatchObject({ next: { day: '2026-05-12' } });
    // It is 7:06 am at the property.
    expect(await of({ ...tomorrow, day: '2026-05-12', clock: '07:00' })).toBeUndefined();
    expect(await of({ ...tomorrow, step: 'call-back' })).toBeUndefined();
  } finally {
    vi.useRealTimers();
  }
});

test('an acceptance stays while an invoice bills it', async () => {
  const { whole, quote } = await filled();
  expect(await recordAnswer(whole, quote, ACCEPTED, LATER)).toMatchObject({ ok: true });
  const issued = await invoiced();
  const { number } = issued;
  await undoFinal(`issue invoice ${number}`);
  expect(await undo()).toMatchObject({
    ok: false,
    message: `“record the quote as accepted by Dale Tremaine” was not undone. Invoice ${number} bills the accepted quote. Void the invoice first.`,
  });
  expect((await wholeOf()).quote.state).toBe('accepted');
  await voidEntry(issued, 'Wrong day');
  await undoFinal(`void invoice ${number}`);
  expect(await undo()).toMatchObject({ ok: true });
  expect((await wholeOf()).quote.state).toBe('issued');
});

test('a finished job is open again once its invoice is voided or a change order is signed', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  const issued = await invoiced();
  await putJob(whole.job, 'finished');
  await voidEntry(issued, 'Wrong day');
  expect((await wholeOf()).whole.job.state).toBe('open');

  await putJob(whole.job, 'finished');
  const [priced] = quote.priced.options;
  if (priced === undefined) throw new Error('A quote has an option.');
  const order = { id: 'order-00001', number: 1, state: 'issued' as const, issuedAt: LATER, issuedBy: 'R', decidedAt: null, decidedBy: '' };
  const extra = {
    reason: 'A closet',
    work: '',
    roomIds: [],
    withdrawnIds: [],
    photoIds: [],
    netMinor: 30_000,
    taxes: [],
    totalMinor: 30_000,
  };
  await change('quotes', quote.id, 'order', LATER, { orders: [{ ...order, ...extra, addedDays: 0, priced }] });
  const stored = await wholeOf();
  expect(await recordOrder(stored.whole, stored.quote, order.id, { state: 'signed', by: 'Dale Tremaine' })).toMatchObject({ ok: true });
  expect((await wholeOf()).whole.job.state).toBe('open');
});

test('a change order is voided by the contractor and declined by the customer', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  const [priced] = quote.priced.options;
  if (priced === undefined) throw new Error('A quote has an option.');
  const written = { reason: 'A closet', work: '', roomIds: [], withdrawnIds: [], photoIds: [], netMinor: 0, taxes: [], totalMinor: 0 };
  const issued = { state: 'issued' as const, issuedAt: LATER, issuedBy: 'R', decidedAt: null, decidedBy: '', addedDays: 0, priced };
  await change('quotes', quote.id, 'order', LATER, {
    orders: [1, 2].map((number) => ({ ...written, ...issued, id: `order-0000${number}`, number })),
  });
  for (const [id, state] of [
    ['order-00001', 'voided'],
    ['order-00002', 'declined'],
  ] as const) {
    const stored = await wholeOf();
    expect(await recordOrder(stored.whole, stored.quote, id, { state, by: 'Dale Tremaine' })).toMatchObject({ ok: true });
  }
  const { whole: after, quote: decided } = await wholeOf();
  expect(after.business.ownerName).not.toBe('');
  expect(decided.orders.map(({ decidedBy }) => decidedBy)).toEqual([after.business.ownerName, 'Dale Tremaine']);
});

test('the signature of a change order stays while an invoice bills the order', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  const [priced] = quote.priced.options;
  if (priced === undefined) throw new Error('A quote has an option.');
  const written = { reason: 'A closet', work: '', roomIds: [], withdrawnIds: [], photoIds: [], netMinor: 30_000, taxes: [] };
  const order = { ...written, id: 'order-00001', number: 1, totalMinor: 30_000, addedDays: 0, priced };
  const waits = { ...order, state: 'issued' as const, issuedAt: LATER, issuedBy: 'R', decidedAt: null, decidedBy: '' };
  await change('quotes', quote.id, 'order', LATER, { orders: [waits] });
  const sign = async () => {
    const stored = await wholeOf();
    expect(await recordOrder(stored.whole, stored.quote, order.id, { state: 'signed', by: 'Dale Tremaine' })).toMatchObject({ ok: true });
  };
  await sign();
  // An invoice that the quote alone covers does not bill the order.
  const small = await invoiced(priced.totalMinor);
  await undoFinal(`issue invoice ${small.number}`);
  expect(await undo()).toMatchObject({ ok: true });
  await sign();
  await voidEntry(small, 'Billed again with the order');
  const { number, ...issued } = await invoiced(priced.totalMinor + 30_000);
  await undoFinal(`issue invoice ${number}`);
  await undoFinal(`void invoice ${small.number}`);
  expect(await undo()).toEqual({
    ok: false,
    message: `“record change order 1 as signed” was not undone. Invoice ${number} bills change order 1. Void the invoice first.`,
    where: '',
  });
  expect((await wholeOf()).quote.orders[0]?.state).toBe('signed');
  await voidEntry({ ...issued, number }, 'Wrong day');
  await undoFinal(`void invoice ${number}`);
  expect(await undo()).toMatchObject({ ok: true });
});

test('a customer cancels a contract whose deposit was invoiced: the invoice stays', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  await invoiced();
  const accepted = await wholeOf();
  const canceled = { ...ACCEPTED, state: 'declined' as const, note: 'Sells the house' };
  expect(await recordAnswer(accepted.whole, accepted.quote, canceled, LATER)).toMatchObject({ ok: true });
  const { quote: after, whole: left } = await wholeOf();
  expect([after.state, left.ledger.filter(({ kind, voidedAt }) => kind === 'invoice' && voidedAt === null).length]).toEqual([
    'declined',
    1,
  ]);
});

test('an invoice is voided with the credits for change orders that it takes with it', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  const issued = await invoiced();
  const credit = { ...orderCredit('order-credit', 50), jobId: JOB };
  await book().rowsOf('ledger').put(credit);
  expect(await voidEntry(issued, 'Too large', [credit])).toMatchObject({ ok: true });
  expect(await book().rowsOf('ledger').bulkGet([issued.id, credit.id])).toMatchObject([
    { voidReason: 'Too large' },
    { voidReason: 'Too large', voidedAt: expect.any(String) },
  ]);
});

test('an invoice of a finished job is voided though its room is in a newer job, and the job stays finished', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  const issued = await invoiced();
  await putJob(whole.job, 'finished');
  await book()
    .rowsOf('jobs')
    .put({ ...whole.job, id: 'newer-job', number: '26-040', state: 'open' });
  expect(await voidEntry(issued, 'Wrong day')).toMatchObject({ ok: true });
  expect((await wholeOf()).whole.job.state).toBe('finished');
});

test('an acceptance promises the dates that are still ahead, and none that are past', async () => {
  const { whole, quote } = await filled();
  const accepted = '2026-05-20T15:00:00.000Z';
  const date = { optionId: BASE_OPTION_ID, roomId: whole.rooms[0]?.id ?? '', flooring: null, milestone: 'walk-on' as const };
  const dates = [
    { ...date, promisedFor: '2026-05-12T21:00:00.000Z' },
    { ...date, promisedFor: '2026-05-21T21:00:00.000Z' },
  ];
  await change('quotes', quote.id, 'dates', NOW, { dates, validUntil: '2026-06-30' });
  const stored = await wholeOf();
  expect(await recordAnswer(stored.whole, stored.quote, ACCEPTED, accepted)).toMatchObject({ ok: true });
  const made = (await wholeOf()).whole.promises.filter(({ madeAt }) => madeAt === accepted);
  expect(made.map(({ promisedFor }) => promisedFor)).toEqual(['2026-05-21T21:00:00.000Z']);
});

test('a paper signed days ago shows at once, and its job counts as changed now', async () => {
  const { quote: sample } = await filled();
  // Nothing was edited since it was issued, and no promised date comes with its acceptance.
  await book()
    .rowsOf('quotes')
    .put({ ...sample, dates: [], changedAt: sample.issuedAt });
  const { whole, quote } = await wholeOf();
  const before = readJob(whole, NOW);
  // Noon of the day on the paper is before the quote was issued, so that the moment it was issued counts.
  expect(await recordAnswer(whole, quote, ACCEPTED, quote.issuedAt)).toMatchObject({ ok: true });
  const accepted = await wholeOf();
  expect(readJob(accepted.whole, NOW, before).bundle.quotes.at(-1)?.state).toBe('accepted');
  expect(accepted.quote.history.at(-1)?.instant).toBe(quote.issuedAt);

  const [priced] = quote.priced.options;
  if (priced === undefined) throw new Error('A quote has an option.');
  const written = { reason: 'A closet', work: '', roomIds: [], withdrawnIds: [], photoIds: [], netMinor: 0, taxes: [], totalMinor: 0 };
  const issued = { id: 'order-00001', number: 1, state: 'issued' as const, issuedAt: NOW, issuedBy: 'R', decidedAt: null, decidedBy: '' };
  await change('quotes', quote.id, 'order', LATER, { orders: [{ ...issued, ...written, addedDays: 0, priced }] });
  await change('jobs', JOB, 'title', LATER, { title: 'Edited after the paper was signed' });
  const waiting = await wholeOf();
  const signed = { state: 'signed' as const, by: 'Dale Tremaine' };
  expect(await recordOrder(waiting.whole, waiting.quote, issued.id, signed, NOW)).toMatchObject({ ok: true });
  const { whole: after, quote: decided } = await wholeOf();
  expect(decided.orders[0]?.decidedAt).toBe(NOW);
  // A backup made at the edit is older than the signature: an import keeps this job.
  expect(after.job.changedAt > LATER).toBe(true);
});

test('a signed change order moves the dates its paper names: of the next pour and its visits, not of a pour that was made', async () => {
  const { whole, quote } = await filled();
  await recordAnswer(whole, quote, ACCEPTED, LATER);
  const [roomId, closet] = [whole.rooms[0]?.id ?? '', 'room-closet'];
  const [priced] = quote.priced.options;
  const [room] = whole.rooms;
  if (priced === undefined || room === undefined) throw new Error('A quote has an option.');
  const written = { reason: 'A soft spot', work: '', photoIds: [], netMinor: 0, taxes: [], totalMinor: 0, priced };
  const issued = { state: 'issued' as const, issuedAt: LATER, issuedBy: 'R', decidedAt: null, decidedBy: '' };
  const [planned, moved] = ['2026-06-10T13:00:00.000Z', '2026-06-12T13:00:00.000Z'];
  const visits = [
    visit('visi0001', 'day-after', '2026-06-11T13:00:00.000Z', [roomId]),
    visit('visi0002', 'day-after', '2026-06-11T13:00:00.000Z', [closet]),
  ].map((one) => ({ ...one, jobId: JOB }));
  const firstLift = { ...pour('pour0001', [roomId], '2026-05-13T14:00:00.000Z', '2026-05-13T16:00:00.000Z', 1, 2), jobId: JOB };
  const order = { ...written, ...issued, id: 'order-00001', number: 1, addedDays: 2, roomIds: [roomId], withdrawnIds: [closet] };
  /** Signs the order with a pour date and pours on record: the date after it, and the visits. */
  const signed = async (pourAt: string, pours: readonly Pour[]) => {
    await book().rowsOf('pours').clear();
    await book().rowsOf('pours').bulkPut(pours);
    await book().rowsOf('visits').bulkPut(visits);
    const rooms = whole.job.rooms.map((r) => ({ ...r, pourAt }));
    await book()
      .rowsOf('rooms')
      .put({ ...room, id: closet, name: 'Closet' });
    const job = { ...whole.job, rooms: [...rooms, ...rooms.map((r) => ({ ...r, roomId: closet }))] };
    await book().rowsOf('jobs').put(job);
    await change('quotes', quote.id, 'order', LATER, { orders: [order] });
    const waiting = await wholeOf();
    expect(await recordOrder(waiting.whole, waiting.quote, order.id, { state: 'signed', by: 'Dale Tremaine' }, LATER)).toMatchObject({
      ok: true,
    });
    const after = (await wholeOf()).whole;
    const stored = await book().rowsOf('visits').bulkGet(['visi0001', 'visi0002']);
    return { pourAt: after.job.rooms.map((r) => r.pourAt), visits: stored.map((v) => [v?.instant.slice(0, 10), v?.cancelledAt !== null]) };
  };
  const gone = ['2026-06-11', true];
  expect(await signed(planned, [])).toEqual({ pourAt: [moved], visits: [['2026-06-13', false], gone] });
  // One undo takes back the dates, the visits and the signature.
  expect(await undo()).toMatchObject({ ok: true });
  const { quote: open, whole: before } = await wholeOf();
  expect([open.orders[0]?.state, before.job.rooms[0]?.pourAt]).toEqual(['issued', planned]);
  expect(await book().rowsOf('visits').get('visi0001')).toMatchObject({ instant: visits[0]?.instant, cancelledAt: null });
  // The second lift is still to pour. The visits of the room are to the floor that is placed.
  expect(await signed(planned, [firstLift])).toEqual({ pourAt: [moved], visits: [['2026-06-11', false], gone] });
  // Placed whole, days before the date that was set for it.
  expect((await signed(planned, [{ ...firstLift, asPoured: barePlan([roomId]) }])).pourAt).toEqual([planned]);
});
