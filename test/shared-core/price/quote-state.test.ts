import { describe, expect, it } from 'vitest';
import type { Quote, QuoteState } from '../../../shared-core/book/quote.ts';
import { answerQuote, isPastValidity, type QuoteAnswer, standingAt, stateWord } from '../../../shared-core/price/quote-state.ts';
import { wholeOf } from '../job-variants.ts';

const [issued] = wholeOf('26-024').quotes;
if (issued === undefined) throw new Error('The job has a quote.');
const QUOTE: Quote = {
  ...issued,
  state: 'issued',
  acceptedOptionId: null,
  history: [],
  issuedAt: '2026-05-01T12:00:00.000Z',
  validUntil: '2026-05-15',
  timeZone: 'America/New_York',
};
const DAY = '2026-05-10T12:00:00.000Z';
const LATE = '2026-05-16T04:00:00.000Z';
const answer = (state: QuoteAnswer['state'], over: Partial<QuoteAnswer> = {}): QuoteAnswer => ({
  ...{ state, instant: DAY, by: 'Ada Quill', note: 'too dear', optionId: null },
  ...over,
});
const said = (quote: Quote, given: QuoteAnswer): string => {
  const read = answerQuote(quote, given, 'en-US');
  return read.ok ? read.value.state : read.message;
};

describe('a quote', () => {
  it('is valid through the end of its last day where the business is', () => {
    // 11:59 pm and midnight on May 15 in New York, 4 hours behind UTC.
    expect([isPastValidity(QUOTE, '2026-05-16T03:59:59.000Z'), isPastValidity(QUOTE, LATE)]).toEqual([false, true]);
    expect([standingAt(QUOTE, DAY), standingAt(QUOTE, LATE), standingAt({ ...QUOTE, state: 'accepted' }, LATE)]).toEqual([
      'issued',
      'expired',
      'accepted',
    ]);
  });

  // Who may say what when: a decision is final but for a customer who cancels, and a late one needs a new revision.
  const ALLOWED: Readonly<Record<QuoteState, readonly QuoteState[]>> = {
    issued: ['accepted', 'declined', 'superseded'],
    accepted: ['declined'],
    declined: ['superseded'],
    expired: ['superseded'],
    superseded: [],
  };
  it.each(Object.entries(ALLOWED) as [QuoteState, readonly QuoteState[]][])('that is %s can become %j', (state, next) => {
    const answers = ['accepted', 'declined', 'expired', 'superseded'] as const;
    expect(answers.filter((one) => said({ ...QUOTE, state }, answer(one)) === one)).toEqual(next);
  });

  it('says why a decision cannot be recorded', () => {
    expect(said(QUOTE, answer('accepted', { instant: '2026-04-30T12:00:00.000Z' }))).toBe(
      `Revision ${QUOTE.revision} was issued later than that. Check the date.`,
    );
    for (const state of ['accepted', 'declined'] as const)
      expect(said(QUOTE, answer(state, { instant: LATE }))).toBe(
        `Revision ${QUOTE.revision} expired on May 15. Issue the next revision at today’s prices, then record the decision on that one.`,
      );
    expect(said(QUOTE, answer('expired'))).toBe(`Revision ${QUOTE.revision} is valid until May 15. It has not expired yet.`);
    expect(said(QUOTE, answer('expired', { instant: LATE }))).toBe('expired');
    expect(said({ ...QUOTE, state: 'accepted' }, answer('superseded'))).toBe(
      `Revision ${QUOTE.revision} is already accepted. To change it, write a change order.`,
    );
    expect(said({ ...QUOTE, state: 'superseded' }, answer('declined'))).toBe(
      `Revision ${QUOTE.revision} is already superseded by a later revision. To change it, issue a new revision.`,
    );
    expect(said(QUOTE, answer('declined', { note: ' ' }))).toBe('Enter the reason. It is counted with lost leads.');
    expect(said(QUOTE, answer('accepted', { by: ' ' }))).toBe('Enter who accepted the quote. The name stays on the record.');
    expect(said(QUOTE, answer('accepted', { optionId: 'none-such' }))).toBe(
      `Revision ${QUOTE.revision} has no such option. Choose one of its options.`,
    );
    expect(said(QUOTE, answer('declined', { optionId: 'none-such', by: '' }))).toBe('declined');
  });

  it('keeps what was issued, and adds who decided and when', () => {
    const accepted = answerQuote(QUOTE, answer('accepted', { by: ' Ada Quill ' }));
    if (!accepted.ok) throw new Error(accepted.message);
    expect(accepted.value).toEqual({
      ...QUOTE,
      state: 'accepted',
      changedAt: DAY,
      acceptedOptionId: 'base',
      history: [{ state: 'accepted', instant: DAY, by: 'Ada Quill', note: 'too dear' }],
    });
    const other = { ...QUOTE, priced: { ...QUOTE.priced, options: QUOTE.priced.options.map((one) => ({ ...one, id: 'other' })) } };
    expect(answerQuote(other, answer('accepted', { optionId: 'other' }))).toMatchObject({ ok: true, value: { acceptedOptionId: 'other' } });
    // A customer who cancels: what was accepted stays on record.
    const canceled = answerQuote(accepted.value, answer('declined'));
    expect(canceled).toMatchObject({
      ok: true,
      value: { state: 'declined', acceptedOptionId: 'base', history: [{ state: 'accepted' }, { state: 'declined' }] },
    });
    const declined = answerQuote(QUOTE, answer('declined'));
    if (!canceled.ok || !declined.ok) throw new Error('both are recorded');
    expect([canceled, declined].map(({ value }) => stateWord(value, 'declined'))).toEqual(['canceled', 'declined']);
    expect(canceled.value.history.map(({ state }) => stateWord(canceled.value, state))).toEqual(['accepted', 'canceled']);
  });
});
