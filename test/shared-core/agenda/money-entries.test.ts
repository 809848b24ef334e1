import { expect, it } from 'vitest';
import { entryMaker } from '../../../shared-core/agenda/entry-maker.ts';
import { invoiceEntries, paymentEntries } from '../../../shared-core/agenda/money-entries.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { jobMoney, moneyDays } from '../../../shared-core/standing/job-money.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { jobStanding } from '../../../shared-core/standing/room-standing.ts';
import { sampleAt } from '../../sample-at.ts';
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
  expect(invoiceEntries(unbilled)[0]).toMatchObject({ kind: 'invoice-ready', verb: 'Invoice' });
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
  const { business } = whole;
  expect(jobStanding(readJob(whole, NOW).bundle, business, NOW).paid).toBe(jobMoney(whole, NOW).isPaid);
});
