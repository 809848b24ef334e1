/** Change orders: totals as in any contract account (base + signed orders), with the accepted quote unchanged. */
import { describe, expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { changeOrderSheet } from '../../../shared-core/documents/change-order-sheet.ts';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { invoicesToIssue } from '../../../shared-core/ledger/next-invoice.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import {
  contractBasis,
  decideOrder,
  enteredPrice,
  issueOrder,
  jobAfterOrder,
  type NewOrder,
  proposeOrder,
} from '../../../shared-core/price/change-order.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';

const NOW = '2026-05-12T15:05:00.000Z';
const PLACE = { currency: 'USD', locale: 'en-US', units: 'us' } as const;
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-abara');
const accepted = found?.quotes.find((quote) => quote.state === 'accepted');
if (found === undefined || accepted === undefined) throw new Error('The sample has an accepted quote.');
/** The job on the day it was accepted: nothing poured, no change order. */
const base: Quote = { ...accepted, orders: [] };
const whole: WholeJob = { ...found, quotes: [base], pours: [], pourEvents: [] };
const agreed = contractOfJob([base]);
if (agreed === null) throw new Error('An accepted quote is a contract.');

const draft = (of: Partial<NewOrder>): NewOrder => ({
  id: 'order-00001',
  issuedAt: NOW,
  issuedBy: 'Ros Teague',
  reason: 'Rot under the threshold',
  work: '',
  roomIds: ['sample-living'],
  withdrawnIds: [],
  photoIds: [],
  ...enteredPrice(18_500, null),
  addedDays: 0,
  priced: contractBasis(base),
  ...of,
});
const issue = (of: Partial<NewOrder>): Quote => {
  const issued = issueOrder(base, draft(of), [base], whole.job);
  if (!issued.ok) throw new Error(issued.message);
  return issued.value;
};
const sign = (quote: Quote): Quote => {
  const signed = decideOrder(quote, 'order-00001', { state: 'signed', instant: NOW, by: 'Adaeze Abara' });
  if (!signed.ok) throw new Error(signed.message);
  return signed.value;
};

describe('a change order', () => {
  it('proposes nothing while the job is as accepted', () => {
    const proposal = proposeOrder(base, whole, [], PLACE);
    expect(proposal).toMatchObject({ netMinor: 0, totalMinor: 0, taxes: [], addedDays: 0, roomIds: [], differences: [] });
  });

  it('is priced from what changed, at the contract’s rates whatever the rates are now', () => {
    const deeper = (job: WholeJob['job']) => ({
      ...job,
      rooms: job.rooms.map((room) =>
        room.roomId === 'sample-living' ? { ...room, level: { ...room.level, leastThicknessM: room.level.leastThicknessM + 0.006 } } : room,
      ),
    });
    const changed = { ...whole, job: deeper(whole.job) };
    const dear = { ...changed, business: { ...whole.business, pricing: { ...whole.business.pricing, share: 3 } } };
    const proposal = proposeOrder(base, changed, [], PLACE);
    expect(proposal.netMinor).toBeGreaterThan(0);
    expect(proposal.roomIds).toEqual(['sample-living']);
    expect(proposal.totalMinor).toBe(proposal.netMinor + proposal.taxes.reduce((sum, tax) => sum + tax.taxMinor, 0));
    expect(proposeOrder(base, dear, [], PLACE).netMinor).toBe(proposal.netMinor);
    // After it is signed, nothing is left to propose.
    const signed = sign(issue({ ...proposal, roomIds: [...proposal.roomIds] }));
    expect(proposeOrder(signed, changed, [], PLACE).netMinor).toBe(0);
  });

  it('leaves the contract unchanged until it is signed, then adds to it, its tax and its last payment', () => {
    const tax = { id: 'tax', name: 'Sales tax', rate: 0.08 };
    const waiting = issue(enteredPrice(18_500, tax));
    expect(contractOfJob([waiting])).toEqual(agreed);
    const after = contractOfJob([sign(waiting)]);
    // 185.00 at 8% is 14.80 of tax, by hand.
    expect(after?.totalMinor).toBe(agreed.totalMinor + 18_500 + 1_480);
    expect(after?.taxes.find(({ taxId }) => taxId === 'tax')).toMatchObject({ baseMinor: 18_500, taxMinor: 1_480 });
    expect(after?.stages.reduce((sum, stage) => sum + stage.amountMinor, 0)).toBe(after?.totalMinor);
    expect(after?.stages.at(-1)?.amountMinor).toBe((agreed.stages.at(-1)?.amountMinor ?? 0) + 19_980);
    expect(after?.stages[0]).toEqual(agreed.stages[0]);
    const done = { accepted: true, poured: true, handedOver: true, thirtyDaysPast: true };
    const drafts = after === null ? [] : invoicesToIssue(after, [], done);
    expect(drafts.map((one) => one.totalMinor)).toEqual(after?.stages.map((stage) => stage.amountMinor));
    // The quote stays as accepted.
    expect({ ...sign(waiting), orders: [] }).toEqual(base);
  });

  it('subtracts a deduction from the last payments first', () => {
    const last = agreed.stages.at(-1)?.amountMinor ?? 0;
    const after = contractOfJob([sign(issue(enteredPrice(-last - 1_000, null)))]);
    expect(after?.stages.at(-1)?.amountMinor).toBe(0);
    expect(after?.stages.reduce((sum, stage) => sum + stage.amountMinor, 0)).toBe(agreed.totalMinor - last - 1_000);
  });

  it('holds the rooms it affects until it is signed, and no others', () => {
    const holds = (quote: Quote) =>
      readJob({ ...whole, quotes: [quote] }, NOW).bundle.summaries.filter((s) => s.holds.some((h) => h.key === 'change-order-1'));
    const waiting = issue({});
    expect(holds(waiting).map((summary) => summary.roomId)).toEqual(['sample-living']);
    expect(holds(sign(waiting))).toEqual([]);
    const reading = readJob({ ...whole, quotes: [waiting] }, NOW);
    expect(reading.rooms.find(({ room }) => room.id === 'sample-living')?.preparation.mayPour).toBe(false);
    expect(nextStep(reading.bundle, 'sample-living', whole.business, NOW)).toMatchObject({
      sentence: 'On hold: change order 1 is not signed.',
      action: { opens: 'quote' },
    });
  });

  it('withdraws a room: its price is removed, and its records stay', () => {
    const proposal = proposeOrder(base, whole, ['sample-living'], PLACE);
    expect(proposal.netMinor).toBeLessThan(0);
    expect(proposal.differences).toContain('Living room was removed.');
    const order = sign(issue({ ...proposal, roomIds: [...proposal.roomIds], withdrawnIds: ['sample-living'] })).orders[0];
    if (order === undefined) throw new Error('no order');
    const job = jobAfterOrder(whole.job, order, 'America/New_York', new Set());
    expect(job.rooms.map((room) => room.roomId)).not.toContain('sample-living');
    expect(job.withdrawn).toEqual(whole.job.rooms.filter((room) => room.roomId === 'sample-living'));
    const after = contractOfJob([sign(issue({ ...proposal, roomIds: [...proposal.roomIds], withdrawnIds: ['sample-living'] }))]);
    expect(after?.totalMinor).toBe(proposal.priced.totalMinor);
  });

  it('moves future dates by the days it adds', () => {
    const pourAt = '2026-05-20T13:00:00.000Z';
    const job = { ...whole.job, handoverAt: '2026-05-30T13:00:00.000Z', rooms: whole.job.rooms.map((room) => ({ ...room, pourAt })) };
    const order = sign(issue({ addedDays: 2 })).orders[0];
    if (order === undefined) throw new Error('no order');
    const after = jobAfterOrder(job, order, 'America/New_York', new Set());
    expect(after.rooms.map((room) => [room.roomId, room.pourAt])).toEqual(
      job.rooms.map(({ roomId }) => [roomId, roomId === 'sample-living' ? '2026-05-22T13:00:00.000Z' : pourAt]),
    );
    expect(after.handoverAt).toBe('2026-06-01T13:00:00.000Z');
  });

  it('is refused without a reason, without a change, or twice; and an accepted quote has no further revision', () => {
    const say = (of: Partial<NewOrder>) => issueOrder(base, draft(of), [base], whole.job);
    expect(say({ reason: ' ' })).toMatchObject({ ok: false });
    expect(say({ roomIds: [], ...enteredPrice(0, null) })).toMatchObject({ ok: false });
    expect(say({ withdrawnIds: whole.job.rooms.map((room) => room.roomId) })).toMatchObject({ ok: false });
    expect(decideOrder(sign(issue({})), 'order-00001', { state: 'declined', instant: NOW, by: 'A' })).toMatchObject({ ok: false });
    expect(issueQuote(whole, { id: 'quote-00002', instant: NOW, by: 'Ros', note: '', earlier: [base] })).toMatchObject({ ok: false });
  });

  it('shows on its page what it adds, the new total and where to sign', () => {
    const waiting = issue({ ...enteredPrice(18_500, { id: 'tax', name: 'Sales tax', rate: 0.08 }), addedDays: 2 });
    const order = waiting.orders[0];
    if (order === undefined) throw new Error('no order');
    const tree = changeOrderSheet({ quote: waiting, order, photos: [] });
    expect(documentTreeSchema.safeParse(tree).error).toBeUndefined();
    const text = JSON.stringify(tree.blocks);
    for (const words of [
      'Rot under the threshold',
      '$185.00',
      'Sales tax, 8% of $185.00',
      '$14.80',
      '$199.80',
      'This adds 2 days',
      'Customer, signature',
    ])
      expect(text).toContain(words);
    const total = ((agreed.totalMinor + 19_980) / 100).toLocaleString('en-US', { style: 'currency', currency: 'USD' });
    expect(text).toContain(total);
  });
});
