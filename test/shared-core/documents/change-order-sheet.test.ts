import { describe, expect, it } from 'vitest';
import { changeOrderSheet } from '../../../shared-core/documents/change-order-sheet.ts';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { contractBasis, enteredPrice, jobAfterOrder } from '../../../shared-core/price/change-order.ts';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { invoice } from '../ledger/entries.ts';
import { agreed, base, issue, NOW, sign, whole } from '../price/an-order.ts';
import { textOf } from './tree-text.ts';

describe('the page of a change order', () => {
  it('names the payment that changes: the next to be invoiced, or one for change orders once all are', () => {
    const [deposit, rest] = agreed.stages;
    if (deposit === undefined || rest === undefined || agreed.stages.length > 2) throw new Error('a deposit and a balance');
    const bill = (stage: typeof deposit, serial: number) =>
      invoice(`i${serial}`, serial, stage.amountMinor, { stageName: stage.name, jobId: whole.job.id, createdAt: NOW });
    const money = (minor: number) => formatMoney(minor, 'USD', 'en-US');
    /** The payments on the page, and whether they are those that Money asks for once it is signed. */
    const said = (netMinor: number, ledger: readonly LedgerEntry[]) => {
      const quote = issue(enteredPrice(netMinor, null));
      const [order] = quote.orders;
      if (order === undefined) throw new Error('no order');
      const text = textOf(changeOrderSheet({ quote, order, photos: [], ledger }));
      const { toIssue } = jobMoney({ ...whole, quotes: [sign(quote)], ledger: [...ledger] }, NOW);
      for (const { stageName, totalMinor } of toIssue.slice(-1))
        expect(text).toMatch(new RegExp(`^${stageName ?? 'Change orders'}: ${money(totalMinor).replace(/[$.]/g, '\\$&')}`, 'm'));
      return text.slice(text.indexOf('New contract total')).split('\n')[1];
    };
    // 500.00 more or less, by hand.
    const more = `Balance due: ${money(rest.amountMinor + 50_000)} instead of ${money(rest.amountMinor)}, at handover.`;
    expect([said(50_000, []), said(50_000, [bill(deposit, 1)])]).toEqual([more, more]);
    const all = [bill(deposit, 1), bill(rest, 2)];
    expect(said(50_000, all)).toBe('Change orders: $500.00, due when you sign.');
    expect(said(-50_000, all)).toBe('Credit to you: $500.00, when you sign.');
    expect(said(-rest.amountMinor - 10_000, [bill(deposit, 1)])).toBe(
      `Balance due: $0.00 instead of ${money(rest.amountMinor)}, at handover. Credit to you: $100.00, when you sign.`,
    );
  });

  it('says why what comes off for a room is not its price in the contract, where it is not', () => {
    const room = contractBasis(base).rooms.find(({ roomId }) => roomId === 'sample-living');
    const inContract = room?.priceMinor ?? 0;
    const said = (netMinor: number) => {
      const quote = issue({ ...enteredPrice(netMinor, null), withdrawnIds: ['sample-living'] });
      const [order] = quote.orders;
      if (order === undefined) throw new Error('no order');
      return textOf(changeOrderSheet({ quote, order, photos: [], ledger: [] }));
    };
    expect(said(-inContract)).not.toContain('Before tax, the contract has');
    expect(said(-inContract + 5_000)).toContain(
      `Before tax, the contract has ${formatMoney(inContract, 'USD', 'en-US')} for the living room, with a share of the work for the whole job. The rooms left are priced again without it, so another amount comes off.`,
    );
  });

  it('shows on its page what it adds, the new total and where to sign', () => {
    const waiting = issue({ ...enteredPrice(18_500, { id: 'tax', name: 'Sales tax', rate: 0.08 }), addedDays: 2 });
    const order = waiting.orders[0];
    if (order === undefined) throw new Error('no order');
    const tree = changeOrderSheet({ quote: waiting, order, photos: [], ledger: [] });
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
      const after = jobAfterOrder(dated, signed, whole.property.timeZone, () => true);
      expect(after.handoverAt).not.toBe(LATER);
      const moved = after.rooms.filter(({ pourAt }) => pourAt !== LATER).map(({ roomId }) => roomId);
      expect(moved).toEqual(roomIds);
      return JSON.stringify(changeOrderSheet({ quote, order: signed, photos: [], ledger: [] }).blocks);
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
