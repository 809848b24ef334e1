/** A quote issued together with its document: the price, the dates it states and the tree that is inked and stored. */
import type { Frozen, Quote } from '../book/quote.ts';
import { SCHEMA_VERSION } from '../book/tables.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { Parsed } from '../measure/parsed.ts';
import { estimateJob } from '../price/estimate-job.ts';
import { freeze, type Issue, type Issued, issueQuote, validUntil } from '../price/issue-quote.ts';
import { quotedPrice } from '../price/quoted-price.ts';
import type { JobReading } from '../standing/read-job.ts';
import { datedAfter } from './dated-after.ts';
import { nextRevision } from './document-input.ts';
import { openPoints } from './open-holds.ts';
import { statedDates } from './quote-dates.ts';
import { quoteSheet } from './quote-sheet.ts';
import type { DocumentTree } from './tree.ts';

/** The new revision with its document. */
export type IssuedWithDocument = Issued & { readonly tree: DocumentTree };

/** The records as a quote of today would be made from them, for looking at only: they are shared, not frozen. */
export const asQuoted = (reading: JobReading): Frozen => {
  const { business, customer, property, rooms, job, materials } = reading.whole;
  return { version: SCHEMA_VERSION, business, customer, property, rooms: [...rooms], job, materials: [...materials] };
};

const lastOf = (quotes: readonly Quote[]): Quote | null => quotes.toSorted((a, b) => a.revision - b.revision).at(-1) ?? null;

/**
 * Issues the next revision and builds its document.
 * @returns both, or the sentence that says why it cannot be issued
 */
export function issueQuoteWithDocument(
  reading: JobReading,
  issue: Omit<Issue, 'earlier' | 'leastRevision' | 'holds'>,
): Parsed<IssuedWithDocument> {
  const late = datedAfter(reading.whole, issue.instant);
  if (late !== null) return { ok: false, message: late };
  const { holds, stops } = openPoints(reading, issue.instant);
  const [stop] = stops;
  if (stop !== undefined) return { ok: false, message: stop };
  const earlier = reading.whole.quotes;
  const leastRevision = nextRevision(reading.whole, 'quote');
  const issued = issueQuote(reading.whole, { ...issue, earlier, leastRevision, holds });
  if (!issued.ok) return issued;
  const { quote, superseded } = issued.value;
  const { options } = estimateJob(quote.frozen, dayOfInstant(issue.instant, quote.timeZone));
  const dated: Quote = { ...quote, dates: options.flatMap((option) => statedDates(quote.frozen, option, issue.instant)) };
  return { ok: true, value: { quote: dated, superseded, tree: quoteSheet({ ...dated, replaces: lastOf(earlier) }) } };
}

/** The document as it would be issued now, watermarked as a draft; nothing is stored. */
export function draftQuote(reading: JobReading, instant: string): DocumentTree {
  const records = reading.whole;
  const frozen = freeze(records);
  const priced = quotedPrice(estimateJob(frozen, dayOfInstant(instant, frozen.business.timeZone)), frozen.materials);
  const replaces = lastOf(reading.whole.quotes);
  return quoteSheet({
    frozen,
    priced,
    holds: openPoints(reading, instant).holds,
    issuedAt: instant,
    revision: Math.max((replaces?.revision ?? 0) + 1, nextRevision(records, 'quote')),
    validUntil: validUntil(records, instant),
    replaces,
    isDraft: true,
  });
}
