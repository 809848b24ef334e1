/** The sample's money: one job with its deposit paid and its costs entered, one whose deposit is overdue after a part payment. */
import type { Business } from '../book/business.ts';
import type { Invoice, LedgerEntry } from '../book/ledger.ts';
import type { Quote } from '../book/quote.ts';
import { contractOfJob } from '../ledger/job-contract.ts';
import { invoicesToIssue, nextInvoiceNumber } from '../ledger/next-invoice.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { SampleClock } from './sample-time.ts';

const ACCEPTED = { accepted: true, poured: false, handedOver: false, thirtyDaysPast: false };

type Entry = Omit<LedgerEntry, 'id' | 'createdAt' | 'changedAt' | 'deletedAt' | 'note' | 'voidedAt' | 'voidReason'>;

/** Ledger entries around the sample's day, for the quotes that were accepted. */
export function sampleLedger(quotes: readonly Quote[], business: Business, clock: SampleClock): LedgerEntry[] {
  const entries: LedgerEntry[] = [];
  const day = (days: number): string => dayOfInstant(clock.instantAt(days, '12:00'), business.timeZone);
  const add = (days: number, entry: Entry): string => {
    const instant = clock.instantAt(days, '17:30');
    const id = `sample-ledger-${String(entries.length + 1).padStart(2, '0')}`;
    // Each entry passes the ledger's own schema; the spread loses which of its kinds it is.
    entries.push({
      id,
      createdAt: instant,
      changedAt: instant,
      deletedAt: null,
      note: '',
      voidedAt: null,
      voidReason: '',
      ...entry,
    } as LedgerEntry);
    return id;
  };
  const deposit = (jobId: string, days: number, title: string): { id: string; totalMinor: number } => {
    const contract = contractOfJob(quotes.filter((quote) => quote.jobId === jobId));
    const draft =
      contract === null
        ? undefined
        : invoicesToIssue(
            contract,
            entries.filter((e) => e.jobId === jobId),
            ACCEPTED,
          )[0];
    if (contract === null || draft === undefined) throw new RangeError(`${jobId} has no deposit to invoice.`);
    const onDay = day(days);
    const invoices = entries.filter((e): e is Invoice => e.kind === 'invoice');
    const number = nextInvoiceNumber(invoices, Number(onDay.slice(0, 4)));
    const { purpose, stageName, netMinor, taxes, totalMinor } = draft;
    const terms = { onDay, dueOn: addDaysToDay(onDay, 7), retainageMinor: 0, title, currency: business.currency };
    const id = add(days, { kind: 'invoice', jobId, purpose, stageName, netMinor, taxes, totalMinor, ...number, ...terms } as Entry);
    return { id, totalMinor };
  };
  const { ownHourMinor, helperHourMinor, travelKmMinor } = business.costs;
  const abara = 'sample-job-abara';
  const first = deposit(abara, -22, 'Floor leveling, back hall, dining room, and living room');
  add(-19, {
    kind: 'payment',
    jobId: abara,
    onDay: day(-19),
    amountMinor: first.totalMinor,
    method: 'check',
    reference: '2214',
    invoiceId: first.id,
  } as Entry);
  const paid = { method: 'card', reference: '', photoIds: [] };
  const line = (text: string, quantity: number, unit: string, amountMinor: number) => ({
    text,
    quantity,
    unit,
    amountMinor,
    materialId: null,
    lot: '',
    expiresOn: null,
  });
  add(-10, {
    kind: 'purchase',
    jobId: abara,
    onDay: day(-10),
    supplier: 'Corner yard',
    category: 'Materials',
    taxMinor: 4_368,
    ...paid,
    lines: [line('Self-leveling underlayment, 50 lb', 18, 'bag', 68_400), line('Primer, 1 gal', 1, 'jug', 4_400)],
  } as Entry);
  const work = (days: number, who: string, task: string, minutes: number) =>
    add(days, {
      kind: 'hours',
      jobId: abara,
      onDay: day(days),
      who,
      paidAs: who === 'Ros Teague' ? 'owner' : 'employee',
      task,
      minutes,
      hourMinor: who === 'Ros Teague' ? ownHourMinor : helperHourMinor,
      readFrom: '',
    } as Entry);
  work(-9, 'Ros Teague', 'Prep', 390);
  work(-8, 'Ros Teague', 'Pour', 210);
  work(-8, 'Bea Lorne', 'Pour', 180);
  work(-6, 'Ros Teague', 'Pour', 240);
  add(-8, {
    kind: 'drive',
    jobId: abara,
    onDay: day(-8),
    purpose: 'To the site and back',
    distanceKm: 38.6,
    kmMinor: travelKmMinor,
  } as Entry);
  const second = deposit('sample-job-lindqvist', -13, 'Floor leveling, sunroom');
  add(-5, {
    kind: 'payment',
    jobId: 'sample-job-lindqvist',
    onDay: day(-5),
    amountMinor: Math.min(50_000, second.totalMinor),
    method: 'transfer',
    reference: 'part payment',
    invoiceId: second.id,
  } as Entry);
  return entries;
}
