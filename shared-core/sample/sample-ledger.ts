/** The sample's accounts at every stage from an overdue deposit to a closed job, with costs, hours, and stock. Invented. */
import type { Business } from '../book/business.ts';
import type { Job } from '../book/job.ts';
import type { Invoice, LedgerEntry } from '../book/ledger.ts';
import type { Material } from '../book/material.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import type { Property } from '../book/property.ts';
import type { Quote } from '../book/quote.ts';
import { contractOfJob } from '../ledger/job-contract.ts';
import { invoicesToIssue, type Milestones, nextInvoiceNumber } from '../ledger/next-invoice.ts';
import { pourUses } from '../ledger/stock.ts';
import { containerOf } from '../material/containers.ts';
import { addDaysToDay, daysBetween } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { acceptedQuote, contractBasis } from '../price/change-order.ts';
import { priceOnDay } from '../price/price-on-day.ts';
import { FINISHED, type FinishedJob, HANDED_OVER_AFTER, QUOTED_BEFORE } from './finished-jobs.ts';
import type { SampleClock } from './sample-time.ts';

export type LedgerSources = {
  readonly quotes: readonly Quote[];
  readonly business: Business;
  readonly materials: readonly Material[];
  readonly properties: readonly Property[];
  readonly jobs: readonly Job[];
  readonly pours: readonly Pour[];
  readonly events: readonly PourEvent[];
};

const ACCEPTED: Milestones = { accepted: true, poured: false, handedOver: false, thirtyDaysPast: false };
const HANDED_OVER: Milestones = { accepted: true, poured: true, handedOver: true, thirtyDaysPast: false };
const SUPPLIER = 'Tarrow Falls Supply';
/** Shelf life from the day of purchase. */
const SHELF_DAYS = 180;
/** Bags bought beyond those needed for a pour. */
const SPARE_BAGS = 1;

type Entry = Omit<LedgerEntry, 'id' | 'createdAt' | 'changedAt' | 'deletedAt' | 'note' | 'voidedAt' | 'voidReason' | 'onDay'>;
type Add = (days: number, entry: Entry) => string;
type Book = LedgerSources & { readonly entries: LedgerEntry[]; readonly add: Add; readonly clock: SampleClock };

/** Issues the next invoice of a job; it is due a week later. */
function bill(
  { quotes, business, entries, add, clock }: Book,
  jobId: string,
  days: number,
  milestones: Milestones,
): Pick<Invoice, 'id' | 'totalMinor'> {
  const jobQuotes = quotes.filter((quote) => quote.jobId === jobId);
  const contract = contractOfJob(jobQuotes);
  const [draft] =
    contract === null
      ? []
      : invoicesToIssue(
          contract,
          entries.filter((e) => e.jobId === jobId),
          milestones,
        );
  if (draft === undefined) throw new RangeError(`${jobId} has nothing to invoice.`);
  const onDay = clock.day(days);
  const number = nextInvoiceNumber(
    entries.filter((e): e is Invoice => e.kind === 'invoice'),
    Number(onDay.slice(0, 4)),
  );
  const { purpose, stageName, key, netMinor, taxes, totalMinor } = draft;
  const accepted = acceptedQuote(jobQuotes);
  const rooms = accepted === null ? [] : contractBasis(accepted).rooms.map(({ name }) => name.toLowerCase());
  const terms = {
    dueOn: addDaysToDay(onDay, 7),
    retainageMinor: 0,
    title: `Floor leveling, ${rooms.join(', ')}`,
    currency: business.currency,
  };
  const id = add(days, { kind: 'invoice', jobId, purpose, stageName, key, netMinor, taxes, totalMinor, ...number, ...terms } as Entry);
  return { id, totalMinor };
}

const pay = (
  { add }: Book,
  jobId: string,
  days: number,
  { amountMinor, invoiceId, reference }: { readonly amountMinor: number; readonly invoiceId: string; readonly reference: string },
): string =>
  add(days, {
    kind: 'payment',
    jobId,
    amountMinor,
    method: reference.startsWith('T') ? 'transfer' : 'check',
    reference,
    invoiceId,
  } as Entry);

/** The bags of one pour, bought the day before under the lot in its log, and a jug of its room's primer. */
function buy({ add, business, materials, jobs, events }: Book, pour: Pour, days: number): void {
  const bag = materials.find((m) => m.id === pour.materialId);
  const room = jobs.find((job) => job.id === pour.jobId)?.rooms.find(({ roomId }) => pour.roomIds.includes(roomId));
  const jug = materials.find((m) => m.id === room?.primerId);
  if (bag === undefined || jug === undefined) throw new RangeError('The sample’s materials are missing.');
  const onDay = dayOfInstant(pour.startedAt ?? '', business.timeZone);
  const lot = events.find((e) => e.pourId === pour.id && e.kind === 'lot');
  const minor = (material: Material): number => priceOnDay(material, onDay)?.minor ?? 0;
  const used = pourUses([pour], events, () => onDay)[0]?.containers ?? 0;
  const bags = Math.max(pour.bagsOnSite, used) + SPARE_BAGS;
  const net = bags * minor(bag) + minor(jug);
  const rate = business.taxRates[0]?.rate ?? 0;
  add(days, {
    ...{ kind: 'purchase', jobId: pour.jobId, supplier: SUPPLIER, category: 'Materials', taxMinor: Math.round(net * rate) },
    ...{ method: 'card', reference: '', photoIds: [] },
    lines: [
      {
        ...{ text: bag.name, quantity: bags, unit: containerOf(bag).name, amountMinor: bags * minor(bag) },
        ...{ materialId: bag.id, lot: lot?.kind === 'lot' ? lot.lot : '', expiresOn: addDaysToDay(onDay, SHELF_DAYS) },
      },
      { text: jug.name, quantity: 1, unit: containerOf(jug).name, amountMinor: minor(jug), materialId: null, lot: '', expiresOn: null },
    ],
  } as Entry);
}

function drive({ add, business, properties, jobs }: Book, jobId: string, days: number): void {
  const property = properties.find(({ id }) => id === jobs.find((job) => job.id === jobId)?.propertyId);
  const distanceKm = Math.round((property?.travelKm ?? 0) * 20) / 10;
  const purpose = `Round trip to ${property?.address.line ?? ''}`;
  add(days, { kind: 'drive', jobId, purpose, distanceKm, kmMinor: business.costs.travelKmMinor } as Entry);
}

function work(
  { add, business }: Book,
  jobId: string,
  days: number,
  { who, task, minutes }: { readonly who: string; readonly task: string; readonly minutes: number },
): void {
  const isOwner = who === business.ownerName;
  const { ownHourMinor, helperHourMinor } = business.costs;
  const pay = { paidAs: isOwner ? 'owner' : 'employee', hourMinor: isOwner ? ownHourMinor : helperHourMinor };
  add(days, { kind: 'hours', jobId, who, ...pay, task, minutes, readFrom: '' } as Entry);
}

/** Hours of a finished job: as planned, except for removing the old floor; the pour on its day, the rest the day before. */
function workFinished(book: Book, job: FinishedJob): void {
  const quote = acceptedQuote(book.quotes.filter(({ jobId }) => jobId === job.jobId));
  for (const { task, name, ownHours, helperHours } of quote === null ? [] : contractBasis(quote).planned.hours) {
    const isPour = task === 'pour' || task === 'set-up';
    const minutes = (hours: number): number => Math.round(hours * (task === 'remove' ? job.slower : 1) * 60);
    const days = job.pourDays - (isPour ? 0 : 1);
    if (minutes(ownHours) > 0) work(book, job.jobId, days, { who: book.business.ownerName, task: name, minutes: minutes(ownHours) });
    if (minutes(helperHours) > 0) work(book, job.jobId, days, { who: 'Bea Lorne', task: name, minutes: minutes(helperHours) });
  }
}

/** A finished job from its deposit to the end of its account. */
function finishedAccount(book: Book, job: FinishedJob): void {
  const { jobId, pourDays, ending } = job;
  const [ofDeposit, ofFirst, ofRest = ''] = job.references;
  const deposit = bill(book, jobId, pourDays - QUOTED_BEFORE + 2, ACCEPTED);
  pay(book, jobId, pourDays - QUOTED_BEFORE + 5, { amountMinor: deposit.totalMinor, invoiceId: deposit.id, reference: ofDeposit });
  const disposal = {
    text: 'Old flooring, one trailer load',
    quantity: 1,
    unit: '',
    amountMinor: 4_500,
    materialId: null,
    lot: '',
    expiresOn: null,
  };
  book.add(pourDays - 1, {
    ...{ kind: 'purchase', jobId, supplier: 'County transfer station', category: 'Disposal', taxMinor: 0, lines: [disposal] },
    ...{ method: 'cash', reference: '', photoIds: [] },
  });
  drive(book, jobId, pourDays - 1);
  drive(book, jobId, pourDays);
  workFinished(book, job);
  const balance = bill(book, jobId, pourDays + HANDED_OVER_AFTER, HANDED_OVER);
  const paidOn = pourDays + HANDED_OVER_AFTER + 6;
  if (ending === 'overdue') {
    pay(book, jobId, paidOn, { amountMinor: Math.round(balance.totalMinor / 2), invoiceId: balance.id, reference: ofFirst });
    return;
  }
  const half = Math.floor(balance.totalMinor / 2);
  pay(book, jobId, paidOn, { amountMinor: half, invoiceId: balance.id, reference: ofFirst });
  pay(book, jobId, paidOn + 8, { amountMinor: balance.totalMinor - half, invoiceId: balance.id, reference: ofRest });
  if (ending === 'refunded') {
    const reason = 'Scratch on the door casing';
    book.add(paidOn + 12, { kind: 'credit', jobId, amountMinor: 6_000, taxes: [], invoiceId: balance.id, reason } as Entry);
    book.add(paidOn + 12, { kind: 'refund', jobId, amountMinor: 6_000, method: 'check', reference: '501' } as Entry);
  }
}

/** Ledger entries around the sample's day. */
export function sampleLedger(sources: LedgerSources, clock: SampleClock): LedgerEntry[] {
  const entries: LedgerEntry[] = [];
  const add: Add = (days, entry) => {
    // The evening's entries, after an acceptance that came that day.
    const instant = clock.instantAt(days, '18:30');
    const id = `sample-ledger-${String(entries.length + 1).padStart(3, '0')}`;
    const stamps = { id, createdAt: instant, changedAt: instant, deletedAt: null, note: '', voidedAt: null, voidReason: '' };
    // Each entry passes the ledger's own schema; the spread loses its member of the union.
    entries.push({ ...stamps, onDay: clock.day(days), ...entry } as LedgerEntry);
    return id;
  };
  const book: Book = { ...sources, entries, add, clock };
  const { business, pours } = sources;
  const daysOf = (pour: Pour): number => daysBetween(clock.day(0), dayOfInstant(pour.startedAt ?? '', business.timeZone));
  for (const job of FINISHED) finishedAccount(book, job);
  for (const pour of pours) buy(book, pour, daysOf(pour) - 1);
  const abara = 'sample-job-abara';
  const first = bill(book, abara, -22, ACCEPTED);
  pay(book, abara, -19, { amountMinor: first.totalMinor, invoiceId: first.id, reference: '2214' });
  work(book, abara, -9, { who: 'Ros Teague', task: 'Remove old flooring', minutes: 390 });
  work(book, abara, -8, { who: 'Ros Teague', task: 'Pour', minutes: 210 });
  work(book, abara, -8, { who: 'Bea Lorne', task: 'Pour', minutes: 180 });
  work(book, abara, -6, { who: 'Ros Teague', task: 'Pour', minutes: 240 });
  drive(book, abara, -8);
  const second = bill(book, 'sample-job-lindqvist', -13, ACCEPTED);
  pay(book, 'sample-job-lindqvist', -5, { amountMinor: Math.min(50_000, second.totalMinor), invoiceId: second.id, reference: 'T-3391' });
  const [bag] = pours;
  if (bag !== undefined)
    add(-3, { kind: 'stock', jobId: null, what: 'spoiled', materialId: bag.materialId, lot: '', expiresOn: null, containers: 1 } as Entry);
  return entries;
}
