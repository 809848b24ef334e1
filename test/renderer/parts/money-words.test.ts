/** What the Money screens say, over amounts added by hand. */
import { expect, it } from 'vitest';
import { moneyPapers } from '../../../renderer/money/money-documents.ts';
import { creditFirst, invoiceTaxWords, moneyAnswer, statusWords } from '../../../renderer/parts/money-words.ts';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { answerQuote } from '../../../shared-core/price/quote-state.ts';
import { entryMaker } from '../../../shared-core/agenda/entry-maker.ts';
import { paymentEntries, refundEntries } from '../../../shared-core/agenda/money-entries.ts';
import type { Job } from '../../../shared-core/book/job.ts';
import { jobMoney, jobStateWord } from '../../../shared-core/standing/job-money.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { jobStanding } from '../../../shared-core/standing/room-standing.ts';
import { moneyOwed } from '../../../shared-core/standing/money-owed.ts';
import { sampleAt } from '../../sample-at.ts';
import { credit, invoice, orderCredit, payment, refund } from '../../shared-core/ledger/entries.ts';

const NOW = '2026-05-10T16:00:00.000Z';
const found = wholeJobsOf(sampleAt('2026-05-12T16:00:00.000Z')).find(({ job }) => job.id === 'sample-job-lindqvist');
if (found === undefined) throw new Error('The sample has this job.');
const total = contractOfJob(found.quotes)?.totalMinor ?? 0;
/** The same contract with one payment, so that one invoice bills all of it. */
const quotes = found.quotes.map((quote) => {
  const options = quote.priced.options.map((option) => ({
    ...option,
    stages: [{ name: 'Balance due', share: 1, due: 'on-acceptance' as const, amountMinor: option.totalMinor }],
  }));
  return { ...quote, priced: { ...quote.priced, options } };
});
const money = (minor: number): string => formatMoney(minor, 'USD', 'en-US');
const wholeOf = (handedOverAt: string | null, entries: readonly LedgerEntry[]) => {
  const rooms = found.job.rooms.map((room) => ({ ...room, handedOverAt }));
  const ledger = entries.map((entry) => ({ ...entry, jobId: found.job.id }));
  return { ...found, quotes, ledger, job: { ...found.job, rooms } };
};
/** What is said on May 10. */
const said = (handedOverAt: string | null, entries: readonly LedgerEntry[]): readonly string[] => {
  const whole = wholeOf(handedOverAt, entries);
  const [owed] = moneyOwed({ entries: whole.ledger, jobs: new Map(), quotes: [] }, [whole], whole.business.timeZone, NOW);
  return [moneyAnswer(jobMoney(whole, NOW), money), owed === undefined ? '' : statusWords(owed, money)];
};
const bill = (totalMinor: number, retainageMinor: number) =>
  invoice('bill', 1, totalMinor, { stageName: 'Balance due', retainageMinor, dueOn: '2026-03-01' });

it('says that retainage is held, and that it is due once the work is accepted', () => {
  const entries = [bill(total, 100_000), payment('p', total - 100_000)];
  const held = 'Nothing is due now. Retainage of $1,000.00 is held until the handover.';
  expect(said(null, entries)).toEqual([held, 'Retainage held']);
  expect(said('2026-05-10T15:00:00.000Z', entries)).toEqual(['$1,000.00 is due.', 'Due']);
  expect(said('2026-04-30T15:00:00.000Z', entries)).toEqual(['$1,000.00 is overdue by 10 days.', 'Overdue by 10 days']);
});

it('says of several overdue invoices by how many days the oldest is', () => {
  // Due March 1 and May 1, read on May 10, counted on a calendar: 70 and 9 days.
  const two = [bill(70_000, 0), invoice('bill-2', 2, total - 70_000, { stageName: 'Balance due', dueOn: '2026-05-01' })];
  expect(said(null, two)[0]).toBe(`${money(total)} is overdue, the oldest by 70 days.`);
  expect(said(null, [...two, payment('p', 70_000)])[0]).toBe(`${money(total - 70_000)} is overdue by 9 days.`);
});

it('asks for a credit where more is invoiced than the contract total', () => {
  const entries = [bill(total + 50_000, 0), payment('p', total)];
  expect(said(null, entries)).toEqual([
    'More is invoiced than the contract total. Record a credit of $500.00 first.',
    'Credit of $500.00 to record',
  ]);
  expect(said(null, [...entries, orderCredit('c', 50_000)])[0]).toBe('Paid in full.');
  // All was paid before the deduction: 500.00 is owed to the customer.
  expect(said(null, [...entries, payment('q', 50_000), orderCredit('c', 50_000)])).toEqual([
    'The customer has a credit balance of $500.00. Pay it back and record the refund.',
    'Credit balance of $500.00',
  ]);
  expect(said(null, [bill(total, 0), payment('p', total), credit('g', 'credit', 6_000), refund('r', 6_000)])[0]).toBe('Paid in full.');
  // What is written off is not paid.
  expect(said(null, [bill(total, 0), payment('p', total - 6_000), credit('w', 'write-off', 6_000)])[0]).toBe(
    'Nothing is left to collect. $60.00 is written off.',
  );
});

it('puts on Today what was paid beyond the contract, until it is paid back', () => {
  const asked = (entries: readonly LedgerEntry[], state: Job['state'] = 'open') => {
    const whole = wholeOf(null, entries);
    const changed = { ...whole, job: { ...whole.job, state } };
    return refundEntries(entryMaker(readJob(changed, NOW).bundle, whole.business)).map(
      ({ verb, rest, note, instant }) => `${instant.slice(0, 10)} ${verb} ${rest} ${note}`,
    );
  };
  // Paid in full, then reduced by a change order: 605.90 goes back. By hand.
  const paid = [bill(total + 60_590, 0), { ...payment('p', total + 60_590), onDay: '2026-05-09' }];
  const back = '2026-05-09 Pay back $605.90 to the Lindqvists. More is paid than is owed.';
  expect(asked(paid)).toEqual([`${back} Record a credit of $605.90, then the refund.`]);
  const credited = [...paid, orderCredit('c', 60_590)];
  expect(asked(credited)).toEqual([`${back} Record the refund.`]);
  expect(asked(credited, 'finished')).toHaveLength(1);
  expect(asked(credited, 'set-aside')).toEqual([]);
  expect(asked([...credited, refund('r', 60_590)])).toEqual([]);
  // Not paid yet, the credit only lowers what is asked for; and money for a payment still to be invoiced is not owed back.
  expect(asked([bill(total + 60_590, 0)])).toEqual([]);
  expect(asked([payment('p', total)])).toEqual([]);
});

it('asks on Today for what is left to collect once the credit is recorded, and never to collect and to pay back', () => {
  const asked = (entries: readonly LedgerEntry[]) => {
    const whole = wholeOf(null, entries);
    const make = entryMaker(readJob(whole, NOW).bundle, whole.business);
    return [...paymentEntries(make), ...refundEntries(make)].map(({ verb, rest, note }) => [verb, rest, note ?? ''].join(' ').trim());
  };
  // Invoiced 200.00 beyond the contract, which a change order reduced. By hand.
  const billed = [bill(total + 20_000, 0)];
  const record = 'Record a credit of $200.00';
  expect(asked([...billed, payment('p', total + 10_000)])).toEqual([
    `Pay back $100.00 to the Lindqvists. More is paid than is owed. ${record}, then the refund.`,
  ]);
  expect(asked([...billed, payment('p', total)])).toEqual([`${record} for the Lindqvists. More is invoiced than the contract total.`]);
  const collect = 'Collect $50.00 from the Lindqvists, invoice INV-2026-001.';
  expect(asked([...billed, payment('p', total - 5_000)])).toEqual([`${collect} ${record} first.`]);
  expect(asked([...billed, payment('p', total - 5_000), orderCredit('c', 20_000)])).toEqual([collect]);
  // Of two invoices, the credit pays the one due first.
  const later = invoice('bill-2', 2, 15_000, { stageName: 'Balance due', dueOn: '2026-05-01' });
  const two = [bill(total + 5_000, 0), later, payment('p', total - 5_000)];
  expect(asked(two)).toEqual([`Collect $50.00 from the Lindqvists, invoice INV-2026-002. ${record} first.`]);
  expect(asked([...two, orderCredit('c', 20_000)])).toEqual(['Collect $50.00 from the Lindqvists, invoice INV-2026-002.']);
});

it('says what is to be settled of a canceled contract', () => {
  const answer = { state: 'declined' as const, instant: NOW, by: 'Ida Lindqvist', note: 'Canceled in time', optionId: null };
  const canceled = quotes.map((quote) => {
    const answered = answerQuote(quote, answer);
    if (!answered.ok) throw new Error(answered.message);
    return answered.value;
  });
  const saidOf = (entries: readonly LedgerEntry[], state: Job['state'] = 'declined') => {
    const whole = wholeOf(null, entries);
    const changed = { ...whole, quotes: canceled, job: { ...whole.job, state } };
    const kept = refundEntries(entryMaker(readJob(changed, NOW).bundle, whole.business)).map(({ verb, rest }) => `${verb} ${rest}`);
    return [moneyAnswer(jobMoney(changed, NOW), money), jobStateWord(changed.job, canceled), ...kept];
  };
  const paid = [bill(100_000, 0), payment('p', 100_000)];
  const today = 'Settle $1,000.00 received from the Lindqvists. The contract was canceled.';
  expect(saidOf(paid)).toEqual([
    'The contract was canceled. $1,000.00 was received. To pay it back, record a credit for what is no longer owed, then the refund. To keep it, archive the job.',
    'canceled',
    today,
  ]);
  const [first, received] = paid;
  if (first === undefined || received === undefined) throw new Error('an invoice and a payment');
  const voided = { ...first, voidedAt: NOW, voidReason: 'Canceled' };
  expect(saidOf([voided, received])).toEqual([
    'The contract was canceled. $1,000.00 was received. $1,000.00 belongs to the customer. Pay it back and record the refund.',
    'canceled',
    today,
  ]);
  expect(saidOf([voided, received, refund('r', 100_000)])).toEqual(['The contract was canceled. Nothing is left to settle.', 'canceled']);
  const settled = (entries: readonly LedgerEntry[]) => jobMoney(wholeOf(null, entries), NOW).settle === 'nothing';
  expect([[], [voided], [voided, received, refund('r', 100_000)]].map(settled)).toEqual([true, true, true]);
  expect([[first], [voided, received], [voided, credit('w', 'credit', 30_000)]].map(settled)).toEqual([false, false, false]);
  // 300.00 was refunded, and then the payment of 1,000.00 that it came from was returned by the bank. By hand.
  const returned = { ...received, voidedAt: NOW, voidReason: 'Returned by the bank' };
  const open = '$1,000.00 is open. Void the invoices that are no longer owed, or record a credit for what you do not charge.';
  const collect = '$300.00 was refunded beyond what was received. Collect it.';
  expect(saidOf([voided, returned, refund('r', 30_000)])[0]).toBe(`The contract was canceled. ${collect}`);
  expect(saidOf([first, returned, refund('r', 30_000)])[0]).toBe(`The contract was canceled. ${collect} ${open}`);
  expect(saidOf([voided, credit('w', 'credit', 30_000)])[0]).toBe('The contract was canceled. Void the credits.');
  expect(saidOf([first])[0]).toBe(`The contract was canceled. ${open}`);
  // A credit balance that was paid back before the cancellation decides nothing: 1,200.00 less 200.00. By hand.
  expect(saidOf([first, payment('p', 120_000), refund('r', 20_000)])[0]).toBe(
    'The contract was canceled. $1,000.00 is left of what was received. To pay it back, record a credit for what is no longer owed, then the refund. To keep it, archive the job.',
  );
  // Part of the work was done and is paid for: the job is archived, and nothing is asked for.
  expect(saidOf(paid, 'set-aside').slice(1)).toEqual(['archived']);
});

it('says that all of it is to be paid back where the customer canceled within three business days', () => {
  // Signed on Friday, May 1, 2026: Saturday counts and Sunday does not, so Tuesday, May 5 is the last day. Source: 16 CFR 429.0(f), 429.1.
  const saidOn = (instant: string, hasNotice = true) => {
    const canceled = quotes.map((quote) => ({
      ...quote,
      state: 'declined' as const,
      frozen: { ...quote.frozen, job: { ...quote.frozen.job, estimate: { ...quote.frozen.job.estimate, cancellationNotice: hasNotice } } },
      history: [
        { state: 'accepted' as const, instant: '2026-05-01T16:00:00.000Z', by: 'Ida Lindqvist', note: '' },
        { state: 'declined' as const, instant, by: 'Ida Lindqvist', note: 'Canceled' },
      ],
    }));
    const whole = wholeOf(null, [
      bill(100_000, 0),
      payment('p', 100_000),
      { ...refund('r', 40_000), createdAt: NOW },
      credit('c', 'credit', 40_000),
    ]);
    const changed = { ...whole, quotes: canceled, job: { ...whole.job, state: 'declined' as const } };
    const [entry] = refundEntries(entryMaker(readJob(changed, NOW).bundle, whole.business));
    return [jobMoney(changed, NOW).settle, moneyAnswer(jobMoney(changed, NOW), money), entry?.note ?? null];
  };
  const inTime = [
    'pay-all-back',
    'The contract was canceled. $600.00 is left of what was received. The customer canceled within three business days of signing. Record a credit for all of it, then pay it back within 10 business days and record the refund.',
    'The customer canceled within three business days. Record a credit and pay all of it back within 10 business days.',
  ];
  expect(saidOn('2026-05-05T23:00:00.000Z')).toEqual(inTime);
  // Later, or where the sale has no such right, the business may keep what it was paid.
  const kept = [
    'kept',
    'The contract was canceled. $600.00 is left of what was received. Nothing is left to settle. Archive the job.',
    null,
  ];
  expect(saidOn('2026-05-06T16:00:00.000Z')).toEqual(kept);
  expect(saidOn('2026-05-05T16:00:00.000Z', false)).toEqual(kept);
});

it('says what a payment before a quote is for, and what to do to invoice a job without one', () => {
  const saidOf = (entries: readonly LedgerEntry[]) => moneyAnswer(jobMoney({ ...wholeOf(null, entries), quotes: [] }, NOW), money);
  expect(saidOf([payment('p', 50_000)])).toBe(
    'The customer has a credit balance of $500.00. It goes toward the first invoice. If no quote is accepted, pay it back.',
  );
  expect(saidOf([])).toBe(
    'Nothing can be invoiced before a quote is accepted. For a small job too, issue a quote, and record when the customer accepts it.',
  );
});

it('asks the customer of a canceled contract for nothing that was refunded, and names the credit that settles it', () => {
  const answer = { state: 'declined' as const, instant: NOW, by: 'Ida Lindqvist', note: 'Canceled in time', optionId: null };
  const canceled = quotes.map((quote) => {
    const answered = answerQuote(quote, answer);
    if (!answered.ok) throw new Error(answered.message);
    return answered.value;
  });
  // A deposit of 1,070.00 is paid, 600.00 of it paid back, and 470.00 kept. By hand.
  const deposit = [bill(107_000, 0), payment('p', 107_000), { ...refund('r', 60_000), createdAt: NOW }];
  const read = (entries: readonly LedgerEntry[]) => {
    const whole = wholeOf(null, entries);
    const changed = { ...whole, quotes: canceled, job: { ...whole.job, state: 'declined' as const } };
    const make = entryMaker(readJob(changed, NOW).bundle, whole.business);
    const asked = [...paymentEntries(make), ...refundEntries(make)].map(({ verb, rest }) => `${verb} ${rest}`);
    const jobs = new Map([[changed.job.id, changed.job]]);
    const owedBy = (of: typeof canceled) => moneyOwed({ entries: whole.ledger, jobs, quotes: of }, [], whole.business.timeZone, NOW)[0];
    const owed = owedBy(canceled);
    // Without a canceled contract, a declined job has nothing to credit, as everywhere else.
    expect(owedBy([])?.overInvoicedMinor ?? 0).toBe(jobMoney({ ...changed, quotes: [] }, NOW).overInvoicedMinor);
    const own = jobMoney(changed, NOW);
    return { answer: moneyAnswer(own, money), first: creditFirst(own, money), asked, owed, own, changed };
  };
  const refunded = read(deposit);
  const first = '$600.00 was refunded and is still invoiced. Record a credit of $600.00 first.';
  expect(refunded.answer).toBe(`The contract was canceled. $470.00 is left of what was received. ${first}`);
  expect([refunded.first, refunded.own.overInvoicedMinor]).toEqual([first, 60_000]);
  expect(refunded.asked).toEqual(['Record a credit of $600.00 for the Lindqvists. It was refunded.']);
  expect(refunded.owed).toMatchObject({ overdueMinor: 0, daysOverdue: 0, overInvoicedMinor: 60_000 });
  expect(refunded.owed === undefined ? '' : statusWords(refunded.owed, money)).toBe('Credit of $600.00 to record');
  const settled = read([...deposit, credit('c', 'credit', 60_000)]);
  expect(settled.answer).toBe(
    'The contract was canceled. $470.00 is left of what was received. Nothing is left to settle. Archive the job.',
  );
  expect([settled.first, settled.asked, settled.owed]).toEqual([null, [], undefined]);
  // The other way around: the credit first, then the refund of what it leaves to the customer.
  const credited = read([bill(107_000, 0), payment('p', 107_000), credit('c', 'credit', 60_000)]);
  expect(credited.answer).toContain('$600.00 belongs to the customer. Pay it back and record the refund.');
});

it('asks for what was refunded beyond receipts, once the payment it came from is voided', () => {
  const returned = { ...payment('p', 50_000), voidedAt: NOW, voidReason: 'Returned by the bank' };
  const entries = [bill(total, 0), returned, refund('r', 30_000)];
  // By hand: the invoice is open, nothing is received, and 300.00 was refunded.
  expect(jobMoney(wholeOf(null, entries), NOW).account).toMatchObject({
    openMinor: total + 30_000,
    dueMinor: total + 30_000,
    overRefundedMinor: 30_000,
    onAccountMinor: 0,
  });
  expect(said(null, [returned, refund('r', 30_000)])[1]).toBe('Due');
});

it('lets a job be finished once it is handed over and nothing is left to invoice, to collect, to credit or to pay back', () => {
  const HANDED = '2026-05-10T15:00:00.000Z';
  const canFinish = (handedOverAt: string | null, entries: readonly LedgerEntry[]) => {
    const whole = wholeOf(handedOverAt, entries);
    const money = jobMoney(whole, NOW);
    expect(jobStanding(readJob(whole, NOW).bundle, whole.business, NOW).canFinish).toBe(money.canFinish);
    return money.canFinish;
  };
  const paid = [bill(total, 0), payment('p', total)];
  expect([canFinish(HANDED, paid), canFinish(null, paid)]).toEqual([true, false]);
  // Nothing is invoiced yet; a part is open; a deduction is not credited; what was paid beyond the total is not paid back.
  expect(
    [
      [],
      [bill(total, 0), payment('p', total - 1)],
      [bill(total + 50_000, 0), payment('p', total + 50_000)],
      [bill(total, 0), payment('p', total + 100)],
    ].map((of) => canFinish(HANDED, of)),
  ).toEqual([false, false, false, false]);
  const finished = { ...wholeOf(HANDED, paid), job: { ...wholeOf(HANDED, paid).job, state: 'finished' as const } };
  expect(jobMoney(finished, NOW).canFinish).toBe(false);
});

it('makes no paper that asks for money while a credit is to be recorded, and says what to do', async () => {
  const whole = wholeOf(null, [bill(total + 50_000, 0)]);
  const read = jobMoney(whole, NOW);
  const [late] = read.account.invoices;
  if (late === undefined) throw new Error('an invoice');
  const refused = { ok: false, text: moneyAnswer(read, money) };
  expect(refused.text).toContain('Record a credit of $500.00 first.');
  expect(await moneyPapers(whole, read).statement()).toEqual(refused);
  expect(await moneyPapers(whole, read).overdue(late)).toEqual(refused);
  expect(creditFirst(read, money)).toBe(refused.text);
  expect(creditFirst(jobMoney(wholeOf(null, [bill(total + 50_000, 0), orderCredit('c', 50_000)]), NOW), money)).toBeNull();
});

it('counts the retainage of a finished job from its handover', () => {
  const entries = [invoice('a', 1, 10_000, { retainageMinor: 1_000, dueOn: '2026-03-01' }), payment('p', 9_000)];
  const rooms = found.job.rooms.map((room) => ({ ...room, handedOverAt: '2026-04-30T15:00:00.000Z' }));
  const owed = (handed: boolean) =>
    moneyOwed(
      { entries, jobs: new Map([['job-1', { ...found.job, rooms: handed ? rooms : found.job.rooms }]]), quotes: [] },
      [],
      'America/New_York',
      NOW,
    );
  expect(owed(true)).toMatchObject([{ overdueMinor: 1_000, daysOverdue: 10 }]);
  expect(owed(false)).toMatchObject([{ overdueMinor: 0, daysOverdue: 0, account: { retainedMinor: 1_000 } }]);
});

it('says of an invoice with sales tax what to do for an exempt customer, and again where its credit was voided', () => {
  const tax = { taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor: 100_000, taxMinor: 7_000 };
  const words = (entries: readonly LedgerEntry[]) => invoiceTaxWords({ taxes: [tax] }, entries, money);
  expect(words([])).toBe(
    'The total includes $70.00 of sales tax, as in the contract. If the customer became exempt, issue the invoice, then record a credit with “Sales tax only”.',
  );
  const exempt = { ...credit('c', 'credit', 7_000), taxes: [tax], voidedAt: NOW };
  expect(words([exempt])).toContain('Sales tax was credited on this job.');
  expect(words([credit('d', 'credit', 7_000)])).not.toContain('was credited');
  expect(invoiceTaxWords({ taxes: [] }, [exempt], money)).toBeNull();
});
