/** What a revised quote says of the one it replaces. */
import { expect, it } from 'vitest';
import type { ChangeOrder, Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { withOptionAccepted } from '../../../shared-core/price/accept-option.ts';
import { contractNow, differencesSince } from '../../../shared-core/price/change-order.ts';
import { answerQuote } from '../../../shared-core/price/quote-state.ts';
import { priceAsAccepted } from '../../../shared-core/price/quoted-price.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { draft } from '../price/an-order.ts';
import { sampleJob } from './sample-job.ts';
import { textOf } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const whole = sampleJob('26-031', NOW);
const withDiscount = (job: WholeJob['job']) => ({ ...job, estimate: { ...job.estimate, discountMinor: 10_000 } });
function issued(of: WholeJob): { readonly quote: Quote; readonly printed: string } {
  const made = issueQuoteWithDocument(readJob(of, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
  if (!made.ok) throw new Error(made.message);
  return { quote: made.value.quote, printed: textOf(made.value.tree) };
}
const first = issued(whole).quote;
const chosen = first.priced.options.find(({ id }) => id !== first.priced.suggestedId);
if (chosen === undefined) throw new Error('The sample offers two options.');

it('names it, and the changes', () => {
  const { printed } = issued({ ...whole, quotes: [first], job: withDiscount(whole.job) });
  expect(printed).toContain('Replaces revision 1 of');
  expect(printed).toContain('Discount: $100.00 (was $0.00).');
  expect(printed).toMatch(/The total is \$[\d,.]+\. It was \$[\d,.]+: \$[\d,.]+ less\./);
});

it('compares with the accepted option and its change orders where the contract was canceled', () => {
  const answer = { instant: NOW, by: 'Ida', note: 'Sold the house', optionId: chosen.id };
  const accepted = answerQuote(first, { ...answer, state: 'accepted' });
  if (!accepted.ok) throw new Error(accepted.message);
  const job = withOptionAccepted(whole.job, chosen.id, whole.job.estimate.options);
  const { priced } = contractNow(accepted.value, { ...whole, job: withDiscount(job) }, [], '2026-05-12');
  const order: ChangeOrder = { ...draft({ priced }), number: 1, state: 'signed', decidedAt: NOW, decidedBy: 'Ida' };
  const printed = (orders: ChangeOrder[], now: WholeJob['job']): string => {
    const canceled = answerQuote({ ...accepted.value, orders }, { ...answer, state: 'declined' });
    if (!canceled.ok) throw new Error(canceled.message);
    return issued({ ...whole, job: now, quotes: [canceled.value] }).printed;
  };
  const unchanged = /Replaces revision 1 of [^.]*\bNothing changed\./;
  expect(printed([], job)).toMatch(unchanged);
  expect(printed([order], withDiscount(job))).toMatch(unchanged);
  expect(printed([], withDiscount(job))).toContain('Discount: $100.00 (was $0.00).');
});

it('says that nothing is taken off the high spots any more, or was before', () => {
  const off = (grindMaxM: number) => ({
    ...priceAsAccepted(
      { ...first.priced, options: [{ ...chosen, rooms: chosen.rooms.map((room) => ({ ...room, grindMaxM })) }] },
      chosen.id,
    ),
  });
  const words = (from: number, to: number) =>
    differencesSince({ priced: off(from), acceptedOptionId: null, orders: [] }, off(to), whole.business).differences[0]?.text;
  // 3/8 in. is 0.009525 m exactly.
  expect(words(0.009525, 0)).toBe('Hall: nothing taken off the high spots (was ⅜″).');
  expect(words(0, 0.009525)).toBe('Hall: up to ⅜″ taken off the high spots (was nothing).');
});
