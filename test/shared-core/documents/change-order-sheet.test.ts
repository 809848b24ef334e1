import { describe, expect, it } from 'vitest';
import { changeOrderSheet } from '../../../shared-core/documents/change-order-sheet.ts';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { enteredPrice, jobAfterOrder } from '../../../shared-core/price/change-order.ts';
import { agreed, issue, sign, whole } from '../price/an-order.ts';

describe('the page of a change order', () => {
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

  it('says that the dates move which do once it is signed', () => {
    const LATER = '2026-06-01T13:00:00.000Z';
    const dated = { ...whole.job, handoverAt: LATER, rooms: whole.job.rooms.map((room) => ({ ...room, pourAt: LATER })) };
    expect(dated.rooms.length).toBeGreaterThan(1);
    const said = (roomIds: readonly string[], addedDays: number) => {
      const quote = issue({ roomIds: [...roomIds], addedDays });
      const signed = sign(quote).orders[0];
      if (signed === undefined) throw new Error('no order');
      const after = jobAfterOrder(dated, signed, whole.property.timeZone, new Set());
      expect(after.handoverAt).not.toBe(LATER);
      const moved = after.rooms.filter(({ pourAt }) => pourAt !== LATER).map(({ roomId }) => roomId);
      expect(moved).toEqual(roomIds);
      return JSON.stringify(changeOrderSheet({ quote, order: signed, photos: [] }).blocks);
    };
    expect(said(['sample-living'], 2)).toContain(
      'This adds 2 days. Dates in the living room not reached yet, and the handover, move by 2 days.',
    );
    expect(said(['sample-living'], -1)).toContain(
      'This saves 1 day. Dates in the living room not reached yet, and the handover, move up by 1 day.',
    );
    expect(said([], 3)).toContain('This adds 3 days. The handover moves by 3 days. The other dates stay as agreed.');
  });
});
