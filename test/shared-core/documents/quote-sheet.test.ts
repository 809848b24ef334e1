import Big from 'big.js';
import { describe, expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { quoteSchema } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { quotedDates, quotedPromises } from '../../../shared-core/documents/quote-dates.ts';
import { quoteSheet } from '../../../shared-core/documents/quote-sheet.ts';
import { type Block, type DocumentTree, documentTreeSchema, type Run } from '../../../shared-core/documents/tree.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { estimateOfQuote } from '../../../shared-core/price/estimate-job.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const POUR = '2026-05-27T13:40:00.000Z';
const wholeOf = (number: string): WholeJob => {
  const found = wholeJobsOf(sampleBook(NOW)).find((whole) => whole.job.number === number);
  if (found === undefined) throw new Error(`the sample has no job ${number}`);
  return found;
};
function issue(whole: WholeJob): Quote {
  const issued = issueQuote(whole, { id: 'quote-one', at: NOW, by: 'Owner', note: '', earlier: [] });
  if (!issued.ok) throw new Error(issued.message);
  return issued.value.quote;
}
const poured = (whole: WholeJob): WholeJob => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, pourAt: POUR })) },
});

type Table = Extract<Block, { kind: 'table' }>;
const words = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');
const all = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((block) =>
    block.kind === 'columns'
      ? all(block.columns.flat())
      : block.kind === 'together' || block.kind === 'cover'
        ? all(block.blocks)
        : [block],
  );
const tables = (tree: DocumentTree): Table[] => all(tree.blocks).filter((block): block is Table => block.kind === 'table');
const table = (tree: DocumentTree, at: number): Table => {
  const found = tables(tree)[at];
  if (found === undefined) throw new Error('the paper has no such table');
  return found;
};
const said = (tree: DocumentTree): string =>
  all(tree.blocks)
    .map((block) =>
      block.kind === 'paragraph'
        ? words(block.runs)
        : block.kind === 'list'
          ? block.items.map(words).join('\n')
          : 'text' in block
            ? block.text
            : '',
    )
    .join('\n');
/** An amount read off the paper as a customer with a calculator would. */
const amount = (text: string): Big => new Big(text.replace(/[^\d.−-]/g, '').replace('−', '-'));
const minor = (value: number): Big => new Big(value).div(100);
const cellOf = (of: Table, name: string | RegExp, column: number): string => {
  const row = of.rows.find((r) => (typeof name === 'string' ? words(r.cells[0] ?? []) === name : name.test(words(r.cells[0] ?? []))));
  if (row === undefined) throw new Error(`no row ${String(name)}`);
  return words(row.cells[column] ?? []);
};

describe('the quote on paper', () => {
  it('is a document the desk can ink, for every job of the sample that has a quote', () => {
    const quotes = wholeJobsOf(sampleBook(NOW)).flatMap((whole) => whole.quotes);
    expect(quotes.length).toBeGreaterThan(2);
    for (const quote of quotes) expect(documentTreeSchema.safeParse(quoteSheet(quote)).error).toBeUndefined();
  });

  it('asks, in the one large figure, for what is stored', () => {
    const quote = issue(wholeOf('26-031'));
    const front = table(quoteSheet(quote), 0);
    const large = front.rows.find((row) => row.figure === true);
    expect(front.pointedColumn).toBe(front.columns.length - 1);
    expect(amount(words(large?.cells.at(-1) ?? [])).toString()).toBe(minor(quote.totalMinor).toString());
  });

  it('adds up in every column for a reader with a calculator: rooms and tax make the total (big.js)', () => {
    const quote = issue(wholeOf('26-031'));
    const front = table(quoteSheet(quote), 0);
    for (let column = 1; column < front.columns.length; column += 1) {
      const parts = ['Hall', 'Laundry', /^Sales tax/].map((name) => amount(cellOf(front, name, column)));
      const sum = parts.reduce((a, b) => a.plus(b), new Big(0));
      expect(sum.toString()).toBe(amount(cellOf(front, 'In all', column)).toString());
    }
  });

  it('adds up line by line, discount and tax among them (big.js)', () => {
    const whole = wholeOf('26-031');
    const quote = issue({
      ...whole,
      job: { ...whole.job, estimate: { ...whole.job.estimate, discountMinor: 5015, discountNote: 'two rooms at once' } },
    });
    const lines = table(quoteSheet(quote), 1);
    const last = lines.columns.length - 1;
    const sums = lines.rows.findIndex((row) => words(row.cells[0] ?? []) === 'Before tax');
    const before = lines.rows.slice(0, sums).map((row) => amount(words(row.cells[last] ?? [])));
    expect(before.reduce((a, b) => a.plus(b), new Big(0)).toString()).toBe(amount(cellOf(lines, 'Before tax', last)).toString());
    expect(amount(cellOf(lines, 'Discount: two rooms at once', last)).toString()).toBe('-50.15');
    const total = amount(cellOf(lines, 'Before tax', last)).plus(amount(cellOf(lines, /^Sales tax/, last)));
    expect(total.toString()).toBe(minor(quote.totalMinor).toString());
  });

  it('tells payments that make the total', () => {
    const quote = issue(wholeOf('26-031'));
    const sentence =
      said(quoteSheet(quote))
        .split('\n')
        .find((line) => line.startsWith('Deposit')) ?? '';
    const paid = [...sentence.matchAll(/\$[\d,.]*\d/g)].map(([text]) => amount(text));
    expect(paid).toHaveLength(2);
    expect(paid.reduce((a, b) => a.plus(b), new Big(0)).toString()).toBe(minor(quote.totalMinor).toString());
  });

  it('says the same years later, whatever became of prices, sheets, rooms and names since', () => {
    const whole = structuredClone(poured(wholeOf('26-031')));
    const quote = issue(whole);
    const then = JSON.stringify(quoteSheet(quote));
    // The living records are changed in place: anything the frozen one shared with them would change with them.
    whole.customer.name = 'Somebody Else';
    whole.business.name = 'Another Name';
    whole.business.quoteTerms = 'Other terms.';
    whole.business.pricing.share = 0.9;
    for (const material of whole.materials) {
      material.name = 'Renamed';
      for (const price of material.prices) price.minor *= 3;
      if (material.powder !== null) material.powder.yieldM3.value *= 2;
    }
    for (const room of whole.rooms) {
      room.name = 'Changed';
      for (const reading of room.survey.readings) reading.valueM += 0.004 * Math.abs(Math.sin(reading.xM));
    }
    expect(JSON.stringify(quoteSheet(issue(whole)))).not.toBe(then);
    expect(JSON.stringify(quoteSheet(quote))).toBe(then);
    // And once more from what a book or a copy of it would give back.
    expect(JSON.stringify(quoteSheet(quoteSchema.parse(JSON.parse(JSON.stringify(quote)))))).toBe(then);
  });

  it('tells the hour a floor may be walked on, and promises just that when it is accepted', () => {
    const quote = issue(poured(wholeOf('26-031')));
    const { suggested } = estimateOfQuote(quote);
    const dates = quotedDates(quote.frozen, suggested);
    const promises = quotedPromises(quote.frozen, suggested);
    expect(promises.map((p) => p.promisedFor)).toEqual(dates.map((d) => d.walkOnAt));
    expect(promises).toHaveLength(2);
    const latest =
      promises
        .map((p) => p.promisedFor)
        .sort()
        .at(-1) ?? '';
    expect(Date.parse(latest)).toBeGreaterThan(Date.parse(POUR));
    expect(Date.parse(latest) % 1_800_000).toBe(0);
    expect(said(quoteSheet(quote))).toContain(formatInstantTime(latest, quote.frozen.property.timeZone, 'en-US'));
  });

  it('promises nothing and names no day while none is set; a covering is never promised', () => {
    const quote = issue(wholeOf('26-031'));
    expect(quotedPromises(quote.frozen, estimateOfQuote(quote).suggested)).toEqual([]);
    expect(said(quoteSheet(quote))).toContain('The day of the pour is agreed when you accept.');
    const dated = issue(poured(wholeOf('26-031')));
    expect(quotedDates(dated.frozen, estimateOfQuote(dated).suggested).some((d) => d.cover !== null)).toBe(true);
    expect(quotedPromises(dated.frozen, estimateOfQuote(dated).suggested).every((p) => p.milestone === 'walk-on')).toBe(true);
  });

  it('as a draft says on every page that it is no offer, has nowhere to sign, and asks for the same', () => {
    const quote = issue(wholeOf('26-031'));
    const [whole, draft] = [quoteSheet(quote), quoteSheet({ ...quote, isDraft: true })];
    expect(documentTreeSchema.safeParse(draft).success).toBe(true);
    expect(draft.head.right.join(' ')).toMatch(/draft, page .*Not issued: no offer yet/);
    expect(all(whole.blocks).some((block) => block.kind === 'fields')).toBe(true);
    expect(all(draft.blocks).some((block) => block.kind === 'fields')).toBe(false);
    expect(tables(draft)).toEqual(tables(whole));
  });
  it('tells payments and days of the job’s own in place of the business’s', () => {
    const whole = wholeOf('26-031');
    const stages = [
      { name: 'First', share: 0.25, due: 'on-acceptance' as const },
      { name: 'Second', share: 0.75, due: 'thirty-days' as const },
    ];
    const quote = issue({ ...whole, job: { ...whole.job, estimate: { ...whole.job.estimate, stages, validDays: 10 } } });
    expect(quote.validUntil).toBe('2026-05-22');
    expect(said(quoteSheet(quote))).toMatch(/First \$[\d,.]+ on acceptance; second \$[\d,.]+ within thirty days/);
  });
  it('names what it rests on, what is left out and what can hurt', () => {
    const text = said(quoteSheet(issue(wholeOf('26-031'))));
    for (const part of [
      'hidden',
      'Moisture is tested again',
      'structural engineer',
      'asbestos',
      'Stone and cement dust scars lungs',
      'Wet cement burns',
    ]) {
      expect(text).toContain(part);
    }
  });

  it('gives the sum of many rooms on its first page, and each its price further on', () => {
    const whole = wholeOf('26-031');
    const [room] = whole.rooms;
    const [jobRoom] = whole.job.rooms;
    if (room === undefined || jobRoom === undefined) throw new Error('the sample is not whole');
    const copies = Array.from({ length: 10 }, (_, i) => ({ ...room, id: `room-copy-${i}`, name: `Room ${i + 1}` }));
    const quote = issue({
      ...whole,
      rooms: copies,
      job: {
        ...whole.job,
        rooms: copies.map((copy) => ({ ...jobRoom, roomId: copy.id })),
        estimate: { ...whole.job.estimate, options: [] },
      },
    });
    const tree = quoteSheet(quote);
    const { price } = estimateOfQuote(quote).suggested;
    expect(amount(cellOf(table(tree, 0), 'All 10 rooms', 1)).toString()).toBe(minor(price.netMinor).toString());
    const rooms = [...said(tree).matchAll(/before tax (\$[\d,.]*\d)/g)].map(([, text]) => amount(text ?? ''));
    expect(rooms).toHaveLength(10);
    expect(rooms.reduce((a, b) => a.plus(b), new Big(0)).toString()).toBe(minor(price.netMinor).toString());
  });
});
