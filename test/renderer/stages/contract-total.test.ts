/** What the foot of Quote states as the total, before and after the customer accepted. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { QuoteFoot } from '../../../renderer/stages/quote/QuoteFoot.tsx';
import type { ChangeOrder, Quote } from '../../../shared-core/book/quote.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';
import { base, draft } from '../../shared-core/price/an-order.ts';

const { price, name } = readJob(wholeOf('26-031'), NOW).estimate.suggested;
const order: ChangeOrder = {
  ...draft({ netMinor: -10_000, taxes: [], totalMinor: -10_000 }),
  ...{ number: 1, state: 'signed', decidedAt: NOW, decidedBy: 'C' },
};
const [option] = base.priced.options;
if (option === undefined) throw new Error('A quote has an option.');
const sold = { ...option, id: 'sold', name: 'The one that was sold', netMinor: 100_000, taxes: [], totalMinor: 108_000 };
/** The second option accepted at 1,000.00 and 80.00 of tax, less an order of 100.00. By hand: 900.00 and 980.00. */
const accepted: Quote = { ...base, priced: { ...base.priced, options: [option, sold] }, acceptedOptionId: sold.id, orders: [order] };
const foot = (quotes: readonly Quote[], hasTotal = true) =>
  renderToStaticMarkup(createElement(QuoteFoot, { price, name, hasTotal, quotes })).replaceAll(/<[^>]+>/g, ' ');

it('is the contract total of the accepted option, whatever is recommended and whatever the job is priced at since', () => {
  expect(price.totalMinor).not.toBe(98_000);
  for (const hasTotal of [true, false]) {
    expect(foot([accepted], hasTotal)).toMatch(/\$980\.00\s+contract total/);
    expect(foot([accepted], hasTotal)).toContain('$900.00 plus $80.00 tax');
    expect(foot([accepted], hasTotal)).toContain(sold.name);
    expect(foot([accepted], hasTotal)).not.toContain(name);
  }
  expect(foot([])).not.toContain('contract');
  expect(foot([])).toContain(name);
  expect(foot([], false)).toContain('No total yet');
});
