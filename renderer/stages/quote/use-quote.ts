/** What the quote screen shows, calculated once: the price by option, the current revision, and changes since. */
import { useMemo } from 'react';
import type { Quote, QuotedPrice, QuoteState } from '../../../shared-core/book/quote.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { quoteChanges } from '../../../shared-core/documents/changed-since.ts';
import { openPoints } from '../../../shared-core/documents/open-holds.ts';
import { signedCopyOf } from '../../../shared-core/documents/signed-copy.ts';
import { contractNow, differencesSince } from '../../../shared-core/price/change-order.ts';
import { missingForPrice } from '../../../shared-core/price/missing-for-price.ts';
import type { QuoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { standingAt } from '../../../shared-core/price/quote-state.ts';
import { quotedPrice } from '../../../shared-core/price/quoted-price.ts';
import { estimateDayOf, type JobReading } from '../../../shared-core/standing/read-job.ts';
import { calculatedFor } from '../../parts/calculated-for.ts';

export interface QuoteView {
  readonly priced: QuotedPrice;
  /** Why the job has no total; empty where it has one. */
  readonly missing: readonly string[];
  /** Why the quote cannot be issued. */
  readonly stops: readonly string[];
  /** Open holds, as the quote prints them. */
  readonly holds: Quote['holds'];
  readonly quote: Quote | null;
  readonly state: QuoteState | null;
  readonly document: MadeDocument | null;
  /** Its newest signed copy. */
  readonly signed: MadeDocument | null;
  readonly differences: QuoteDifferences | null;
  /** What else it states differently by now, while it waits for its answer. */
  readonly aged: readonly string[];
}

/** The job's price to compare with a quote: at the contract's rates while it is accepted. */
function priceNow(quote: Quote, now: QuotedPrice, whole: WholeJob, today: string): QuotedPrice {
  if (quote.state !== 'accepted') return now;
  const { priced } = contractNow(quote, whole, [], today);
  return { suggestedId: priced.id, options: [priced] };
}

export function useQuote(reading: JobReading, now: string): QuoteView {
  const { whole, estimate } = reading;
  const { materials, quotes, documents } = whole;
  const priced = useMemo(() => quotedPrice(estimate, materials), [estimate, materials]);
  const quote = quotes.findLast((q) => q.state !== 'superseded') ?? null;
  const today = estimateDayOf(whole, now);
  const differences = useMemo(
    () => (quote === null ? null : differencesSince(quote, priceNow(quote, priced, whole, today), whole.business)),
    [quote, priced, whole, today],
  );
  const document = quote === null ? null : (documents.findLast((d) => d.quoteId === quote.id && d.kind === 'quote') ?? null);
  const open = calculatedFor(reading, `open points at ${now}`, () => openPoints(reading, now));
  return {
    priced,
    missing: missingForPrice(estimate),
    stops: [...new Set([...estimate.options.flatMap((o) => o.problems.flatMap((p) => (p.stops ? [p.message] : []))), ...open.stops])],
    holds: open.holds,
    quote,
    state: quote === null ? null : standingAt(quote, now),
    document,
    signed: document === null ? null : signedCopyOf(documents, document),
    differences,
    aged: quote === null ? [] : calculatedFor(whole, `quote ${quote.id}`, () => quoteChanges(whole, quote)),
  };
}
