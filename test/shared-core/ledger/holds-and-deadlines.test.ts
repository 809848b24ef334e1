import fc from 'fast-check';
import decodeQR from 'qr/decode.js';
import { describe, expect, it } from 'vitest';
import { entryMaker } from '../../../shared-core/agenda/entry-maker.ts';
import { invoiceEntries } from '../../../shared-core/agenda/money-entries.ts';
import { qrCode } from '../../../shared-core/drawing/qr-code.ts';
import type { Invoice, LedgerEntry, Payment } from '../../../shared-core/book/ledger.ts';
import type { ChangeOrder, Quote } from '../../../shared-core/book/quote.ts';
import { depositHold } from '../../../shared-core/ledger/deposit-hold.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { lienDeadlines, workDays } from '../../../shared-core/ledger/lien-deadlines.ts';
import { stagesNow } from '../../../shared-core/ledger/next-invoice.ts';
import type { PaymentStage } from '../../../shared-core/price/stages.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { jobAfterOrder } from '../../../shared-core/price/change-order.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { draft, issue, sign } from '../price/an-order.ts';
import { credit, invoice, orderCredit, payment, refund } from './entries.ts';

const NOW = '2026-05-12T15:00:00Z';
const found = wholeJobsOf(sampleAt(NOW)).find((one) => one.job.id === 'sample-job-lindqvist');
if (found === undefined) throw new Error('the sample has no such job');
// Quoted before the entries, which are of March.
const quotes = found.quotes.map((quote) => ({ ...quote, issuedAt: '2026-03-01T15:00:00Z' }));
const whole = { ...found, quotes, business: { ...found.business, contract: { ...found.business.contract, depositBeforePour: true } } };
const deposit = contractOfJob(whole.quotes)?.stages.find(({ due }) => due === 'on-acceptance')?.amountMinor ?? 0;
const bill = invoice('i', 1, deposit, { jobId: whole.job.id, purpose: 'deposit', stageName: 'Deposit' });
const paid = (minor: number): [Invoice, Payment] => [bill, { ...payment('p', minor), jobId: whole.job.id }];

/** The job accepted at 1,000.00 without tax, in two halves, with signed change orders. */
function quotesOf(dues: readonly PaymentStage['due'][], orders: readonly number[]): Quote[] {
  const stages = dues.map((due, i) => ({ name: i === 0 ? 'First half' : 'Second half', share: 0.5, amountMinor: 50_000, due }));
  return acceptedWith(stages, orders);
}
function acceptedWith(stages: PaymentStage[], orders: readonly number[]): Quote[] {
  const totalMinor = stages.reduce((sum, { amountMinor }) => sum + amountMinor, 0);
  return whole.quotes.map((quote) => {
    const options = quote.priced.options.map((option) => ({ ...option, netMinor: totalMinor, taxes: [], totalMinor, stages }));
    const signed = orders.map((minor, i): ChangeOrder => {
      const order = draft({ id: `o${i}`, netMinor: minor, totalMinor: minor, taxes: [] });
      return { ...order, number: i + 1, state: 'signed', decidedAt: NOW, decidedBy: 'C' };
    });
    return { ...quote, priced: { ...quote.priced, options }, orders: signed };
  });
}
/** 10,000.00 without tax: 3,000.00 on acceptance, 3,000.00 before the pour and 4,000.00 at the handover, with signed change orders. */
const inThree = (...orders: number[]): Quote[] =>
  acceptedWith(
    [
      { name: 'Deposit', share: 0.3, amountMinor: 300_000, due: 'on-acceptance' },
      { name: 'Progress', share: 0.3, amountMinor: 300_000, due: 'before-pour' },
      { name: 'Final', share: 0.4, amountMinor: 400_000, due: 'on-handover' },
    ],
    orders,
  );
const [first, progress, final] = [
  invoice('a', 1, 300_000, { purpose: 'deposit', stageName: 'Deposit' }),
  invoice('b', 2, 300_000, { stageName: 'Progress' }),
  invoice('c', 3, 400_000, { purpose: 'final', stageName: 'Final' }),
];
const paymentsNow = (quotes: Quote[], ledger: readonly LedgerEntry[]) => {
  const contract = contractOfJob(quotes);
  return contract === null ? [] : stagesNow(contract, ledger).map(({ amountMinor }) => amountMinor);
};

describe('a deposit required before the pour', () => {
  it('holds the pour by name until all of it is received, and does nothing where the company does not require it', () => {
    expect(deposit).toBeGreaterThan(0);
    expect(depositHold(whole.quotes, paid(deposit - 1), whole.business)?.missingMinor).toBe(1);
    expect(depositHold(whole.quotes, paid(deposit), whole.business)).toBeNull();
    expect(depositHold(found.quotes, [], found.business)).toBeNull();
    // Invoiced at 1.00 more, before a change order. The contract is lower by it already, so its credit pays nothing of the deposit.
    const forOrders = orderCredit('c', 100, { jobId: whole.job.id });
    const [, received] = paid(deposit - 100);
    const more = { ...bill, netMinor: deposit + 100, totalMinor: deposit + 100 };
    expect(depositHold(whole.quotes, [more, received, forOrders], whole.business)?.missingMinor).toBe(100);
  });
  it('is not called a deposit once that is paid', () => {
    // Half on acceptance and half before the pour, both paid, and then a change order of 300.00. By hand.
    const quotes = whole.quotes.map((quote) => {
      const options = quote.priced.options.map((option) => {
        const half = { share: 0.5, amountMinor: 50_000 };
        const stages = [
          { ...half, name: 'Deposit', due: 'on-acceptance' as const },
          { ...half, name: 'Second half', due: 'before-pour' as const },
        ];
        return { ...option, netMinor: 100_000, taxes: [], totalMinor: 100_000, stages };
      });
      const [suggested] = options;
      if (suggested === undefined) throw new Error('an option');
      const order = { id: 'o', number: 1, state: 'signed' as const, issuedAt: NOW, issuedBy: 'R', decidedAt: NOW, decidedBy: 'C' };
      const change = {
        reason: 'A closet',
        work: '',
        photoIds: [],
        roomIds: [],
        withdrawnIds: [],
        netMinor: 30_000,
        taxes: [],
        totalMinor: 30_000,
        addedDays: 0,
      };
      return { ...quote, priced: { ...quote.priced, options }, orders: [{ ...order, ...change, priced: suggested }] };
    });
    const half = invoice('i', 1, 50_000, { purpose: 'deposit', stageName: 'Deposit' });
    const textOf = (minor: number) => depositHold(quotes, [half, payment('p', minor)], whole.business)?.text;
    expect(textOf(100_000)).toBe('A payment due before the pour was not received. $300.00 is due.');
    expect(textOf(49_900)).toBe('The deposit was not received. $801.00 is due.');
    expect(textOf(130_000)).toBeUndefined();
    // All of it due on acceptance: the order is part of that payment, and not of the deposit.
    const atOnce = quotes.map((quote) => {
      const options = quote.priced.options.map((option) => {
        const stages = [{ name: 'Deposit', share: 1, amountMinor: 100_000, due: 'on-acceptance' as const }];
        return { ...option, stages };
      });
      return { ...quote, priced: { ...quote.priced, options } };
    });
    const atOnceBill = invoice('i', 1, 100_000, { stageName: 'Deposit' });
    expect(depositHold(atOnce, [atOnceBill, payment('p', 100_000)], whole.business)?.text).toBe(
      'A payment due before the pour was not received. $300.00 is due.',
    );
    // All payments are invoiced, so the order can be invoiced from the day it was signed.
    const ledger = ['Deposit', 'Second half'].map((stageName, i) => invoice(`i${i}`, i + 1, 50_000, { stageName, jobId: whole.job.id }));
    const bundle = readJob({ ...whole, quotes, ledger }, NOW).bundle;
    expect(invoiceEntries(entryMaker(bundle, whole.business))).toMatchObject([
      {
        kind: 'invoice-ready',
        instant: expect.stringContaining(NOW.slice(0, 10)),
        rest: expect.stringContaining('$300.00: change orders.'),
      },
    ]);
  });
  it('is not missing where a change order puts it in a payment after the pour', () => {
    // 1,000.00 in halves, on acceptance and at the handover. 600.00 less: 400.00, invoiced and paid. Then 300.00 more. By hand.
    const [less, more] = [-60_000, 30_000];
    const first = (minor: number) => invoice('a', 1, minor, { purpose: 'deposit', stageName: 'First half' });
    const ledger = [first(40_000), payment('p', 40_000)];
    const halves = quotesOf(['on-acceptance', 'on-handover'], [less, more]);
    expect(depositHold(halves, ledger, whole.business)).toBeNull();
    expect(paymentsNow(halves, ledger)).toEqual([40_000, 30_000]);
    // The same where 500.00 were invoiced and paid before the order, and 100.00 of it credited and paid back since.
    const back = [first(50_000), payment('p', 50_000), orderCredit('c', 10_000), refund('r', 10_000)];
    expect(depositHold(halves, back, whole.business)).toBeNull();
    expect(paymentsNow(halves, back)).toEqual([40_000, 30_000]);
    // Before the first invoice, the order is in both halves.
    expect(paymentsNow(halves, [])).toEqual([50_000, 20_000]);
    // Where the other half is due before the pour, the order is asked for with it.
    const before = quotesOf(['on-acceptance', 'before-pour'], [less, more]);
    expect(depositHold(before, ledger, whole.business)?.missingMinor).toBe(30_000);
  });
  it('does not take the paid deposit for a payment that is due before the pour', () => {
    const quotes = quotesOf(['on-acceptance', 'before-pour'], []);
    const ledger = [invoice('a', 1, 50_000, { purpose: 'deposit', stageName: 'First half' }), payment('p', 50_000)];
    for (const { business } of [whole, found]) {
      expect(depositHold(quotes, ledger, business)?.text).toBe('A payment due before the pour was not received. $500.00 is due.');
      expect(depositHold(quotes, [...ledger, payment('q', 50_000)], business)).toBeNull();
    }
  });
  it('does not count what was written off or credited as paid for it', () => {
    // Nothing is received of the deposit, which the pour does not wait for, and all of the payment before the pour. By hand.
    const ledger = [first, progress, payment('p', 300_000, 'b')];
    expect(depositHold(inThree(), [...ledger, credit('w', 'write-off', 300_000, 'a')], found.business)).toBeNull();
    expect(depositHold(inThree(), [...ledger, credit('w', 'write-off', 300_000)], found.business)).toBeNull();
    // 1,000.00 less, and its credit goes to what is due first: the deposit.
    const less = [...ledger, final, orderCredit('d', 100_000)];
    expect(depositHold(inThree(-100_000), less, found.business)).toBeNull();
    // A payment for no invoice goes to the deposit first, and the credit to the payment before the pour: 2,000.00 is open of it.
    const general = [first, progress, final, orderCredit('d', 100_000), payment('p', 300_000)];
    expect(depositHold(inThree(-100_000), general, found.business)?.missingMinor).toBe(200_000);
    expect(depositHold(inThree(-100_000), [...general, payment('q', 150_000)], found.business)?.missingMinor).toBe(50_000);
    expect(depositHold(inThree(-100_000), [...general, payment('q', 200_000)], found.business)).toBeNull();
  });
  it('is not missing where it was written off', () => {
    // The deposit is paid; of the 3,000.00 before the pour all, or what is left of it, is no longer expected. By hand.
    const ledger = [first, payment('p', 300_000, 'a'), progress];
    for (const { business } of [whole, found]) {
      const missing = (...more: LedgerEntry[]) => depositHold(inThree(), [...ledger, ...more], business)?.missingMinor ?? 0;
      expect(missing(credit('w', 'write-off', 300_000, 'b'))).toBe(0);
      expect(missing(payment('q', 290_000, 'b'), credit('w', 'write-off', 10_000, 'b'))).toBe(0);
      expect(missing(payment('q', 280_000, 'b'), credit('w', 'write-off', 10_000, 'b'))).toBe(10_000);
    }
    // The 3,000.00 before the pour are paid before they are invoiced, or all of them but 100.00; 50.00 of the deposit is written off.
    const ahead = (minor: number) => [first, payment('p', 295_000, 'a'), credit('w', 'write-off', 5_000, 'a'), payment('q', minor)];
    expect(depositHold(inThree(), ahead(300_000), whole.business)).toBeNull();
    expect(depositHold(inThree(), ahead(290_000), whole.business)?.missingMinor).toBe(10_000);
    // One payment of 1,000.00, of which 100.00 is written off, and then an order of 400.00 more: 1,300.00 is all that is left to pay.
    const single = acceptedWith([{ name: 'Whole', share: 1, amountMinor: 100_000, due: 'on-acceptance' }], [40_000]);
    const written = [invoice('a', 1, 100_000, { stageName: 'Whole' }), credit('w', 'write-off', 10_000, 'a')];
    const left = (minor: number) => depositHold(single, [...written, payment('p', minor)], whole.business)?.missingMinor;
    expect([left(0), left(90_000), left(129_900), left(130_000)]).toEqual([130_000, 40_000, 100, undefined]);
    // The second of two payments of one name is still to be invoiced: 500.00.
    const twice = acceptedWith(
      [
        { name: 'Half', share: 0.5, amountMinor: 50_000, due: 'before-pour' },
        { name: 'Half', share: 0.5, amountMinor: 50_000, due: 'before-pour' },
      ],
      [],
    );
    const half = [invoice('h', 1, 50_000, { stageName: 'Half' }), credit('w', 'write-off', 50_000, 'h')];
    expect(depositHold(twice, half, found.business)?.missingMinor).toBe(50_000);
  });
  it('is among the holds of the pour, stops no prep, and can be overridden with a reason', () => {
    const holdsOf = (job: typeof whole.job, ledger: typeof whole.ledger) => {
      const reading = readJob({ ...whole, job, ledger }, NOW);
      const room = reading.rooms.find(({ room: { id } }) => id === 'sample-family');
      const roomStanding = reading.standing.rooms.find(({ roomId }) => roomId === 'sample-family');
      return { holds: room?.preparation.holds.filter(({ by }) => by === 'deposit') ?? [], standing: roomStanding };
    };
    const held = holdsOf(whole.job, []);
    expect(held.holds).toMatchObject([{ key: 'deposit', clearedBy: 'reason', overridden: null }]);
    expect(held.standing?.stages.find(({ stage }) => stage === 'prep')?.state).not.toBe('held');
    expect(held.standing?.stages.find(({ stage }) => stage === 'pour')?.state).toBe('held');
    expect(holdsOf(whole.job, paid(deposit)).holds).toEqual([]);
    const override = { key: 'deposit', why: 'The customer pays in cash on the day.', instant: NOW, initials: 'RT' };
    const job = { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, overrides: [override] })) };
    expect(holdsOf(job, []).holds[0]?.overridden?.why).toBe(override.why);
  });
});

describe('the payments of a contract', () => {
  it('are as invoiced, and what is not invoiced is in the others', () => {
    // 1,000.00 less once all three were invoiced, and credited; then the second invoice was voided, and the credit with it. By hand.
    const less = inThree(-100_000);
    expect(paymentsNow(less, [first, progress, final, orderCredit('d', 100_000)])).toEqual([300_000, 300_000, 300_000]);
    expect(paymentsNow(less, [first, final])).toEqual([300_000, 200_000, 400_000]);
    // 1,000.00 more, invoiced on its own once all three were.
    expect(paymentsNow(inThree(100_000), [first, progress, final, invoice('e', 4, 100_000)])).toEqual([300_000, 300_000, 500_000]);
  });
  it('add up to the contract total, whatever is invoiced, credited and ordered', () => {
    const amount = fc.integer({ min: 1, max: 1_200_000 });
    const maybe = fc.option(amount, { nil: null });
    fc.assert(
      fc.property(fc.integer({ min: -1_000_000, max: 1_000_000 }), maybe, maybe, maybe, maybe, maybe, (order, a, b, c, other, credited) => {
        const ledger = [
          ...[first, progress, final].flatMap((one, i) => {
            const totalMinor = [a, b, c][i] ?? null;
            return totalMinor === null ? [] : [{ ...one, netMinor: totalMinor, totalMinor }];
          }),
          ...(other === null ? [] : [invoice('o', 4, other)]),
          ...(credited === null ? [] : [orderCredit('d', credited)]),
        ];
        const payments = paymentsNow(inThree(order), ledger);
        expect(Math.min(...payments)).toBeGreaterThanOrEqual(0);
        expect(payments.reduce((sum, minor) => sum + minor, 0)).toBe(1_000_000 + order);
      }),
    );
  });
});

describe('lien deadlines', () => {
  const rules = [{ state: ` ${whole.property.address.region.toLowerCase()} `, noticeDays: 20, lienDays: 90 }];
  it('count the days entered for the state, the notice from the first day of work and the lien from the last', () => {
    const days = workDays(whole);
    const ms = (day: string) => Date.parse(`${day}T12:00:00Z`);
    const [notice, lien] = lienDeadlines(whole, rules);
    expect((ms(notice?.onDay ?? '') - ms(days[0] ?? '')) / 86_400_000).toBe(20);
    expect((ms(lien?.onDay ?? '') - ms(days.at(-1) ?? '')) / 86_400_000).toBe(90);
  });
  it('stay where they are when the room in which work began is withdrawn', () => {
    const [line] = whole.job.rooms.flatMap(({ signed }) => signed);
    const [first, second] = whole.job.rooms;
    if (line === undefined || first === undefined || second === undefined) throw new Error('the sample has two rooms and signed prep');
    const signedOn = (day: string) => [{ ...line, doneAt: `${day}T15:00:00.000Z`, withdrawnAt: null }];
    const job = {
      ...whole.job,
      rooms: [
        { ...first, signed: signedOn('2026-04-20'), handedOverAt: null },
        { ...second, signed: signedOn('2026-04-01'), handedOverAt: null },
      ],
    };
    const [order] = sign(issue({ withdrawnIds: [second.roomId] })).orders;
    if (order === undefined) throw new Error('no order');
    const after = jobAfterOrder(job, order, whole.property.timeZone, () => true);
    expect(after.rooms).toHaveLength(1);
    for (const records of [job, after].map((one) => ({ ...whole, job: one, pours: [], ledger: [] }))) {
      expect(workDays(records)).toEqual(['2026-04-01', '2026-04-20']);
      // By hand: 20 days from April 1, and 90 days from April 20.
      expect(lienDeadlines(records, rules).map(({ onDay }) => onDay)).toEqual(['2026-04-21', '2026-07-19']);
    }
  });
  it('are none without a rule for the state, and stay on record once met', () => {
    expect(lienDeadlines(whole, [])).toEqual([]);
    const met = lienDeadlines({ ...whole, job: { ...whole.job, lienDone: ['lien-notice'] } }, rules);
    expect(met.map(({ isDone }) => isDone)).toEqual([true, false]);
  });
});

it('prints a payment text as a QR code that a reader can read, with the quiet zone of ISO/IEC 18004', () => {
  const text = 'https://pay.example/floors?invoice=INV-2026-004';
  const { marks, width } = qrCode(text, 120);
  const [path] = marks;
  if (path?.kind !== 'path') throw new Error('no path');
  const PX = 8;
  const size = width * PX;
  const data = new Uint8Array(size * size * 4).fill(255);
  for (const { xy } of path.rings) {
    const [left = 0, top = 0, right = 0, , , foot = 0] = xy;
    for (let y = Math.round(top * PX); y < Math.round(foot * PX); y++)
      for (let x = Math.round(left * PX); x < Math.round(right * PX); x++) data.fill(0, (y * size + x) * 4, (y * size + x) * 4 + 3);
  }
  expect(decodeQR({ width: size, height: size, data })).toBe(text);
  // The finder pattern is seven modules wide after four blank ones.
  const [first] = path.rings;
  const module = ((first?.xy[2] ?? 0) - (first?.xy[0] ?? 0)) / 7;
  expect((first?.xy[0] ?? 0) / module).toBeCloseTo(4, 6);
});
