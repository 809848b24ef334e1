/** The sums under the lines of Quote: they add up from the lines to the total, with the subtotal that the quote prints. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { LinesTable } from '../../../renderer/stages/quote/LinesTable.tsx';
import { QuoteSums } from '../../../renderer/stages/quote/QuoteSums.tsx';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { rowsOf } from '../../shared-core/documents/tree-text.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';

const sample = wholeOf('26-031');
const nothing = (): void => {};
const cents = (text: string): number => Number(text.replaceAll(/[^0-9-]/g, ''));

function sums(discountMinor: number) {
  const job = { ...sample.job, estimate: { ...sample.job.estimate, discountMinor } };
  const reading = readJob({ ...sample, job }, NOW);
  const { price } = reading.estimate.suggested;
  const lines = renderToStaticMarkup(
    createElement(LinesTable, { price, hasTotal: true, roomNames: new Map(), onOverride: nothing, onDelete: nothing }),
  );
  const below = renderToStaticMarkup(createElement(QuoteSums, { price, atToday: '', hasTotal: true, records: sample, holds: [] }));
  const foot = /<tfoot.*<\/tfoot>/s.exec(lines)?.[0].replaceAll(/<[^>]+>/g, ' ') ?? '';
  const rows = [...below.matchAll(/<dt>(.*?)<\/dt><dd>(.*?)<\/dd>/g)].map(([, name = '', sum = '']) => [
    name,
    cents(sum.replaceAll(/<[^>]+>/g, '')),
  ]);
  return { price, foot, rows, printed: rowsOf(draftQuote(reading, NOW), 'Price') };
}

it('come from the lines less the discount to the subtotal of the quote, then with tax to the total', () => {
  const { price, foot, rows, printed } = sums(13_777);
  const lines = price.lines.reduce((sum, line) => sum + line.priceMinor, 0);
  expect(foot).toContain('Before the discount');
  expect(
    cents(
      foot
        .trim()
        .split(/\s{2,}/)
        .at(-1) ?? '',
    ),
  ).toBe(lines);
  expect(rows.slice(0, 2)).toEqual([
    ['Discount', -13_777],
    ['Subtotal', lines - 13_777],
  ]);
  expect(rows.at(-1)).toEqual(['Total', lines - 13_777 + price.taxMinor]);
  const subtotal = printed.find((row) => Object.values(row)[0] === 'Subtotal');
  expect(cents(Object.values(subtotal ?? {}).at(-1) ?? '')).toBe(lines - 13_777);
});

it('have the subtotal under the lines where there is no discount', () => {
  const { foot, rows } = sums(0);
  expect(foot).toContain('Subtotal');
  expect(rows.map(([name]) => name)).not.toContain('Subtotal');
});
