import Big from 'big.js';
import { describe, expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { quoteSchema } from '../../../shared-core/book/quote.ts';
import type { Flooring } from '../../../shared-core/book/flooring.ts';
import type { Material } from '../../../shared-core/book/material.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { draftQuote, issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import type { Circumstances } from '../../../shared-core/book/layer.ts';
import { preparationLetter, warrantyCertificate } from '../../../shared-core/documents/certificates.ts';
import { quoteSheet } from '../../../shared-core/documents/quote-sheet.ts';
import { flatnessWords, optionResult } from '../../../shared-core/documents/quote-table.ts';
import { quoteTerms } from '../../../shared-core/documents/quote-terms.ts';
import { type Block, type DocumentTree, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { sampleJob } from './sample-job.ts';
import { flat, textOf, words } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const POUR = '2026-05-27T13:40:00.000Z';
const wholeOf = (number: string): WholeJob => sampleJob(number, NOW);
function issueBoth(whole: WholeJob): { readonly quote: Quote; readonly tree: DocumentTree } {
  const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  return issued.value;
}
const poured = (whole: WholeJob): WholeJob => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, pourAt: POUR })) },
});

type Table = Extract<Block, { kind: 'table' }>;
const tables = (tree: DocumentTree): Table[] => flat(tree.blocks).filter((block): block is Table => block.kind === 'table');
const table = (tree: DocumentTree, index: number): Table => {
  const found = tables(tree)[index];
  if (found === undefined) throw new Error('the paper has no such table');
  return found;
};
/** An amount read off the document, as a customer with a calculator would. */
const amount = (text: string): Big => new Big(text.replace(/[^\d.−-]/g, '').replace('−', '-'));
const minor = (value: number): Big => new Big(value).div(100);
const cellOf = (of: Table, name: string | RegExp, column: number): string => {
  const row = of.rows.find((r) => (typeof name === 'string' ? words(r.cells[0] ?? []) === name : name.test(words(r.cells[0] ?? []))));
  if (row === undefined) throw new Error(`no row ${String(name)}`);
  return words(row.cells[column] ?? []);
};

describe('the quote as a document', () => {
  it('can be inked and is stored, for every job of the sample that has a quote', () => {
    const wholes = wholeJobsOf(sampleAt(NOW)).filter((whole) => whole.quotes.length > 0);
    expect(wholes.length).toBeGreaterThan(2);
    for (const whole of wholes)
      for (const quote of whole.quotes) {
        const document = whole.documents.find((d) => d.quoteId === quote.id);
        expect(documentTreeSchema.safeParse(JSON.parse(document?.content ?? '')).error).toBeUndefined();
      }
  });

  it('shows the stored total as its one large figure', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    const front = table(tree, 0);
    const large = front.rows.find((row) => row.figure === true);
    expect(front.pointedColumn).toBe(front.columns.length - 1);
    expect(amount(words(large?.cells.at(-1) ?? [])).toString()).toBe(minor(quote.totalMinor).toString());
  });

  it('adds up in every column, with a discount too: rooms make the subtotal, subtotal and tax the total (big.js)', () => {
    const whole = wholeOf('26-031');
    const estimate = { ...whole.job.estimate, discountMinor: 5015, discountNote: 'two rooms at once' };
    const { tree } = issueBoth({ ...whole, job: { ...whole.job, estimate } });
    const front = table(tree, 0);
    expect(front.columns.length).toBeGreaterThan(2);
    for (let column = 1; column < front.columns.length; column += 1) {
      const rooms = ['Hall', 'Laundry'].map((name) => amount(cellOf(front, name, column)));
      expect(rooms.reduce((a, b) => a.plus(b), new Big(0)).toString()).toBe(amount(cellOf(front, 'Subtotal', column)).toString());
      const total = amount(cellOf(front, 'Subtotal', column)).plus(amount(cellOf(front, /^Sales tax/, column)));
      expect(total.toString()).toBe(amount(cellOf(front, 'Total', column)).toString());
    }
    expect(textOf(tree)).toContain('include a discount of $50.15 (two rooms at once)');
  });

  it('prints the tax rate, and the tax is that share of what is taxed, to the cent (big.js)', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    const option = suggestedOption(quote.priced);
    const [tax] = option.taxes;
    if (tax === undefined) throw new Error('no tax');
    const row = table(tree, 0).rows.find((r) => words(r.cells[0] ?? []).startsWith(tax.name));
    expect(words(row?.cells[0] ?? [])).toContain(`${new Big(tax.rate).times(100).toString()}%`);
    // Each line is rounded by itself, so the sum may differ from the rate on the base by half a cent per line.
    const off = new Big(tax.baseMinor).times(tax.rate).minus(tax.taxMinor).abs();
    expect(off.lte(option.lines.length / 2)).toBe(true);
  });

  it('lists payments that make the total, and repeats each room’s price in the scope', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    const option = suggestedOption(quote.priced);
    const paid = option.stages.map((stage) => stage.amountMinor);
    expect(paid.reduce((a, b) => a + b, 0)).toBe(quote.totalMinor);
    const [, printed = ''] = textOf(tree).split(/^Scope of work: /m);
    const rooms = [...printed.matchAll(/: (\$[\d,.]*\d) before tax/g)].map(([, price]) => amount(price ?? ''));
    expect(rooms.reduce((a, b) => a.plus(b), new Big(0)).toString()).toBe(minor(option.netMinor).toString());
  });

  it('gives each option its own payments, which make its total, and its own flatness (big.js)', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    const { options } = quote.priced;
    expect(new Set(options.map(({ totalMinor }) => totalMinor)).size).toBeGreaterThan(1);
    const front = table(tree, 0);
    for (const option of options) {
      const column = front.columns.findIndex(({ title }) => title === option.name);
      const paid = option.stages.map(({ name }) => amount(cellOf(front, new RegExp(`^${name}, `), column)));
      expect(paid.reduce((a, b) => a.plus(b), new Big(0)).toString()).toBe(minor(option.totalMinor).toString());
      expect(cellOf(front, 'Flatness promised', column)).toBe(flatnessWords(option.gapM ?? 0, wholeOf('26-031').business));
    }
    expect(new Set(options.map(({ gapM }) => gapM)).size).toBeGreaterThan(1);
    expect(textOf(tree)).toContain('We promise no gap larger than the “Flatness promised” of the option you choose');
    // What the floor is expected to be stands with the scope of the recommended option, not with all of them.
    const [first, scope] = textOf(tree).split(`Scope of work: ${suggestedOption(quote.priced).name}`);
    expect([first, scope].map((part) => part?.includes('We expect'))).toEqual([false, true]);
  });

  it('names a deposit of its own for each option where the terms name the deposit', () => {
    const whole = wholeOf('26-031');
    const clauses = [{ topic: 'payment' as const, text: 'The deposit is {deposit}.' }];
    const own = { ...whole, business: { ...whole.business, contract: { ...whole.business.contract, clauses } } };
    const { quote, tree } = issueBoth(own);
    const printed = textOf(tree);
    for (const { name, depositMinor } of quote.priced.options)
      expect(printed).toContain(`${formatMoney(depositMinor, 'USD', 'en-US')} for “${name}”`);
    const estimate = { ...own.job.estimate, options: [], suggestedOptionId: null };
    expect(textOf(issueBoth({ ...own, job: { ...own.job, estimate } }).tree)).toMatch(/The deposit is \$[\d,.]+\d\.$/m);
  });

  it('is to level only where each option levels every room', () => {
    const whole = wholeOf('26-031');
    const titleWith = (...modes: readonly ('level' | 'follow' | 'ramp')[]): string => {
      const rooms = whole.job.rooms.map((room, i) => ({ ...room, level: { ...room.level, mode: modes[i] ?? 'level' } }));
      const job = { ...whole.job, rooms, estimate: { ...whole.job.estimate, options: [], suggestedOptionId: null } };
      const tree = draftQuote(readJob({ ...whole, job }, NOW), NOW);
      expect(tree.subject.startsWith('Quote to level')).toBe(textOf(tree).includes('Quote to level'));
      return textOf(tree).split('\n')[0] ?? '';
    };
    expect(titleWith('level', 'level')).toBe('Quote to level your hall and laundry');
    const floors = 'Quote for the floors of your hall and laundry';
    expect([titleWith('follow', 'follow'), titleWith('level', 'ramp')]).toEqual([floors, floors]);
    // Two options, one of which follows the floor.
    const { options } = issueBoth(whole).quote.priced;
    expect(options.some(({ rooms }) => rooms.some(({ mode }) => mode !== 'level'))).toBe(true);
    expect(textOf(issueBoth(whole).tree)).toContain(floors);
  });

  it('gives the result of its largest room, and names the rooms where it is another', () => {
    const [room] = issueBoth(wholeOf('26-031')).quote.priced.options[0]?.rooms ?? [];
    if (room === undefined) throw new Error('The option has a room.');
    const of = (...rooms: readonly (readonly [string, typeof room.mode, number])[]) =>
      optionResult({ rooms: rooms.map(([name, mode, areaM2]) => ({ ...room, name, mode, areaM2 })) });
    expect(of(['Kitchen', 'level', 20], ['Hall', 'level', 5])).toBe('Level');
    expect(of(['Dining room', 'follow', 12], ['Kitchen', 'level', 20])).toBe('Level; the dining room follows the floor');
    expect(of(['Kitchen', 'follow', 20], ['Hall', 'level', 5], ['Bath', 'ramp', 4], ['Entry', 'ramp', 3])).toBe(
      'Smooth; the hall is level; the bath and entry slope evenly',
    );
    expect(of(['Kitchen', 'level', 20], ...(['A', 'B', 'C'] as const).map((name) => [name, 'follow', 5] as const))).toBe(
      'Level; 3 rooms follow the floor',
    );
    // Of this job one option follows the floor in the hall and levels the laundry.
    expect(textOf(issueBoth(wholeOf('26-031')).tree)).toMatch(/Result.*Varies by room.*Level.*Level/s);
  });

  it('shows no internal line: no travel, no contingency, no markup', () => {
    const printed = textOf(issueBoth(wholeOf('26-031')).tree);
    for (const word of ['Travel', 'Contingency', 'markup', 'margin', 'Labor']) expect(printed).not.toContain(word);
  });

  it('is stored as issued: changed records and arithmetic do not change it', () => {
    const whole = structuredClone(poured(wholeOf('26-031')));
    const { quote, tree } = issueBoth(whole);
    const then = JSON.stringify(tree);
    // Changes the records in place, to show that the issued quote shares nothing with them.
    whole.customer.name = 'Somebody Else';
    whole.business.pricing.share = 0.9;
    for (const material of whole.materials) {
      material.name = 'Renamed';
      for (const price of material.prices) price.minor *= 3;
      if (material.powder !== null) material.powder.yieldM3.value *= 2;
    }
    expect(JSON.stringify(issueBoth(whole).tree)).not.toBe(then);
    expect(JSON.stringify(tree)).toBe(then);
    const back = quoteSchema.parse(JSON.parse(JSON.stringify(quote)));
    expect(suggestedOption(back.priced).totalMinor).toBe(quote.totalMinor);
  });

  it('states when each floor is open to foot traffic, within working hours, and promises that date', () => {
    const { quote } = issueBoth(poured(wholeOf('26-031')));
    const own = quote.dates.filter((date) => date.optionId === quote.priced.suggestedId);
    expect(own).toHaveLength(2);
    for (const date of own) {
      expect(date.milestone).toBe('walk-on');
      expect(Date.parse(date.promisedFor)).toBeGreaterThan(Date.parse(POUR));
      // Working hours begin and end on the half hour in the sample, and nothing is stated to the minute.
      expect(Date.parse(date.promisedFor) % 1_800_000).toBe(0);
    }
  });

  it('promises nothing and names no date while no pour is planned', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    expect(quote.dates).toEqual([]);
    expect(textOf(tree)).toContain('We agree on the pour date when you accept.');
  });

  it('states no date for a pour whose day has passed, and promises none', () => {
    const whole = wholeOf('26-031');
    const [past, today, later] = ['2026-05-11T13:40:00.000Z', '2026-05-12T11:00:00.000Z', POUR];
    const quotedWith = (...pours: readonly (string | undefined)[]) => {
      const rooms = whole.job.rooms.map((room, i) => ({ ...room, pourAt: pours[i] ?? null }));
      return issueBoth({ ...whole, job: { ...whole.job, rooms } });
    };
    const none = quotedWith(past, past);
    expect(none.quote.dates).toEqual([]);
    expect(textOf(none.tree)).toContain('We agree on the pour date when you accept.');
    const [hall, laundry] = whole.job.rooms;
    const one = quotedWith(past, later);
    expect(textOf(one.tree)).toContain('The hall: we agree on the pour date when you accept.');
    expect(new Set(one.quote.dates.map(({ roomId }) => roomId))).toEqual(new Set([laundry?.roomId]));
    expect(textOf(one.tree)).not.toContain('May 11');
    // A pour of the same day still counts.
    expect(quotedWith(today, past).quote.dates.every(({ roomId }) => roomId === hall?.roomId)).toBe(true);
    expect(quotedWith(today, past).quote.dates).not.toEqual([]);
  });

  // Tile waits for the data sheet's hours, not a test: common practice of US setters, no source.
  it('promises the installer’s moisture test only where a flooring needs one', () => {
    const whole = wholeOf('26-031');
    const assumed = (country: string, ...floorings: readonly (Flooring | null)[]): string => {
      const rooms = whole.job.rooms.map((room, i) => ({ ...room, flooring: floorings[i] ?? null }));
      const business = { ...whole.business, address: { ...whole.business.address, country } };
      return quoteTerms({ ...whole, business, job: { ...whole.job, rooms } }).assumptions.join('\n');
    };
    expect(assumed('US', 'tile-large', 'tile-small')).not.toMatch(/moisture|too damp/);
    expect(assumed('US', 'tile-large', 'wood-glued')).toContain(
      'tests the floor for moisture before flooring goes down, where the flooring needs a moisture test. If it is too damp',
    );
    for (const floorings of [
      ['wood-glued', 'carpet'],
      ['resilient', null],
      [null, null],
    ] as const)
      expect(assumed('US', ...floorings)).toContain('tests the floor for moisture before flooring goes down. If it is too damp');
    // DIN 18560-1 has a limit for tile too.
    expect(assumed('DE', 'tile-large', 'tile-small')).toContain('tests the floor for moisture before flooring goes down.');
  });

  it('says of a wood floor that the work is no structural check, and denies nothing that was looked at on site', () => {
    // Checked for signs of trouble, and an engineer's letter recorded.
    const terms = quoteTerms(wholeOf('26-031')).assumptions.join('\n');
    expect(terms).toContain('can carry the added weight. Our work is not a structural check.');
    expect(terms).not.toMatch(/not checked/);
  });

  // Lead-safe renovation is not abatement: 40 CFR 745.83 and 745.223, from memory.
  it('leaves testing and abatement out, and keeps lead-safe work apart from abatement where paint may contain lead', () => {
    const whole = wholeOf('26-031');
    const excluded = (yearBuilt: number) => quoteTerms({ ...whole, property: { ...whole.property, yearBuilt } }).excluded;
    const abatement = 'Abatement of asbestos, lead, or mold, which takes a licensed abatement contractor.';
    expect(excluded(2010)).toContain('Testing for asbestos, lead, or mold, which takes an accredited inspector or lab.');
    expect(excluded(2010)).toContain(abatement);
    expect(excluded(1950)).toContain(`${abatement} Work under the federal lead-safe rules is not abatement.`);
  });

  // Common practice, no source.
  it('leaves waterproofing out where water may come from below or from a shower, and does not speak of it elsewhere', () => {
    const whole = wholeOf('26-031');
    const excluded = (change: Partial<Circumstances>) => {
      const dry = { belowGrade: false, outdoorsOrWet: null, fixtures: [] };
      const rooms = whole.rooms.map((room) => ({ ...room, circumstances: { ...room.circumstances, ...dry, ...change } }));
      return quoteTerms({ ...whole, rooms }).excluded.join('\n');
    };
    expect(excluded({})).not.toContain('Waterproofing');
    for (const wet of [{ belowGrade: true }, { outdoorsOrWet: true }, { fixtures: ['tub-or-shower' as const] }])
      expect(excluded(wet)).toContain('Waterproofing and drainage. The new floor does not keep water out.');
  });

  it('prints the open holds of each room', () => {
    const whole = wholeOf('26-031');
    const rooms = whole.rooms.map((room) => ({ ...room, tests: room.tests.filter(({ kind }) => kind === 'drop-absorption') }));
    const { quote, tree } = issueBoth({ ...whole, rooms });
    const printed = textOf(tree);
    expect(quote.holds.length).toBeGreaterThan(0);
    for (const hold of quote.holds) expect(printed).toContain(hold.text);
  });

  it('as a draft has a watermark and no place to sign', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    const draft = quoteSheet({ ...quote, isDraft: true });
    expect(draft.watermark).toBe('Draft');
    expect(draft.head.right.join(' ')).toMatch(/draft, page .*not an offer/);
    expect(flat(tree.blocks).some((block) => block.kind === 'fields')).toBe(true);
    expect(flat(draft.blocks).some((block) => block.kind === 'fields')).toBe(false);
    expect(tables(draft)).toEqual(tables(tree));
  });

  it('is signed last: an option box each with its deposit, printed names, and the right to cancel in bold before them', () => {
    const { quote, tree } = issueBoth(wholeOf('26-031'));
    const blocks = flat(tree.blocks);
    const boxes = blocks.find((block) => block.kind === 'list' && block.marker === 'box');
    expect(boxes?.kind === 'list' && boxes.items).toHaveLength(quote.priced.options.length);
    const fields = blocks.flatMap((block) => (block.kind === 'fields' ? [block.fields.map((field) => field.label).join('|')] : []));
    expect(fields.slice(0, 3)).toEqual([
      'Customer, signature|Printed name|Date',
      'Second owner, if any, signature|Printed name|Date',
      expect.stringMatching(/, signature\|Printed name\|Date$/),
    ]);
    expect(textOf(tree)).toContain('I accept pages 1 to {pages} of quote 26-031, revision 1.');
  });

  it('calls a product by its kind, and tells rooms apart that get different ones', () => {
    const whole = wholeOf('26-031');
    const [first, second] = whole.job.rooms;
    if (first === undefined || second === undefined) throw new Error('The job has two rooms.');
    const words = (kind: Material['kind']): string => {
      const materials = whole.materials.map((one) => (one.id === second.materialId ? { ...one, id: 'other', name: 'Other', kind } : one));
      const rooms = [first, { ...second, materialId: 'other' }];
      const job = { ...whole.job, rooms, estimate: { ...whole.job.estimate, options: [], suggestedOptionId: null } };
      return textOf(draftQuote(readJob({ ...whole, job, materials: [...whole.materials, ...materials] }, NOW), NOW));
    };
    expect(words('cement-topping')).toMatch(
      /pour self-leveling topping.*pour self-leveling underlayment|pour self-leveling underlayment.*pour self-leveling topping/,
    );
    expect(words('calcium-sulfate')).toContain('pour gypsum-based underlayment');
    expect(textOf(draftQuote(readJob(wholeOf('26-022'), NOW), NOW))).toContain('In the workshop we pour self-leveling topping');
  });

  it('gives one period for the climate of the rooms: in its assumptions, its terms, and the letter before', () => {
    const whole = wholeOf('26-031');
    const period = 'from two days before the pour until three days after it.';
    const printed = textOf(issueBoth(whole).tree);
    expect(printed).toMatch(new RegExp(`normal heating and cooling, ${period}`));
    expect(printed).toMatch(new RegExp(`Keep the rooms at [^.]+ ${period}`));
    const letter = preparationLetter({ reading: readJob(whole, NOW), photos: [], now: NOW, revision: 1, changes: [] });
    // The same figures as the quote's.
    expect(textOf(letter)).toContain(`Keep the rooms at a steady 60 °F to 75 °F ${period}`);
    expect(printed).toContain('60 °F to 75 °F');
  });

  it('fills the blanks of the clauses and leaves out a sentence whose blank is empty', () => {
    const whole = wholeOf('26-031');
    const empty = { ...whole.business.contract, paymentMethods: '', lateChargeShare: null, warrantyMonths: null, clauses: [] };
    const plain = textOf(issueBoth({ ...whole, business: { ...whole.business, contract: empty } }).tree);
    expect(plain).not.toContain('late charge');
    expect(plain).not.toContain('Warranty.');
    const contract = { ...empty, lateChargeShare: 0.015, warrantyMonths: 12, paymentMethods: 'check or card' };
    const printed = textOf(issueBoth({ ...whole, business: { ...whole.business, contract } }).tree);
    expect(printed).toContain('An overdue balance bears a late charge of 1.5% per month.');
    expect(printed).toContain('for 12 months from the day of handover');
    expect(printed).toContain('We accept check or card.');
    expect(printed).not.toMatch(/\{[a-z]+\}/i.exec(printed.replaceAll('{pages}', ''))?.[0] ?? '{{');
  });

  it('says no hours of a business without a working day', () => {
    const whole = wholeOf('26-031');
    const access = (days: number[]) => {
      const business = {
        ...whole.business,
        hours: { ...whole.business.hours, days },
        contract: { ...whole.business.contract, clauses: [] },
      };
      return /Access and hours\.\s+.*/.exec(textOf(issueBoth({ ...whole, business }).tree))?.[0];
    };
    expect(access([1, 2, 3, 4, 5])).toMatch(
      /hours\.\s+We work Monday to Friday, \S+ am to \S+ pm, and on any other day named in this quote\. Please arrange access/,
    );
    expect(access([])).toMatch(/hours\.\s+Please arrange access/);
  });

  it('states one end of the warranty, also where the job has its own', () => {
    const whole = wholeOf('26-031');
    const contract = { ...whole.business.contract, warrantyMonths: 12, clauses: [] };
    const own = { ...whole, business: { ...whole.business, contract }, job: { ...whole.job, defectsUntil: '2028-11-29' } };
    const certificate = warrantyCertificate({ reading: readJob(own, NOW), photos: [], now: NOW, revision: 1, changes: [] });
    for (const printed of [textOf(issueBoth(own).tree), textOf(certificate)]) {
      expect(printed).toContain('at no charge through November 29, 2028.');
      expect(printed).not.toContain('12 months');
    }
  });
});
