/** Issuing a quote: a numbered revision with everything it was reckoned from, frozen. */
import type { Customer } from '../book/customer.ts';
import { frozenSchema, type Frozen, type Quote } from '../book/quote.ts';
import { SCHEMA_VERSION } from '../book/tables.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { Parsed } from '../measure/parsed.ts';
import { estimateJob, type EstimateRecords } from './estimate-job.ts';
import { BASE_OPTION_ID } from './quote-state.ts';

/**
 * The records of a quote as they stand, and no others: the job's own rooms, and the data sheets that the job, its
 * options and its sundries use.
 */
export function freeze(records: EstimateRecords & { readonly customer: Customer }): Frozen {
  const { business, customer, property, job } = records;
  const roomIds = new Set(job.rooms.map((room) => room.roomId));
  const used = new Set([
    ...job.rooms.flatMap((room) => [room.materialId, room.primerId]),
    ...job.estimate.options.flatMap((option) => option.rooms.map((room) => room.materialId)),
  ]);
  const rooms = records.rooms.filter((room) => roomIds.has(room.id));
  const materials = records.materials.filter(
    (material) => used.has(material.id) || (material.powder === null && material.primer.length === 0 && material.deletedAt === null),
  );
  // Parsed anew, so that the frozen record shares nothing with the living ones.
  return frozenSchema.parse({ version: SCHEMA_VERSION, business, customer, property, rooms, job, materials });
}

/** The last day on which a quote made now stands, by the job's own days or the business's usual. */
export function standsUntil({ business, job }: Pick<EstimateRecords, 'business' | 'job'>, at: string): string {
  return addDaysToDay(dayOfInstant(at, business.timeZone), job.estimate.validDays ?? business.quoteValidDays);
}

/** What issuing needs beside the records. */
export type Issue = {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly note: string;
  /** Every quote of this job so far. */
  readonly earlier: readonly Quote[];
};

/** The new revision, and the earlier ones that it replaces, to be written together. */
export type Issued = { readonly quote: Quote; readonly superseded: readonly Quote[] };

/**
 * Issues the next revision of a job's quote.
 * @param records as they stand now
 * @returns the quote and the revisions it supersedes, or the first thing that keeps it from going out
 */
export function issueQuote(records: EstimateRecords & { readonly customer: Customer }, issue: Issue): Parsed<Issued> {
  const { business, job } = records;
  if (issue.by.trim() === '') return { ok: false, message: 'Write who issues the quote: the name stands on the record.' };
  const stranger = issue.earlier.find((quote) => quote.jobId !== job.id);
  if (stranger !== undefined) return { ok: false, message: 'One of the earlier quotes belongs to another job.' };
  const day = dayOfInstant(issue.at, business.timeZone);
  const frozen = freeze(records);
  const estimate = estimateJob(frozen, day);
  const stops = estimate.options.flatMap((option) => option.problems).find((problem) => problem.stops);
  if (stops !== undefined) return { ok: false, message: stops.message };
  const { suggested } = estimate;
  if (suggested.price.totalMinor <= 0) return { ok: false, message: 'The quote comes to nothing: check the prices and what was left out.' };
  const revision = Math.max(0, ...issue.earlier.map((quote) => quote.revision)) + 1;
  const by = issue.by.trim();
  const quote: Quote = {
    id: issue.id,
    createdAt: issue.at,
    changedAt: issue.at,
    deletedAt: null,
    jobId: job.id,
    revision,
    issuedAt: issue.at,
    validUntil: standsUntil(records, issue.at),
    state: 'issued',
    history: [{ state: 'issued', at: issue.at, by, note: issue.note }],
    acceptedOptionId: null,
    totalMinor: suggested.price.totalMinor,
    currency: business.currency,
    frozen,
  };
  const superseded = issue.earlier
    .filter((earlier) => earlier.state !== 'superseded')
    .map(
      (earlier): Quote => ({
        ...earlier,
        state: 'superseded',
        changedAt: issue.at,
        history: [...earlier.history, { state: 'superseded', at: issue.at, by, note: `Revision ${revision}` }],
      }),
    );
  return { ok: true, value: { quote, superseded } };
}

/** The option a customer accepted: its id, the job's own way when none was named; null while nothing is accepted. */
export function acceptedOption(quote: Pick<Quote, 'state' | 'acceptedOptionId'>): string | null {
  return quote.state === 'accepted' ? (quote.acceptedOptionId ?? BASE_OPTION_ID) : null;
}
