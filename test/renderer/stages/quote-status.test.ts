/** What can be done with an issued quote, by its state and its last valid day. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { StatusPart } from '../../../renderer/stages/quote/StatusPart.tsx';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { standingAt } from '../../../shared-core/price/quote-state.ts';
import { wholeOf } from '../../shared-core/job-variants.ts';

const whole = wholeOf('26-022');
const document = whole.documents.find(({ kind, quoteId }) => kind === 'quote' && quoteId === whole.quotes[0]?.id);
const [sample] = whole.quotes;
if (document === undefined || sample === undefined) throw new Error('The sample has a quote with its document there.');
const nothing = (): void => {};
const buttons = (quote: Quote, now: string): string[] => {
  const { business, customer, job } = whole;
  const view = { quote, state: standingAt(quote, now), document: { ...document, sha256: 'a'.repeat(64) }, signed: null };
  const calls = { onPdf: nothing, onFolder: nothing, onSent: nothing, onSign: nothing, onDecision: nothing, onExpire: nothing };
  const props = { business, customer, number: job.number, differences: null, validDays: 30, onDraft: null, ...view, ...calls };
  return [...renderToStaticMarkup(createElement(StatusPart, props)).matchAll(/<span class="text-button-word">(.*?)<\/span>/g)].map(
    ([, word = '']) => word,
  );
};

it('lets a page be entered that was signed before the quote expired, until that is recorded', () => {
  const quote: Quote = { ...sample, state: 'issued', validUntil: '2026-05-20' };
  const [before, after] = ['2026-05-20T15:00:00.000Z', '2026-05-21T15:00:00.000Z'];
  expect(buttons(quote, before)).toEqual(expect.arrayContaining(['Sign', 'Record decision']));
  expect(buttons(quote, after)).toEqual(expect.arrayContaining(['Sign', 'Record as expired']));
  expect(buttons(quote, after)).not.toContain('Record decision');
  for (const state of ['expired', 'declined'] as const) expect(buttons({ ...quote, state }, after)).not.toContain('Sign');
});
