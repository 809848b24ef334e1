/** Lists of jobs, their rooms and signed prep lines, quotes with their lines, taxes and payments, change orders, dates and papers. */
import { roomsOnRecord } from '../../book/job.ts';
import { minuteOfInstant } from '../../measure/moment.ts';
import { standingOption } from '../../price/quoted-price.ts';
import { warrantyOf } from '../../standing/warranty-period.ts';
import { sentWords } from '../sent-words.ts';
import { type DataTable, dataTable, day, moments, money, number, text } from './data-table.ts';
import { inUse, type ListRows, type Names } from './list-rows.ts';

function jobLists(rows: ListRows, names: Names): readonly DataTable[] {
  const jobs = inUse(rows.jobs);
  const [business] = rows.business;
  const sold = new Map(inUse(rows.quotes).flatMap((quote) => (quote.state === 'accepted' ? [[quote.jobId, [quote]]] : [])));
  const zone = (job: { readonly propertyId: string }): string => names.zoneOfProperty(job.propertyId);
  const jobZone = ({ job }: { readonly job: { readonly propertyId: string } }): string => zone(job);
  const jobRooms = jobs.flatMap((job) => job.rooms.map((room) => ({ job, room })));
  const onRecord = jobs.flatMap((job) => roomsOnRecord(job).map((room) => ({ job, room })));
  const signed = onRecord.flatMap(({ job, room }) => room.signed.map((line) => ({ job, room, line })));
  const overrides = onRecord.flatMap(({ job, room }) => room.overrides.map((line) => ({ job, room, line })));
  type Job = (typeof jobs)[number];
  type JobRoom = (typeof jobRooms)[number];
  return [
    dataTable('jobs', 'One row per job.', jobs, [
      text('Job ID', (j) => j.id),
      text('Job', (j) => j.number),
      text('Title', (j) => j.title),
      text('Customer ID', (j) => j.customerId),
      text('Customer', (j) => names.customer(j.customerId)),
      text('Property ID', (j) => j.propertyId),
      text('Property', (j) => names.property(j.propertyId)),
      text('State', (j) => j.state),
      text('Rooms', (j) => names.rooms(j.rooms.map((r) => r.roomId))),
      text('Crew', (j) => j.crewNames.join('; ')),
      ...moments<Job>('Created', zone, (j) => j.createdAt),
      ...moments<Job>('Prep visit', zone, (j) => j.prepVisitAt),
      day('Quote promised on', (j) => j.quotePromisedOn),
      ...moments<Job>('Handover', zone, (j) => j.handoverAt),
      day('Warranty until', (job) =>
        business === undefined
          ? null
          : warrantyOf({ business, job, property: { timeZone: zone(job) }, quotes: sold.get(job.id) ?? [] }).ends,
      ),
      text('Notes', (j) => j.notes),
    ]),
    dataTable('job rooms', 'One row per room of a job, with what is planned and when.', jobRooms, [
      text('Job ID', ({ job }) => job.id),
      text('Job', ({ job }) => job.number),
      text('Room ID', ({ room }) => room.roomId),
      text('Room', ({ room }) => names.rooms([room.roomId])),
      text('Flooring', ({ room }) => room.flooring),
      text('Material', ({ room }) => names.material(room.materialId)),
      text('Primer', ({ room }) => names.material(room.primerId)),
      text('Finish', ({ room }) => room.level.mode),
      ...moments<JobRoom>('Primed', jobZone, ({ room }) => room.primedAt),
      ...moments<JobRoom>('Pour planned', jobZone, ({ room }) => room.pourAt),
      ...moments<JobRoom>('Handed over', jobZone, ({ room }) => room.handedOverAt),
      text('Handed over to', ({ room }) => room.handedOverTo),
      day('Flooring laid', ({ room }) => room.flooringLaidOn ?? null),
    ]),
    dataTable('prep lines', 'One row per signed prep line.', signed, [
      text('Job', ({ job }) => job.number),
      text('Room', ({ room }) => names.rooms([room.roomId])),
      text('Line', ({ line }) => line.signedText),
      text('Line key', ({ line }) => line.itemKey),
      text('Initials', ({ line }) => line.initials),
      text('Note', ({ line }) => line.note),
      ...moments<(typeof signed)[number]>('Done', jobZone, ({ line }) => line.doneAt),
      ...moments<(typeof signed)[number]>('Voided', jobZone, ({ line }) => line.withdrawnAt),
      text('Photo IDs', ({ line }) => line.photoIds.join('; ')),
    ]),
    dataTable('overridden holds', 'One row per hold that was overridden, with the reason.', overrides, [
      text('Job', ({ job }) => job.number),
      text('Room', ({ room }) => names.rooms([room.roomId])),
      text('Hold', ({ line }) => line.hold),
      text('Hold key', ({ line }) => line.key),
      text('Reason', ({ line }) => line.why),
      text('Initials', ({ line }) => line.initials),
      text('Document', ({ line }) => line.document?.kind),
      text('Document number', ({ line }) => line.document?.number),
      text('Issued by', ({ line }) => line.document?.issuedBy),
      day('Dated', ({ line }) => line.document?.datedOn),
      ...moments<(typeof overrides)[number]>('Overridden', jobZone, ({ line }) => line.instant),
    ]),
  ];
}

function quoteLists(rows: ListRows, names: Names): readonly DataTable[] {
  const quotes = inUse(rows.quotes);
  const options = quotes.flatMap((quote) => quote.priced.options.map((option) => ({ quote, option })));
  const lines = options.flatMap((quoted) => quoted.option.lines.map((line) => ({ ...quoted, line })));
  const taxes = options.flatMap((quoted) => quoted.option.taxes.map((tax) => ({ ...quoted, tax })));
  const stages = options.flatMap((quoted) => quoted.option.stages.map((stage) => ({ ...quoted, stage })));
  const orders = quotes.flatMap((quote) => quote.orders.map((order) => ({ quote, order })));
  type Quote = (typeof quotes)[number];
  const quoteZone = ({ timeZone }: { readonly timeZone: string }): string => timeZone;
  const orderZone = ({ quote }: { readonly quote: Quote }): string => quoteZone(quote);
  const ofQuote = <Row extends { readonly quote: Quote }>() => [
    text<Row>('Quote ID', ({ quote }) => quote.id),
    text<Row>('Job', ({ quote }) => names.job(quote.jobId)),
    number<Row>('Revision', 0, ({ quote }) => quote.revision),
  ];
  const ofOption = <Row extends { readonly quote: Quote; readonly option: { readonly name: string } }>() => [
    ...ofQuote<Row>(),
    text<Row>('Option', ({ option }) => option.name),
  ];
  return [
    dataTable('quotes', 'One row per issued quote, with the accepted or suggested option.', quotes, [
      text('Quote ID', (q) => q.id),
      text('Job ID', (q) => q.jobId),
      text('Job', (q) => names.job(q.jobId)),
      text('Customer', (q) => names.customerOfJob(q.jobId)),
      number('Revision', 0, (q) => q.revision),
      text('State', (q) => q.state),
      ...moments<Quote>('Issued', quoteZone, (q) => q.issuedAt),
      day('Valid until', (q) => q.validUntil),
      ...moments<Quote>('Decided', quoteZone, (q) => q.history.findLast((h) => h.state === 'accepted' || h.state === 'declined')?.instant),
      text('Option', (q) => standingOption(q).name),
      money('Subtotal', (q) => [standingOption(q).netMinor, q.currency], 'After the discount, before tax.'),
      money('Discount', (q) => [standingOption(q).discountMinor, q.currency]),
      money('Tax', (q) => [standingOption(q).taxMinor, q.currency]),
      money('Total', (q) => [standingOption(q).totalMinor, q.currency]),
      money('Deposit', (q) => [standingOption(q).depositMinor, q.currency]),
      text('Currency', (q) => q.currency, 'Three letters, ISO 4217.'),
    ]),
    dataTable('quote lines', 'One row per priced line of every option.', lines, [
      ...ofOption<(typeof lines)[number]>(),
      text(
        'Room',
        ({ line, option }) =>
          option.rooms.find(({ roomId }) => roomId === line.roomId)?.name ?? names.rooms(line.roomId === null ? [] : [line.roomId]),
      ),
      text('Description', ({ line }) => line.name),
      text('Quantity', ({ line }) => line.quantity),
      money('Price', ({ line, quote }) => [line.priceMinor, quote.currency]),
      text('Currency', ({ quote }) => quote.currency),
    ]),
    dataTable('quote taxes', 'One row per tax of every option.', taxes, [
      ...ofOption<(typeof taxes)[number]>(),
      text('Tax', ({ tax }) => tax.name),
      number('Rate (%)', 4, ({ tax }) => tax.rate * 100),
      money('Taxed amount', ({ tax, quote }) => [tax.baseMinor, quote.currency]),
      money('Tax amount', ({ tax, quote }) => [tax.taxMinor, quote.currency]),
      text('Currency', ({ quote }) => quote.currency),
    ]),
    dataTable('quote payments', 'One row per payment of every option’s schedule.', stages, [
      ...ofOption<(typeof stages)[number]>(),
      text('Payment', ({ stage }) => stage.name),
      text('Due', ({ stage }) => stage.due),
      number('Share (%)', 4, ({ stage }) => stage.share * 100),
      money('Amount', ({ stage, quote }) => [stage.amountMinor, quote.currency]),
      text('Currency', ({ quote }) => quote.currency),
    ]),
    dataTable('change orders', 'One row per change order.', orders, [
      ...ofQuote<(typeof orders)[number]>(),
      number('Change order', 0, ({ order }) => order.number),
      text('State', ({ order }) => order.state),
      text('Reason', ({ order }) => order.reason),
      text('Work', ({ order }) => order.work),
      money('Subtotal', ({ order, quote }) => [order.netMinor, quote.currency]),
      money('Total', ({ order, quote }) => [order.totalMinor, quote.currency]),
      text('Currency', ({ quote }) => quote.currency),
      number('Added days', 0, ({ order }) => order.addedDays),
      ...moments<(typeof orders)[number]>('Issued', orderZone, ({ order }) => order.issuedAt),
      ...moments<(typeof orders)[number]>('Decided', orderZone, ({ order }) => order.decidedAt),
      text('Decided by', ({ order }) => order.decidedBy),
    ]),
  ];
}

const ON_SITE = 'Each with its time by the clock on site.';

function dateLists(rows: ListRows, names: Names): readonly DataTable[] {
  const [visits, documents, photos, entries] = [inUse(rows.visits), inUse(rows.documents), inUse(rows.photos), inUse(rows.calendarEntries)];
  const localOf = (row: { readonly jobId: string }, instant: string): string => minuteOfInstant(instant, names.rowZone(row));
  return [
    dataTable('visits', 'One row per visit.', visits, [
      text('Visit ID', (v) => v.id),
      text('Job', (v) => names.job(v.jobId)),
      text('Rooms', (v) => names.rooms(v.roomIds)),
      text('Kind', (v) => v.kind),
      text('Title', (v) => v.title),
      ...moments<(typeof visits)[number]>('Starts', names.rowZone, (v) => v.instant),
      number('Length (min)', 0, (v) => v.minutes),
      ...moments<(typeof visits)[number]>('Done', names.rowZone, (v) => v.doneAt),
      ...moments<(typeof visits)[number]>('Canceled', names.rowZone, (v) => v.cancelledAt),
      text('Cause', (v) => v.cause),
      text('Fix', (v) => v.fix),
      text('Notes', (v) => v.notes),
    ]),
    dataTable('documents', 'One row per document that was made.', documents, [
      text('Document ID', (d) => d.id),
      text('Job', (d) => names.job(d.jobId)),
      text('Kind', (d) => d.kind),
      number('Revision', 0, (d) => d.revision),
      text('Title', (d) => d.title),
      ...moments<(typeof documents)[number]>('Made', names.rowZone, (d) => d.madeAt),
      text('SHA-256 of the PDF', (d) => d.sha256),
      text('Sent', (d) => d.sent.map((sent) => `${localOf(d, sent.instant)} ${sentWords(sent)}`).join('; '), ON_SITE),
      text(
        'Signed by',
        (d) => d.signatures.map(({ name, role, instant }) => `${name} (${role.replace('-', ' ')}) ${localOf(d, instant)}`).join('; '),
        ON_SITE,
      ),
    ]),
    dataTable('photos', 'One row per photo.', photos, [
      text('Photo ID', (p) => p.id),
      text('Job', (p) => names.job(p.jobId)),
      text('Room', (p) => names.rooms(p.roomId === null ? [] : [p.roomId])),
      text('Caption', (p) => p.caption),
      ...moments<(typeof photos)[number]>('Taken', names.rowZone, (p) => p.takenAt),
      number('Width (px)', 0, (p) => p.widthPx),
      number('Height (px)', 0, (p) => p.heightPx),
      text('SHA-256', (p) => p.sha256),
    ]),
    dataTable('calendar entries', 'One row per entry that a calendar file has held.', entries, [
      text('UID', (e) => e.uid),
      text('Job', (e) => names.job(e.jobId)),
      number('Sequence', 0, (e) => e.sequence),
      text('State', (e) => (e.cancelled ? 'canceled' : 'confirmed')),
      text('Note', (e) => e.note),
      ...moments<(typeof entries)[number]>('Last sent', names.rowZone, (e) => e.lastSentAt),
    ]),
  ];
}

/** The lists of jobs, quotes, dates and papers. */
export function workLists(rows: ListRows, names: Names): readonly DataTable[] {
  return [...jobLists(rows, names), ...quoteLists(rows, names), ...dateLists(rows, names)];
}
