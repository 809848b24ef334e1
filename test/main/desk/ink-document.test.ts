/** Documents are checked as files by qpdf and read back by pdftotext. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import { quoteSheet } from '../../../shared-core/documents/quote-sheet.ts';
import type { Block, DocumentTree } from '../../../shared-core/documents/tree.ts';
import { sampleAt } from '../../sample-at.ts';
import { testFonts } from './working-desk.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const folder = scratchFolder('ink');
const run = (text: string) => [{ text }];
const tree = (blocks: Block[], more: Partial<DocumentTree> = {}): DocumentTree => ({
  title: 'Quote 26-031',
  subject: 'A quote',
  author: 'An invented business',
  language: 'en-US',
  paper: 'letter',
  madeAt: '2026-05-12T10:00:00Z',
  head: { name: 'An invented business', lines: ['12 Quarry Road'], mark: null, right: ['Quote 26-031, page {page} of {pages}'] },
  blocks,
  foot: 'Set with Straightedge',
  ...more,
});
const ink = async (name: string, of: DocumentTree): Promise<{ path: string; pages: number; bytes: Buffer }> => {
  const { pdf, pages } = await inkDocument(of, testFonts());
  const path = join(folder, `${name}.pdf`);
  writeFileSync(path, pdf);
  return { path, pages, bytes: pdf };
};
const textOf = (path: string, ...options: string[]): string =>
  execFileSync('pdftotext', [...options, '-layout', path, '-'], { encoding: 'utf8' });
const infoOf = (path: string): string => execFileSync('pdfinfo', [path], { encoding: 'utf8' });
const structureOf = (path: string): string => execFileSync('pdfinfo', ['-struct-text', path], { encoding: 'utf8' });
const rows = (count: number) => Array.from({ length: count }, (_, i) => ({ cells: [run(`Line ${i + 1}`), run(`${i + 1}.00`)] }));
const table = (count: number): Block => ({
  kind: 'table',
  caption: 'Lines',
  columns: [
    { title: 'What', align: 'start', share: null },
    { title: 'How much', align: 'end', share: 0.3 },
  ],
  rows: rows(count),
  pointedColumn: null,
  pointedNote: '',
});

describe('inking a document', () => {
  it('gives a valid, tagged PDF/A in the language of the document', async () => {
    const { path, bytes } = await ink(
      'sound',
      tree([
        { kind: 'heading', level: 1, text: 'To level your hall' },
        { kind: 'paragraph', runs: run('It is 1¾″ out of level.') },
      ]),
    );
    expect(execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors');
    expect(infoOf(path)).toMatch(/Tagged:\s+yes/);
    const text = bytes.toString('latin1');
    expect(text).toContain('<pdfaid:part>2</pdfaid:part>');
    expect(text).toContain('<pdfaid:conformance>A</pdfaid:conformance>');
    expect(text).toMatch(/\/Lang \(en-US\)/);
  });

  it('embeds every font', async () => {
    const { path } = await ink(
      'fonts',
      tree([{ kind: 'paragraph', runs: [{ text: 'plain ' }, { text: 'bold ', bold: true }, { text: 'slanting', italic: true }] }]),
    );
    const fonts = execFileSync('pdffonts', [path], { encoding: 'utf8' }).trim().split('\n').slice(2);
    expect(fonts.length).toBeGreaterThanOrEqual(3);
    for (const line of fonts) expect(line).toMatch(/\s+yes yes yes\s/);
  });

  it('keeps fractions, primes and quotes as text that can be searched', async () => {
    const { path } = await ink('glyphs', tree([{ kind: 'paragraph', runs: run('13′ 8½″ and ⅜″, “about” ½″') }]));
    expect(textOf(path)).toContain('13′ 8½″ and ⅜″, “about” ½″');
  });

  it('ends no line inside a measurement, a range of pH, or a regulation with its sections, and cuts one wider than the line between its words', async () => {
    const whole = [
      'pH 12 to 13',
      '29 CFR 1926.1153(c), (f), (g)',
      '40 CFR 745.82, .83, .85',
      '40 CFR 745, subpart E',
      '1 1/2 in.',
      '300 rpm',
    ];
    // Each stands at forty places along the line, so that some fall on its end.
    const blocks = whole.flatMap((held) =>
      Array.from(
        { length: 40 },
        (_, i): Block => ({ kind: 'paragraph', runs: run(`${'word '.repeat(12)}${'i'.repeat(i)} (${held}) after`) }),
      ),
    );
    const { path } = await ink('held', tree(blocks));
    const lines = textOf(path).replaceAll('\u00a0', ' ').split('\n');
    for (const held of whole)
      expect(
        lines.filter((line) => line.includes(`(${held})`)),
        held,
      ).toHaveLength(40);
    const narrow = await ink(
      'narrow',
      tree([{ kind: 'columns', shares: [1, 6], columns: [[{ kind: 'paragraph', runs: run('29 CFR 1926.1153(c), (f), (g)') }], []] }]),
    );
    expect(textOf(narrow.path).replaceAll('\u00a0', ' ')).toMatch(/^\s*29 CFR\s*$/m);
  });

  it('leaves a margin between the last line of a full page and the line at the foot', async () => {
    const { path } = await ink('foot', tree(Array.from({ length: 120 }, (_, i): Block => ({ kind: 'paragraph', runs: run(`Line ${i}`) }))));
    const boxes = execFileSync('pdftotext', ['-bbox', path, '-'], { encoding: 'utf8' });
    // The foot line of Letter paper is 40 points from the edge.
    for (const page of boxes.split('<page ').slice(1, -1)) {
      const words = [...page.matchAll(/yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">([^<]+)</g)];
      const foot = Math.min(...words.filter(([, , , word]) => word === 'Straightedge').map(([, top]) => Number(top)));
      const last = Math.max(...words.filter(([, top]) => Number(top) < foot - 1).map(([, , end]) => Number(end)));
      expect(792 - 40 - last).toBeGreaterThanOrEqual(14);
    }
  });

  it('repeats a table’s head on each page, breaks no row, and loses none', async () => {
    const { path, pages } = await ink('long', tree([{ kind: 'heading', level: 1, text: 'Many lines' }, table(90)]));
    expect(pages).toBeGreaterThan(2);
    for (let page = 1; page <= pages; page += 1) {
      const text = textOf(path, '-f', String(page), '-l', String(page));
      expect(text).toContain('How much');
      expect(text).toContain(`page ${page} of ${pages}`);
    }
    const all = textOf(path);
    for (let i = 1; i <= 90; i += 1) expect(all).toMatch(new RegExp(`Line ${i}\\s+${i}\\.00`));
  });

  it('leaves no heading at the foot of a page', async () => {
    for (let filler = 30; filler < 42; filler += 1) {
      const { path, pages } = await ink(
        'orphans',
        tree([
          { kind: 'list', marker: 'none', items: Array.from({ length: filler }, (_, i) => run(`item ${i}`)) },
          { kind: 'heading', level: 2, text: 'A heading' },
          { kind: 'paragraph', runs: run('Its first words.') },
        ]),
      );
      const withHeading = Array.from({ length: pages }, (_, i) => textOf(path, '-f', String(i + 1), '-l', String(i + 1))).find((text) =>
        text.includes('A heading'),
      );
      expect(withHeading).toContain('Its first words.');
    }
  });

  const pageWith = (path: string, pages: number, words: string): number =>
    Array.from({ length: pages }, (_, i) => textOf(path, '-f', String(i + 1), '-l', String(i + 1))).findIndex((text) =>
      text.includes(words),
    ) + 1;
  const plan: Block = {
    kind: 'drawing',
    alt: 'Plan',
    caption: '',
    gives: true,
    drawing: {
      width: 696,
      height: 500,
      marks: [{ kind: 'path', rings: [{ xy: [0, 0, 696, 500], closed: false }], pen: 'cut', ink: 'ink', fill: null, dash: null }],
    },
  };
  const lines = (count: number): Block => ({
    kind: 'list',
    marker: 'none',
    items: Array.from({ length: count }, (_, i) => run(`item ${i}`)),
  });

  it.each([
    [5, 1, 2, 'with room to spare'],
    [16, 1, 2, 'its drawing giving way'],
    [24, 2, 2, 'too much for one page'],
  ])('sets a cover of %i lines to page %i and what follows to page %i: %s', async (count, signedOn, followsOn) => {
    const { path, pages } = await ink(
      `cover-${count}`,
      tree([
        { kind: 'cover', blocks: [plan, lines(count), { kind: 'fields', fields: [{ label: 'Accepted by', share: 1 }] }] },
        { kind: 'heading', level: 1, text: 'What follows' },
      ]),
    );
    expect(pageWith(path, pages, 'Accepted by')).toBe(signedOn);
    expect(pageWith(path, pages, 'What follows')).toBe(followsOn);
    expect(pages).toBe(2);
  });

  it('puts at least three rows under the head of a table', async () => {
    for (let filler = 33; filler < 38; filler += 1) {
      const { path, pages } = await ink('opening', tree([lines(filler), table(12)]));
      const on = pageWith(path, pages, 'How much');
      expect(textOf(path, '-f', String(on), '-l', String(on))).toMatch(/Line 3\s/);
    }
  });

  it('describes figures and tables for screen readers', async () => {
    const { path, bytes } = await ink(
      'tags',
      tree([
        table(2),
        {
          kind: 'drawing',
          alt: 'Plan of the hall',
          caption: '',
          drawing: {
            width: 100,
            height: 50,
            marks: [{ kind: 'path', rings: [{ xy: [0, 0, 100, 50], closed: false }], pen: 'cut', ink: 'ink', fill: null, dash: null }],
          },
        },
      ]),
    );
    const structure = structureOf(path);
    for (const name of ['Table', 'TR', 'TH', 'TD', 'Figure']) expect(structure).toContain(name);
    expect(bytes.toString('latin1')).toContain('/Alt (Plan of the hall)');
  });

  it('gives the same bytes for the same content', async () => {
    const of = tree([table(3)]);
    const [a, b] = [await ink('a', of), await ink('b', of)];
    expect(a.bytes.equals(b.bytes)).toBe(true);
  });

  it('gives the same bytes in a new program as in one that has measured much', async () => {
    const [quote] = sampleAt('2026-05-12T11:05:00.000Z').quotes;
    if (quote === undefined) throw new Error('The sample has no quote.');
    const of = quoteSheet(quote);
    vi.resetModules();
    const fresh = await import('../../../main/desk/ink/ink-document.ts');
    const inks = [fresh.inkDocument, fresh.inkDocument, inkDocument];
    const pdfs: Buffer[] = [];
    for (const one of inks) pdfs.push((await one(of, testFonts())).pdf);
    expect(pdfs.map((pdf) => pdf.equals(pdfs[0] ?? Buffer.alloc(0)))).toEqual([true, true, true]);
  });

  it.each(['letter', 'a4'] as const)('fits %s', async (paper) => {
    const { path } = await ink(paper, tree([table(2)], { paper }));
    expect(infoOf(path)).toMatch(paper === 'letter' ? /612 x 792/ : /595\.28 x 841\.89/);
  });

  it('prints in black only', async () => {
    const chalk: Block = {
      kind: 'drawing',
      alt: 'x',
      caption: '',
      drawing: {
        width: 40,
        height: 40,
        marks: [
          { kind: 'path', rings: [{ xy: [0, 0, 40, 0, 40, 40], closed: true }], pen: 'cut', ink: 'chalk', fill: 'chalk', dash: null },
        ],
      },
    };
    const { path } = await ink('black', tree([chalk]));
    execFileSync('pdftoppm', ['-r', '40', '-png', path, join(folder, 'black')]);
    const ppm = execFileSync('pdftoppm', ['-r', '40', path]);
    const pixels = ppm.subarray(ppm.indexOf('255\n') + 4);
    let colored = 0;
    for (let i = 0; i + 2 < pixels.length; i += 3) if (Math.abs((pixels[i] ?? 0) - (pixels[i + 2] ?? 0)) > 6) colored += 1;
    expect(colored).toBe(0);
  });

  it('breaks a word wider than the column', async () => {
    const { path } = await ink('long-word', tree([{ kind: 'paragraph', runs: run('x'.repeat(400)) }]));
    const lines = textOf(path)
      .split('\n')
      .filter((line) => /^\s*x+\s*$/.test(line));
    expect(lines.length).toBeGreaterThan(3);
    expect(lines.join('').replace(/\s/g, '')).toHaveLength(400);
  });

  it('breaks a name with a hyphen wider than the column after its hyphen', async () => {
    const text: Block = { kind: 'paragraph', runs: run('Underlayment-Contractors Company') };
    const { path } = await ink('hyphen', tree([{ kind: 'columns', shares: [1, 4], columns: [[text], []] }]));
    expect(textOf(path)).toMatch(/^\s*Underlayment-\s*\n\s*Contractors/m);
  });

  it('keeps every line of a field: a long name below its label, and what follows below both', async () => {
    const company = 'Blackstone Valley Self-Leveling Floors and Underlayment Company, signature';
    const name = 'The Harold and Margaret Lindqvist Revocable Living Trust';
    // One drawn point, so that the field has a signature.
    const picture =
      'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==';
    const { path } = await ink(
      'fields',
      tree([
        {
          kind: 'fields',
          fields: [
            { label: company, share: 0.42, picture },
            { label: 'Printed name', share: 0.36, value: name },
            { label: 'Date', share: 0.22 },
          ],
        },
        { kind: 'paragraph', runs: run('Following') },
      ]),
    );
    const words = [
      ...execFileSync('pdftotext', ['-bbox', path, '-'], { encoding: 'utf8' }).matchAll(
        /xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)</g,
      ),
    ].map(([, left, top, right, end, word = '']) => ({
      left: Number(left),
      top: Number(top),
      right: Number(right),
      end: Number(end),
      word,
    }));
    const at = (word: string): (typeof words)[number] => words.find((each) => each.word === word) ?? expect.fail(`${word} is not printed`);
    for (const word of [...company.split(' '), ...name.split(' ')]) at(word);
    // The label of the signature has more than one line, and the name too.
    expect(at('signature').top).toBeGreaterThan(at('Blackstone').top + 5);
    expect(at('Trust').top).toBeGreaterThan(at('Harold').top + 5);
    expect(at('Harold').top).toBeGreaterThan(at('Printed').end - 3);
    expect(at('Following').top).toBeGreaterThan(Math.max(at('Trust').end, at('signature').end));
    expect(Math.max(...company.split(' ').map((word) => at(word).right))).toBeLessThan(at('Printed').left);
    expect(Math.max(...name.split(' ').map((word) => at(word).right))).toBeLessThan(at('Date').left);
  });

  it('keeps every word of a long company name and its license on the head of each page, beside the page number', async () => {
    const name = 'Blackstone Valley Self-Leveling Floors and Underlayment Company';
    const license = 'Home improvement contractor registration 1234567, construction supervisor license CS-098765';
    const { path, pages } = await ink(
      'head',
      tree([table(60)], {
        head: { name, lines: ['12 Quarry Road', license], mark: null, right: ['Quote 26-031, page {page} of {pages}'] },
      }),
    );
    expect(pages).toBeGreaterThan(1);
    const boxes = execFileSync('pdftotext', ['-bbox', path, '-'], { encoding: 'utf8' }).split('<page ').slice(1);
    for (const [i, page] of boxes.entries()) {
      const words = [...page.matchAll(/yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)</g)].map(
        ([, top, right, end, word = '']) => ({ top: Number(top), right: Number(right), end: Number(end), word }),
      );
      const head = words.slice(
        0,
        words.findIndex(({ word }) => word === 'What'),
      );
      const quote = words.find(({ word }) => word === 'Quote') ?? expect.fail('no page number');
      const quoteLeft = Number(/xMin="([\d.]+)"[^>]*>Quote</.exec(page)?.[1]);
      for (const word of [...name.split(' '), ...(i === 0 ? license.split(' ') : [])]) {
        const found = head.find((each) => each.word === word) ?? expect.fail(`page ${i + 1} lacks ${word}`);
        if (found.top < quote.end) expect(found.right).toBeLessThan(quoteLeft);
      }
      // What follows is below the head.
      const below = words.find(({ word }) => word === 'What') ?? expect.fail('no table');
      expect(below.top).toBeGreaterThan(Math.max(...head.map(({ end }) => end)) - 1);
    }
  });
});
