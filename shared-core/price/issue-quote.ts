/** Issuing a quote: a numbered revision with its prices, its holds and the records it came from. */
import type { Customer } from '../book/customer.ts';
import { frozenSchema, type Frozen, type Quote } from '../book/quote.ts';
import { inventedCompany } from '../book/sample-company.ts';
import { SCHEMA_VERSION } from '../book/tables.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { Parsed } from '../measure/parsed.ts';
import { estimateJob, type EstimateRecords } from './estimate-job.ts';
import { quotedPrice, suggestedOption } from './quoted-price.ts';

/**
 * The records of a quote as they are now, and no others: the job's own rooms, and the data sheets that the job, its
 * options and its sundries use.
 */
export function freeze(records: EstimateRecords & { readonly customer: Customer }): Frozen {
  const { business, customer, property, job } = records;
  const roomIds = new Set(job.rooms.map((room) => room.roomId));
  const used = new Set([
    ...job.rooms.flatMap((room) => [room.materialId, room.primerId, room.moistureSystemId]),
    ...job.estimate.options.flatMap((option) => option.rooms.map((room) => room.materialId)),
  ]);
  const rooms = records.rooms.filter((room) => roomIds.has(room.id));
  const materials = records.materials.filter(
    (material) => used.has(material.id) || (material.powder === null && material.primer.length === 0 && material.deletedAt === null),
  );
  // Parsed again, so that the frozen record shares no object with the live ones.
  return frozenSchema.parse({ version: SCHEMA_VERSION, business, customer, property, rooms, job, materials });
}

/** Message once a revision is accepted: it is the contract. */
export const QUOTE_IS_ACCEPTED = 'The quote is accepted. Write a change order for what changed.';

/** Message while the property has no street address, which a contract needs. */
export const NO_ADDRESS = 'Enter the address of the work.';

/** The last day a quote issued now is valid, by the job's setting or the business's. */
export function validUntil({ business, job }: Pick<EstimateRecords, 'business' | 'job'>, instant: string): string {
  return addDaysToDay(dayOfInstant(instant, business.timeZone), job.estimate.validDays ?? business.quoteValidDays);
}

/** Input for issuing, besides the records. */
export type Issue = {
  readonly id: string;
  readonly instant: string;
  readonly by: string;
  readonly note: string;
  /** Every quote of this job so far. */
  readonly earlier: readonly Quote[];
  /** The lowest revision that is free where a quote cannot be read. */
  readonly leastRevision?: number;
  /** Open holds to print in it. */
  readonly holds?: Quote['holds'];
};

/** The new revision, and the earlier ones it replaces, to be written together. */
export type Issued = { readonly quote: Quote; readonly superseded: readonly Quote[] };

/**
 * Issues the next revision of a job's quote.
 * @param records as they are now
 * @returns the quote and the revisions it supersedes, or why it cannot be issued
 */
export function issueQuote(records: EstimateRecords & { readonly customer: Customer }, issue: Issue): Parsed<Issued> {
  const { business, job } = records;
  const invented = inventedCompany(business, job.id);
  if (invented !== null) return { ok: false, message: invented };
  if (issue.by.trim() === '') return { ok: false, message: 'Enter who issues the quote. The name is printed on it.' };
  if (issue.earlier.some((quote) => quote.state === 'accepted' && quote.deletedAt === null))
    return { ok: false, message: QUOTE_IS_ACCEPTED };
  if (records.property.address.line.trim() === '') return { ok: false, message: NO_ADDRESS };
  const stranger = issue.earlier.find((quote) => quote.jobId !== job.id);
  if (stranger !== undefined) return { ok: false, message: 'One of the earlier quotes belongs to another job.' };
  const ids = new Set(job.rooms.map((room) => room.roomId));
  const later = records.rooms.find((room) => ids.has(room.id) && room.survey.takenAt !== null && room.survey.takenAt > issue.instant);
  if (later !== undefined)
    return { ok: false, message: `${later.name}: the readings are dated after this quote. Check the date of the readings.` };
  const day = dayOfInstant(issue.instant, business.timeZone);
  const frozen = freeze(records);
  const estimate = estimateJob(frozen, day);
  const stops = estimate.options.flatMap((option) => option.problems).find((problem) => problem.stops);
  if (stops !== undefined) return { ok: false, message: stops.message };
  const priced = quotedPrice(estimate, frozen.materials);
  const { totalMinor } = suggestedOption(priced);
  if (totalMinor <= 0) return { ok: false, message: 'The total is zero. Check the prices and the lines left out.' };
  const revision = Math.max(issue.leastRevision ?? 1, ...issue.earlier.map((quote) => quote.revision + 1));
  const issuer = issue.by.trim();
  const quote: Quote = {
    id: issue.id,
    createdAt: issue.instant,
    changedAt: issue.instant,
    deletedAt: null,
    jobId: job.id,
    revision,
    issuedAt: issue.instant,
    validUntil: validUntil(records, issue.instant),
    state: 'issued',
    history: [{ state: 'issued', instant: issue.instant, by: issuer, note: issue.note }],
    acceptedOptionId: null,
    totalMinor,
    currency: business.currency,
    timeZone: business.timeZone,
    priced,
    dates: [],
    holds: [...(issue.holds ?? [])],
    orders: [],
    frozen,
  };
  const superseded = issue.earlier
    .filter((earlier) => earlier.state !== 'superseded')
    .map(
      (earlier): Quote => ({
        ...earlier,
        state: 'superseded',
        changedAt: issue.instant,
        history: [...earlier.history, { state: 'superseded', instant: issue.instant, by: issuer, note: `Revision ${revision}` }],
      }),
    );
  return { ok: true, value: { quote, superseded } };
}
