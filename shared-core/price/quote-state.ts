/** The life of a quote: draft, issued, then accepted, declined, lapsed or superseded; each with who and when. */
import type { Quote, QuoteState } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { Parsed } from '../measure/parsed.ts';

/** A quote's standing; `draft` is a job with nothing issued, or changed since. */
export type QuoteStanding = 'draft' | QuoteState;

/** What may be answered to a quote. */
export type QuoteAnswer = {
  readonly state: Exclude<QuoteState, 'issued'>;
  readonly at: string;
  readonly by: string;
  readonly note: string;
  /** Which option was accepted; null is the job's own, and for any other answer. */
  readonly optionId: string | null;
};

const WORDS: Record<QuoteState, string> = {
  issued: 'issued',
  accepted: 'accepted',
  declined: 'declined',
  lapsed: 'lapsed',
  superseded: 'superseded by a later revision',
};

/** What may follow what. A late answer needs the quote issued again; an accepted quote is changed by a new revision. */
const MAY_FOLLOW: Record<QuoteState, readonly QuoteState[]> = {
  issued: ['accepted', 'declined', 'lapsed', 'superseded'],
  accepted: ['superseded'],
  declined: ['superseded'],
  lapsed: ['superseded'],
  superseded: [],
};

/** True once the last day of its validity is over in the business's time zone. */
export function isPastValidity(quote: Pick<Quote, 'validUntil' | 'frozen'>, now: string): boolean {
  return dayOfInstant(now, quote.frozen.business.timeZone) > quote.validUntil;
}

/** How a quote stands at a moment: one nobody answered in time has lapsed, whether or not that was written down. */
export function standingAt(quote: Pick<Quote, 'state' | 'validUntil' | 'frozen'>, now: string): QuoteState {
  return quote.state === 'issued' && isPastValidity(quote, now) ? 'lapsed' : quote.state;
}

/**
 * Answers a quote. The frozen record is never touched.
 * @returns the quote with its new state and one more line of history, or why that answer cannot be given
 */
export function answerQuote(quote: Quote, answer: QuoteAnswer, locale?: string): Parsed<Quote> {
  const refuse = (message: string): Parsed<Quote> => ({ ok: false, message });
  const standing = standingAt(quote, answer.at);
  const name = `Revision ${quote.revision}`;
  if (Date.parse(answer.at) < Date.parse(quote.issuedAt)) return refuse(`${name} was issued after that moment: check the date.`);
  if (standing === 'lapsed' && (answer.state === 'accepted' || answer.state === 'declined')) {
    return refuse(
      `${name} lapsed on ${formatDay(quote.validUntil, 'short', locale)}. Issue it again as the next revision, with today’s prices, and have that ${WORDS[answer.state]}.`,
    );
  }
  if (answer.state === 'lapsed' && !isPastValidity(quote, answer.at)) {
    return refuse(`${name} stands until ${formatDay(quote.validUntil, 'short', locale)}: it has not lapsed yet.`);
  }
  if (!MAY_FOLLOW[quote.state].includes(answer.state)) {
    return refuse(
      `${name} is ${WORDS[quote.state]} already; it cannot be ${WORDS[answer.state]} as well. Issue a new revision to change it.`,
    );
  }
  if (answer.state === 'accepted' && answer.by.trim() === '') return refuse('Write who accepted it: the name stands on the record.');
  const options = quote.frozen.job.estimate.options;
  if (
    answer.state === 'accepted' &&
    answer.optionId !== null &&
    answer.optionId !== BASE_OPTION_ID &&
    !options.some((o) => o.id === answer.optionId)
  ) {
    return refuse(`${name} holds no such option: choose one that stands in it.`);
  }
  return {
    ok: true,
    value: {
      ...quote,
      state: answer.state,
      changedAt: answer.at,
      acceptedOptionId: answer.state === 'accepted' ? (answer.optionId ?? BASE_OPTION_ID) : quote.acceptedOptionId,
      history: [...quote.history, { state: answer.state, at: answer.at, by: answer.by.trim(), note: answer.note }],
    },
  };
}

/** The id of the job's own way among the options of a quote. */
export const BASE_OPTION_ID = 'base';
