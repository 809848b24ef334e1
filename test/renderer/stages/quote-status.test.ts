/** An issued quote's status: its words, each a sentence of its own, and what can be done by its state and its last valid day. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { orderToSign, stageAfterQuote } from '../../../renderer/stages/quote/orders.ts';
import { OrdersPart, StatusPart } from '../../../renderer/stages/quote/StatusPart.tsx';
import type { ChangeOrder, Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { contractBasis, differencesSince } from '../../../shared-core/price/change-order.ts';
import type { QuoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { answerQuote, standingAt } from '../../../shared-core/price/quote-state.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';
import { issue } from '../../shared-core/price/an-order.ts';

const nothing = (): void => {};
/** The status as markup. */
function statusOf(whole: WholeJob, quote: Quote, now: string, differences: QuoteDifferences | null = null): string {
  const document = whole.documents.find(({ kind, quoteId }) => kind === 'quote' && quoteId === quote.id);
  if (document === undefined) throw new Error('The sample has the document of its quote.');
  const view = {
    quote,
    state: standingAt(quote, now),
    document: { ...document, sha256: 'a'.repeat(64) },
    signed: null,
    differences,
    aged: [],
  };
  const calls = { onPdf: nothing, onFolder: nothing, onSent: nothing, onSign: nothing, onDecision: nothing, onExpire: nothing };
  return renderToStaticMarkup(createElement(StatusPart, { whole, view, typical: null, onDraft: null, ...calls }));
}

it('lets a page be entered that was signed before the quote expired, until that is recorded', () => {
  const whole = wholeOf('26-022');
  const [sample] = whole.quotes;
  if (sample === undefined) throw new Error('The sample has a quote there.');
  const buttons = (of: Quote, now: string): string[] =>
    [...statusOf(whole, of, now).matchAll(/<span class="text-button-word">(.*?)<\/span>/g)].map(([, word = '']) => word);
  const quote: Quote = { ...sample, state: 'issued', validUntil: '2026-05-20' };
  const [before, after] = ['2026-05-20T15:00:00.000Z', '2026-05-21T15:00:00.000Z'];
  expect(buttons(quote, before)).toEqual(expect.arrayContaining(['Sign', 'Record decision']));
  expect(buttons(quote, after)).toEqual(expect.arrayContaining(['Sign', 'Record as expired']));
  expect(buttons(quote, after)).not.toContain('Record decision');
  for (const state of ['expired', 'declined'] as const) expect(buttons({ ...quote, state }, after)).not.toContain('Sign');
});

it('lets the other signers sign a change order that the customer has signed', () => {
  const waiting = issue({});
  const [document] = wholeOf('26-028').documents;
  const [order] = waiting.orders;
  if (document === undefined || order === undefined) throw new Error('a document and an order');
  const documents = [{ ...document, kind: 'change-order' as const, quoteId: waiting.id, revision: order.number }];
  const calls = { onWrite: nothing, onPdf: nothing, onSign: nothing, onDecide: nothing };
  const shown = (state: ChangeOrder['state']): string[] => {
    const quote = { ...waiting, orders: [{ ...order, state }] };
    const markup = renderToStaticMarkup(createElement(OrdersPart, { quote, documents, contractMinor: 1, ...calls }));
    return ['Sign', 'Declined', 'Void'].filter((word) => markup.includes(`>${word}</span>`));
  };
  expect(shown('issued')).toEqual(['Sign', 'Declined', 'Void']);
  expect(shown('signed')).toEqual(['Sign']);
  expect([shown('declined'), shown('voided')]).toEqual([[], []]);
});

it('a canceled contract names its option in a sentence, and each line of its history begins with a capital', () => {
  const whole = wholeOf('26-028');
  const found = whole.quotes.find(({ state }) => state === 'accepted');
  if (found === undefined) throw new Error('The sample has an accepted quote.');
  const options = found.priced.options.flatMap((option) => [option, { ...option, id: 'other', name: 'Follow the floor' }]);
  const accepted = { ...found, priced: { ...found.priced, options } };
  const instant = NOW;
  const canceled = answerQuote(accepted, { state: 'declined', instant, by: 'Ida Lindqvist', note: 'Sold the house', optionId: null });
  if (!canceled.ok) throw new Error(canceled.message);
  const shown = statusOf(whole, canceled.value, instant);
  const option = canceled.value.priced.options.find(({ id }) => id === accepted.acceptedOptionId);
  expect(shown.replaceAll(/<[^>]*>/g, '')).toContain(`: canceled. Option: ${option?.name}.`);
  const lines = [...shown.matchAll(/<li[^>]*>([^<]*)/g)].map(([, text]) => text ?? '');
  expect(lines.map((text) => text.split(' ')[0])).toEqual(['Issued', 'Accepted', 'Canceled', 'Sent']);
});

it('leads from an accepted quote to the signature of its change order, and without one to the stage of the room', () => {
  const whole = wholeOf('26-028');
  const waiting = issue({});
  const [document] = whole.documents;
  const [order] = waiting.orders;
  if (document === undefined || order === undefined) throw new Error('a document and an order');
  const documents = [{ ...document, kind: 'change-order' as const, quoteId: waiting.id, revision: order.number }];
  expect(orderToSign(waiting, documents)).toEqual({ order, document: documents[0] });
  expect(orderToSign({ ...waiting, orders: [{ ...order, state: 'signed' }] }, documents)).toBeNull();
  expect(orderToSign(waiting, [])).toBeNull();
  const stages = ['26-015', '26-019', '26-022', '26-028', '26-031'].flatMap((number) => {
    const reading = readJob(wholeOf(number), NOW);
    return reading.standing.rooms.map(({ roomId, stage }) => [stage, stageAfterQuote(reading, roomId, NOW)]);
  });
  expect(stages).toContainEqual(['done', 'handover']);
  expect(stages).toContainEqual(['prep', 'prep']);
});

it('says what changed since the contract without the name of its one option', () => {
  const whole = wholeOf('26-028');
  const quote = whole.quotes.find(({ state }) => state === 'accepted');
  if (quote === undefined) throw new Error('The sample has an accepted quote.');
  const now = contractBasis(quote);
  const dearer = { ...now, lines: now.lines.map((line) => ({ ...line, priceMinor: line.priceMinor + 100 })) };
  const differences = differencesSince(quote, { suggestedId: dearer.id, options: [dearer] }, whole.business);
  const markup = statusOf(whole, quote, NOW, differences);
  expect(differences.differences.length).toBeGreaterThan(0);
  expect(markup).toContain('Changed since the contract');
  expect(markup).not.toContain('As accepted');
});
