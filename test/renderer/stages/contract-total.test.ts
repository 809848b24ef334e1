/** What the foot of Quote states as the total, before and after the customer accepted. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { QuoteFoot } from '../../../renderer/stages/quote/QuoteFoot.tsx';
import { contractOf } from '../../../shared-core/ledger/contract.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';

const { price, name } = readJob(wholeOf('26-031'), NOW).estimate.suggested;
const order = { netMinor: -10_000, taxes: [], totalMinor: -10_000 };
/** Accepted at 1,000.00 and 80.00 of tax, less an order of 100.00. By hand: 900.00 and 980.00. */
const contract = contractOf({ currency: 'USD', stages: [], netMinor: 100_000, taxes: [], totalMinor: 108_000 }, [order]);
const foot = (of: typeof contract | null, hasTotal = true) =>
  renderToStaticMarkup(createElement(QuoteFoot, { price, name, hasTotal, contract: of })).replaceAll(/<[^>]+>/g, ' ');

it('is the contract total once the quote is accepted, whatever the job is priced at since', () => {
  expect(price.totalMinor).not.toBe(98_000);
  for (const hasTotal of [true, false]) {
    expect(foot(contract, hasTotal)).toMatch(/\$980\.00\s+contract total/);
    expect(foot(contract, hasTotal)).toContain('$900.00 plus $80.00 tax');
  }
  expect(foot(null)).not.toContain('contract');
  expect(foot(null, false)).toContain('No total yet');
});
