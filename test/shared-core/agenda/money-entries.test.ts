import { expect, it } from 'vitest';
import { entryMaker } from '../../../shared-core/agenda/entry-maker.ts';
import { invoiceEntries, paymentEntries } from '../../../shared-core/agenda/money-entries.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { jobMoney, moneyDays } from '../../../shared-core/standing/job-money.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { payment } from '../ledger/entries.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T15:00:00Z';
const business = newBusiness(NOW, 'America/New_York', 'en-US');
const wholeOf = (id: string) => {
  const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === id);
  if (whole === undefined) throw new Error(`the sample has no ${id}`);
  return whole;
};

it('asks for an open invoice on its due day, and for the next one once its payment is ready', () => {
  const whole = wholeOf('sample-job-lindqvist');
  const [invoice] = jobMoney(whole, NOW).account.invoices;
  const make = entryMaker(readJob(whole, NOW).bundle, business);
  const [due] = paymentEntries(make);
  expect(due).toMatchObject({ kind: 'payment-due', verb: 'Collect', toDo: true, allDay: true, opens: { stage: 'money' } });
  expect(due?.rest).toContain(invoice?.invoice.number);
  // The deposit is issued and the floor is not handed over, so nothing else can be invoiced.
  expect(invoiceEntries(make)).toEqual([]);
  const unbilled = entryMaker(readJob({ ...whole, ledger: [] }, NOW).bundle, business);
  const [ready] = invoiceEntries(unbilled);
  expect(ready).toMatchObject({ kind: 'invoice-ready', verb: 'Invoice', dueAt: expect.any(String) });
  // Of what is paid before it is invoiced nothing would be due on the invoice, so it is never late.
  const { totalMinor = 0 } = invoice?.invoice ?? {};
  const entryOf = (paidMinor: number) =>
    invoiceEntries(entryMaker(readJob({ ...whole, ledger: [payment('payment-1', paidMinor)] }, NOW).bundle, business))[0];
  expect(entryOf(totalMinor)).toMatchObject({ verb: 'Invoice', dueAt: null, rest: `${ready?.rest} It is paid already.` });
  expect(entryOf(totalMinor - 1)).toMatchObject({ dueAt: ready?.dueAt, rest: ready?.rest });
});

it('asks for a payment thirty days after the handover on that day', () => {
  const whole = wholeOf('sample-job-abara');
  const [quote] = whole.quotes;
  const [option] = quote?.priced.options ?? [];
  if (quote === undefined || option === undefined) throw new Error('The sample has a contract.');
  const stages = option.stages.slice(0, 1).map((stage) => ({ ...stage, due: 'thirty-days' as const, amountMinor: option.totalMinor }));
  const priced = { ...quote.priced, options: [{ ...option, stages }] };
  const handedOver = (handedOverAt: string | null) => {
    const rooms = whole.job.rooms.map((room) => ({ ...room, handedOverAt }));
    return { ...whole, ledger: [], quotes: [{ ...quote, priced }], job: { ...whole.job, rooms } };
  };
  const entriesOf = (handedOverAt: string | null) =>
    invoiceEntries(entryMaker(readJob(handedOver(handedOverAt), NOW).bundle, business)).map(({ instant }) => instant.slice(0, 10));
  expect(entriesOf(null)).toEqual([]);
  // Thirty days from May 12 is June 11, by the calendar.
  expect(entriesOf('2026-05-12T15:00:00.000Z')).toEqual(['2026-06-11']);
  // Handed over at half past midnight on October 20: thirty days later is November 19, though daylight saving ends in between.
  expect(entriesOf('2026-10-20T04:30:00.000Z')).toEqual(['2026-11-19']);
  // Money offers the invoice from the first minute of that day in New York, as Today asks for it, and not in the last of the day before.
  const isReadyAt = (now: string) => jobMoney(handedOver('2026-05-12T15:00:00.000Z'), now).toIssue.some(({ isReady }) => isReady);
  expect([isReadyAt('2026-06-11T03:59:00.000Z'), isReadyAt('2026-06-11T04:00:00.000Z')]).toEqual([false, true]);
});

it('says which credit is to be recorded before more is collected', () => {
  const whole = wholeOf('sample-job-lindqvist');
  const contract = contractOfJob(whole.quotes);
  const [issued] = jobMoney(whole, NOW).account.invoices;
  if (contract === null || issued === undefined) throw new Error('The sample has an invoice of the contract.');
  const notesOf = (totalMinor: number) => {
    const ledger = [{ ...issued.invoice, totalMinor }];
    return paymentEntries(entryMaker(readJob({ ...whole, ledger }, NOW).bundle, business)).map(({ note }) => note ?? '');
  };
  expect(notesOf(contract.totalMinor + 50_000)).toEqual([expect.stringContaining('Record a credit of $500.00 first.')]);
  expect(notesOf(contract.totalMinor)[0]).not.toContain('credit');
});

it('lets no payment depend on a floor that is not completely placed', () => {
  const whole = wholeOf('sample-job-abara');
  expect(moneyDays(whole).poured).not.toBeNull();
  const [pour] = whole.pours;
  if (pour === undefined) throw new Error('nothing is poured');
  // A log that stops after its first batch, so that the rest of the floor is open.
  const [first] = whole.pourEvents.filter((e) => e.pourId === pour.id && e.kind === 'placed');
  const cut = whole.pourEvents.filter((e) => e.pourId !== pour.id || e.kind !== 'placed' || e === first);
  expect(moneyDays({ ...whole, pourEvents: cut }).poured).toBeNull();
});
