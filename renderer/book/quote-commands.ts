/** Issuing and answering quotes, and the papers made of them. */
import type { Promised } from '../../shared-core/book/cure-record.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { quotedPromises } from '../../shared-core/documents/quote-dates.ts';
import { withOptionAccepted } from '../../shared-core/price/accept-option.ts';
import { estimateOfQuote } from '../../shared-core/price/estimate-job.ts';
import { freeze, issueQuote, standsUntil } from '../../shared-core/price/issue-quote.ts';
import { answerQuote, BASE_OPTION_ID, type QuoteAnswer } from '../../shared-core/price/quote-state.ts';
import { newId, nowInstant } from './moment.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { write } from './write.ts';

/** The quote as it would be issued now, for a paper to look over; nothing is written. */
export function draftOf(whole: WholeJob, at: string): Pick<Quote, 'frozen' | 'issuedAt' | 'revision' | 'validUntil'> {
  const materials = whole.materials.filter((m) => m.deletedAt === null);
  const revision = Math.max(0, ...whole.quotes.map((q) => q.revision)) + 1;
  return { frozen: freeze({ ...whole, materials }), issuedAt: at, revision, validUntil: standsUntil(whole, at) };
}

/** Issues the next revision with everything it was computed from, and supersedes the ones before. */
export async function issueNext(whole: WholeJob): Promise<Outcome<Quote>> {
  const at = nowInstant();
  const materials = whole.materials.filter((m) => m.deletedAt === null);
  const by = whole.business.ownerName.trim() === '' ? whole.business.name : whole.business.ownerName;
  const issued = issueQuote({ ...whole, materials }, { id: newId(), at, by, note: '', earlier: whole.quotes });
  if (!issued.ok) return refused(issued.message);
  const { quote, superseded } = issued.value;
  const written = await write(`issued revision ${quote.revision} of the quote`, at, {
    puts: [...superseded, quote].map((row) => ({ table: 'quotes', row })),
  });
  return written.ok ? done(quote) : written;
}

/** The dates an accepted quote told, as promises; one that stands already is not made twice. */
function promisesOf(whole: WholeJob, quote: Quote, optionId: string, at: string): Promised[] {
  const estimate = estimateOfQuote(quote);
  const option = estimate.options.find((o) => o.id === optionId) ?? estimate.base;
  const documentId = whole.documents.findLast((d) => d.quoteId === quote.id)?.id ?? null;
  return quotedPromises(quote.frozen, option)
    .filter(
      (told) =>
        !whole.promises.some((p) => p.roomId === told.roomId && p.milestone === told.milestone && p.promisedFor === told.promisedFor),
    )
    .map((told) => ({ ...told, id: newId(), createdAt: at, changedAt: at, deletedAt: null, madeAt: at, documentId }));
}

/**
 * Records what the customer answered. An acceptance makes the way chosen the job's own
 * and keeps the dates that the quote told as promises; all of it is one step to undo.
 */
export async function recordAnswer(whole: WholeJob, quote: Quote, answer: Omit<QuoteAnswer, 'at'>): Promise<Outcome> {
  const at = nowInstant();
  const answered = answerQuote(quote, { ...answer, at }, whole.business.locale);
  if (!answered.ok) return refused(answered.message);
  const accepted = answer.state === 'accepted';
  const optionId = answered.value.acceptedOptionId ?? BASE_OPTION_ID;
  return write(`${answer.state} by ${answer.by}`, at, {
    puts: [
      { table: 'quotes', row: answered.value },
      ...(accepted ? promisesOf(whole, quote, optionId, at).map((row) => ({ table: 'promises' as const, row })) : []),
    ],
    patches: [
      {
        table: 'jobs',
        id: whole.job.id,
        change: (before) => {
          const job = accepted ? withOptionAccepted(before, optionId, quote.frozen.job.estimate.options) : before;
          return {
            ...job,
            state: answer.state === 'declined' ? 'declined' : job.state === 'declined' ? 'open' : job.state,
          };
        },
      },
    ],
  });
}
