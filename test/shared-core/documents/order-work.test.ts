/** The work that a change order proposes to the customer, over changes of the sample’s contract. */
import { expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { orderWork } from '../../../shared-core/documents/order-work.ts';
import { proposeOrder } from '../../../shared-core/price/change-order.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import { issue, NOW, PLACE, sign, whole } from '../price/an-order.ts';
import { layer } from '../substrate/a-floor.ts';

const LIVING = 'sample-living';
const workOf = (quote: Quote, now: WholeJob, withdrawn: readonly string[] = []): string[] =>
  orderWork(quote, proposeOrder(quote, now, withdrawn, PLACE, NOW.slice(0, 10)));
const withLiving = (of: WholeJob, change: (room: WholeJob['rooms'][number]) => WholeJob['rooms'][number]): WholeJob => ({
  ...of,
  rooms: of.rooms.map((room) => (room.id === LIVING ? change(room) : room)),
});
const accept = (of: WholeJob): Quote => {
  const issued = issueQuote(of, { id: 'quote-00001', instant: NOW, by: 'Ros Teague', note: '', earlier: [] });
  if (!issued.ok) throw new Error(issued.message);
  return { ...issued.value.quote, state: 'accepted', acceptedOptionId: 'base' };
};
const bare = withLiving({ ...whole, quotes: [] }, (room) => ({ ...room, layers: room.layers.filter(({ fate }) => fate !== 'remove') }));
const carpeted = withLiving(bare, (room) => ({ ...room, layers: [...room.layers, layer('carpet', { fate: 'remove' })] }));

it('says which work comes into the contract and which is no longer in it, as the scope of the quote has it', () => {
  const removal = 'remove and dispose of the existing flooring';
  expect(workOf(accept(carpeted), bare)).toEqual([`Living room, no longer in our work: ${removal}.`]);
  expect(workOf(accept(bare), carpeted)).toEqual([`Living room, added: ${removal}.`]);
  const deeper: WholeJob = {
    ...bare,
    job: {
      ...bare.job,
      rooms: bare.job.rooms.map((room) =>
        room.roomId === LIVING ? { ...room, level: { ...room.level, leastThicknessM: room.level.leastThicknessM + 0.006 } } : room,
      ),
    },
  };
  // Deep enough for a second lift, which has work of its own before it.
  const [between, changed = '', ...others] = workOf(accept(bare), deeper);
  expect(between).toMatch(/^Living room, added: abrade and vacuum [\d,]+ sq ft between lifts\.$/);
  expect(others).toEqual([]);
  expect(changed).toMatch(/^Living room, changed to: .*pour the floor level: [\d,]+ sq ft, .* deep.*; material: .*about \d+ bags/);
});

it('adds a room with its area, depth, prep and bags, and takes one out, neither as if it were done', () => {
  const { rooms } = whole.job;
  const without = { ...bare, job: { ...bare.job, rooms: rooms.filter(({ roomId }) => roomId !== LIVING) } };
  const [added = '', ...others] = workOf(accept(without), bare);
  expect(others).toEqual([]);
  expect(added).toMatch(
    /^Added to the contract: the living room\. .*Prime the floor, .*\. Pour the floor level: [\d,]+ sq ft, .* deep.*\. Material: .+, about \d+ bags.*\.$/,
  );
  expect(workOf(accept(bare), bare, [LIVING])).toEqual(['Taken out of the contract: the living room.']);
});

it('has work added by hand beside what it was, and the sentences of the price where a signed order changed the room before', () => {
  const line = { id: 'added-00001', roomId: LIVING, kind: 'other' as const, name: 'Patch the threshold', costMinor: 50_000, taxId: null };
  const withLine = (of: WholeJob): WholeJob => ({
    ...of,
    job: { ...of.job, estimate: { ...of.job.estimate, added: [...of.job.estimate.added, line] } },
  });
  expect(workOf(accept(bare), withLine(bare))).toEqual(['Living room, added: patch the threshold.']);
  expect(workOf(accept(withLine(bare)), bare)).toEqual(['Living room, no longer in our work: patch the threshold.']);
  const signed = sign(issue({}));
  expect(workOf(signed, withLine(whole))).toEqual([expect.stringMatching(/^Living room, patch the threshold: added, /)]);
});
