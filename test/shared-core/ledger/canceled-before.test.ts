/** A contract accepted after another of the job was canceled: what was invoiced before counts toward its payments. */
import { expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { contractOf } from '../../../shared-core/ledger/contract.ts';
import { depositHold } from '../../../shared-core/ledger/deposit-hold.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { invoiceOf, invoicesToIssue, NOTHING_REACHED, stagesNow } from '../../../shared-core/ledger/next-invoice.ts';
import { sampleJob } from '../documents/sample-job.ts';
import { invoice, payment, orderCredit } from './entries.ts';

// 4,484.05 with a deposit of 1,345.22, after 1,073.14 was invoiced as the deposit of the canceled contract. The rest by hand.
const stages = [
  { name: 'Deposit', share: 0.3, due: 'on-acceptance' as const, amountMinor: 134_522 },
  { name: 'Balance due', share: 0.7, due: 'on-handover' as const, amountMinor: 313_883 },
];
const priced = { netMinor: 448_405, taxes: [], totalMinor: 448_405, stages };
const contract = contractOf({ ...priced, currency: 'USD' }, [], '2026-05-14T12:00:00.000Z');
const before = invoice('a', 1, 107_314, { stageName: 'Deposit', key: 'Deposit', purpose: 'deposit' });
const drafts = (entries: readonly LedgerEntry[]) =>
  invoicesToIssue(contract, entries, NOTHING_REACHED).map(({ stageName, totalMinor }) => [stageName, totalMinor]);
const now = (entries: readonly LedgerEntry[]) => stagesNow(contract, entries).map(({ amountMinor }) => amountMinor);

it('asks for the rest of the deposit, and states the payments as agreed', () => {
  expect(drafts([before])).toEqual([
    ['Deposit', 27_208],
    ['Balance due', 313_883],
  ]);
  expect(now([before])).toEqual([134_522, 313_883]);
  // More than the deposit was invoiced: the payment after it is less by the rest.
  const more = { ...before, netMinor: 200_000, totalMinor: 200_000 };
  expect(drafts([more])).toEqual([['Balance due', 248_405]]);
  expect(now([more])).toEqual([134_522, 313_883]);
  // What a change order of the canceled contract took back is not invoiced.
  expect(drafts([before, orderCredit('c', 7_314)])[0]).toEqual(['Deposit', 34_522]);
});

it('bills each payment once, whatever becomes of the earlier invoice', () => {
  const [draft] = invoicesToIssue(contract, [before], NOTHING_REACHED);
  if (draft === undefined) throw new Error('A deposit is to be invoiced.');
  expect(invoiceOf([before], draft.key)).toBeUndefined();
  const own = invoice('b', 2, 27_208, { stageName: 'Deposit', key: draft.key, createdAt: '2026-05-14T13:00:00.000Z' });
  expect(drafts([before, own])).toEqual([['Balance due', 313_883]]);
  expect(now([before, own])).toEqual([134_522, 313_883]);
  // Voided, it counts no more: the last payment has the rest of 4,484.05 after 272.08.
  const voided = { ...before, voidedAt: '2026-05-15T12:00:00.000Z' };
  expect(drafts([voided, own])).toEqual([['Balance due', 421_197]]);
});

it('holds the pour until the whole deposit is received', () => {
  const whole = sampleJob('26-028', '2026-05-12T15:00:00.000Z');
  const quotes = whole.quotes.map((quote) => {
    const options = quote.priced.options.map((option) => ({ ...option, ...priced }));
    return { ...quote, issuedAt: contract.quotedAt, priced: { ...quote.priced, options }, orders: [] };
  });
  expect(contractOfJob(quotes)?.quotedAt).toBe(contract.quotedAt);
  const business = { ...whole.business, contract: { ...whole.business.contract, depositBeforePour: true } };
  const missing = (...paid: LedgerEntry[]) => depositHold(quotes, [before, ...paid], business)?.missingMinor ?? 0;
  expect(missing()).toBe(134_522);
  expect(missing(payment('p', 107_314))).toBe(27_208);
  expect(missing(payment('p', 150_000))).toBe(0);
});
