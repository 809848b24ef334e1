/** The states of a quote: draft, issued, then accepted, declined, expired or superseded; each with who and when. */
import type { Quote, QuoteState } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { Parsed } from '../measure/parsed.ts';

/** What a customer may decide about a quote. */
export type QuoteAnswer = {
  readonly state: Exclude<QuoteState, 'issued'>;
  readonly instant: string;
  readonly by: string;
  readonly note: string;
  /** The accepted option; null for the job's own, and for any other decision. */
  readonly optionId: string | null;
};

const WORDS: Record<QuoteState, string> = {
  issued: 'issued',
  accepted: 'accepted',
  declined: 'declined',
  expired: 'expired',
  superseded: 'superseded by a later revision',
};

/**
 * Allowed transitions. A late decision needs a new revision; an accepted quote is changed by change orders, or canceled by the
 * customer.
 */
const MAY_FOLLOW: Record<QuoteState, readonly QuoteState[]> = {
  issued: ['accepted', 'declined', 'expired', 'superseded'],
  accepted: ['declined'],
  declined: ['superseded'],
  expired: ['superseded'],
  superseded: [],
};

/** True for a quote that was accepted and then taken back by the customer: its contract was canceled. */
export function isCanceled({ history }: Pick<Quote, 'history'>): boolean {
  return history.some(({ state }) => state === 'accepted') && history.some(({ state }) => state === 'declined');
}

/** A state of a quote, or of a line of its history, in a word: one that was accepted is not declined later but canceled. */
export function stateWord(quote: Pick<Quote, 'history'>, state: QuoteState): string {
  return state === 'declined' && isCanceled(quote) ? 'canceled' : state;
}

/** True once the last day of its validity is over in the business's time zone. */
export function isPastValidity(quote: Pick<Quote, 'validUntil' | 'timeZone'>, now: string): boolean {
  return dayOfInstant(now, quote.timeZone) > quote.validUntil;
}

/** The state of a quote at a moment: one without a decision has expired after its last day, whether or not that was recorded. */
export function standingAt(quote: Pick<Quote, 'state' | 'validUntil' | 'timeZone'>, now: string): QuoteState {
  return quote.state === 'issued' && isPastValidity(quote, now) ? 'expired' : quote.state;
}

/**
 * Records a decision on a quote. The issued content never changes.
 * @returns the quote with its new state and one more line of history, or why that decision cannot be recorded
 */
export function answerQuote(quote: Quote, answer: QuoteAnswer, locale?: string): Parsed<Quote> {
  const refuse = (message: string): Parsed<Quote> => ({ ok: false, message });
  const standing = standingAt(quote, answer.instant);
  const name = `Revision ${quote.revision}`;
  if (Date.parse(answer.instant) < Date.parse(quote.issuedAt)) return refuse(`${name} was issued later than that. Check the date.`);
  if (standing === 'expired' && (answer.state === 'accepted' || answer.state === 'declined')) {
    return refuse(
      `${name} expired on ${formatDay(quote.validUntil, 'short', locale)}. Issue the next revision at today’s prices, then record the decision on that one.`,
    );
  }
  if (answer.state === 'expired' && !isPastValidity(quote, answer.instant)) {
    return refuse(`${name} is valid until ${formatDay(quote.validUntil, 'short', locale)}. It has not expired yet.`);
  }
  if (!MAY_FOLLOW[quote.state].includes(answer.state)) {
    return refuse(
      `${name} is already ${WORDS[quote.state]}. To change it, ${quote.state === 'accepted' ? 'write a change order' : 'issue a new revision'}.`,
    );
  }
  if (answer.state === 'declined' && answer.note.trim() === '') return refuse('Enter the reason. It is counted with lost leads.');
  if (answer.state === 'accepted' && answer.by.trim() === '') return refuse('Enter who accepted the quote. The name stays on the record.');
  const { options } = quote.priced;
  if (answer.state === 'accepted' && answer.optionId !== null && !options.some((o) => o.id === answer.optionId)) {
    return refuse(`${name} has no such option. Choose one of its options.`);
  }
  return {
    ok: true,
    value: {
      ...quote,
      state: answer.state,
      changedAt: answer.instant,
      acceptedOptionId: answer.state === 'accepted' ? (answer.optionId ?? BASE_OPTION_ID) : quote.acceptedOptionId,
      history: [...quote.history, { state: answer.state, instant: answer.instant, by: answer.by.trim(), note: answer.note }],
    },
  };
}

/** The id of the job's own option among the options of a quote. */
export const BASE_OPTION_ID = 'base';
