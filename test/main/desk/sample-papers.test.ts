/**
 * Every document of the sample data as a PDF, Letter and A4, read by readers that are not the program's: pdf.js for the structure
 * tree, the outline, the page labels and the words; qpdf for the file. ISO 14289-1 (PDF/UA-1) asks for a title that is shown, headings
 * without gaps (7.4.2), tables with header cells (7.5) and figures with alternative text (7.3). What is printed is compared with the
 * records by Intl, not by the program's own formats.
 */
import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import type { Block } from '../../../shared-core/documents/tree.ts';
import { daysOf, type Figure, figuresOf, isKnown, type Known } from './figures.ts';
import { CONSTANTS, knownOfJob } from './known-figures.ts';
import { type SamplePaper, samplePapers } from '../../shared-core/documents/paper-set.ts';
import { readPdf } from './read-pdf.ts';
import { tableProblems } from './table-figures.ts';
import { testFonts } from './working-desk.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const papers = samplePapers(NOW);
const folder = scratchFolder('papers');

const flat = (blocks: readonly Block[]): readonly Block[] =>
  blocks.flatMap((b) =>
    b.kind === 'columns' ? flat(b.columns.flat()) : b.kind === 'together' || b.kind === 'cover' ? flat(b.blocks) : [b],
  );
const plain = (words: string): string => words.replace(/\s+/g, ' ').trim();
const titlesOf = (outline: Awaited<ReturnType<typeof readPdf>>['outline']): string[] =>
  outline.flatMap((o) => [o.title, ...titlesOf(o.items as typeof outline)]);

const addDays = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** Figures that several documents of a job state under one name; `of` tells rooms apart. */
const SAME_NAME: readonly (readonly [string, RegExp])[] = [
  // An invoice from before the change orders has the total as it was then, after a colon.
  [
    'contract total',
    /(?:(?<of>Contract total:)|Contract total|Contract total with signed change orders:|New contract total) (?<figure>\$[\d,]+\.\d\d)/gu,
  ],
  ['balance due', /(?:Balance due|Total due now) (?<figure>\$[\d,]+\.\d\d)/gu],
  ['placed', /(?<of>[A-Z][\p{L} ]+?) (?<figure>[A-Z][a-z]{2} \d{1,2} Self-leveling underlayment, fine \d+ L\w+ [^A-Z]+″ [^A-Z]+?″)/gu],
  ['flatness', /(?<of>[A-Z][\p{L} ]+?) (?<figure>\S+″ \S+″ (?:Not measured|\S+″) \S+″ in \d+ ft)/gu],
  ['moisture result', /75% RH (?<of>)(?<figure>\d+% on [A-Z][a-z]{2} \d{1,2})/gu],
  ['bags to bring', /(?:Stage bags and tools[^#]*?|Bags )(?<of>)(?<figure>\d+) bags(?= in \d+ stacks?, counted)/gu],
  ['warranty', /(?:Warranty through|Ends \w+,) (?<figure>[A-Z][a-z]+ \d{1,2}, \d{4})/gu],
];

/** What was read on Letter paper, for the checks of figures further down. */
const onLetter = new Map<string, Awaited<ReturnType<typeof readPdf>>>();

/** Documents that must not run on: the family’s two pages, the installer’s one, the crew’s one with its details behind. */
const MOST_PAGES: Readonly<Record<string, number>> = { handover: 2, 'installer-page': 1, 'pour-day-sheet': 2 };

const files: string[] = [];
const runFile = promisify(execFile);

describe.each(['letter', 'a4'] as const)('on %s paper', (paper) => {
  it.each(papers.map((one) => [one.name, one] as const))(
    '%s reads in order: headings, tables, figures, bookmarks, labels',
    async (name, { tree, kind }) => {
      const { pdf, pages } = await inkDocument({ ...tree, paper }, testFonts());
      expect(pages).toBeLessThanOrEqual(MOST_PAGES[kind] ?? 20);
      files.push(join(folder, `${files.length}.pdf`));
      writeFileSync(files.at(-1) ?? '', pdf);
      const read = await readPdf(pdf);
      if (paper === 'letter') onLetter.set(name, read);
      const blocks = flat(tree.blocks);
      const headings = blocks.flatMap((b) => (b.kind === 'heading' ? [{ role: `H${b.level}`, words: plain(b.text) }] : []));
      expect(read.met.filter(({ role }) => /^H[1-6]$/.test(role))).toEqual(headings);
      expect(headings.filter(({ role }) => role === 'H1')).toHaveLength(1);
      headings.reduce((before, { role }) => {
        expect(Number(role.slice(1)), role).toBeLessThanOrEqual(before + 1);
        return Number(role.slice(1));
      }, 0);
      expect(titlesOf(read.outline)).toEqual(headings.map(({ words }) => words));
      expect(read.labels).toEqual(Array.from({ length: pages }, (__, i) => String(i + 1)));
      expect(new Set(read.met.filter(({ role }) => role === 'Table')).size > 0).toBe(blocks.some((b) => b.kind === 'table'));
      expect(read.met.some(({ role }) => role === 'TH')).toBe(blocks.some((b) => b.kind === 'table'));
      // No head is cut inside a word.
      const heads = new Set(blocks.flatMap((b) => (b.kind === 'table' ? b.columns.flatMap(({ title }) => title.split(/\s+/)) : [])));
      const printed = new Set(read.tables.flatMap(([head = []]) => head.flatMap((cell) => cell.split(/\s+/))));
      expect([...heads].filter((word) => !printed.has(word))).toEqual([]);
      const figures = read.met.filter(({ role }) => role === 'Figure');
      for (const figure of figures) expect(figure.words).not.toBe('');
      for (const drawing of blocks.flatMap((b) => (b.kind === 'drawing' ? [plain(b.alt)] : [])))
        expect(figures.map(({ words }) => words)).toContain(drawing);
    },
  );
});

it('qpdf finds no fault in any file', async () => {
  // A small process starts them, because a large one takes long to start another.
  const check = `for (const file of process.argv.slice(1)) require('node:child_process').execFileSync('qpdf', ['--check', file])`;
  await runFile(process.execPath, ['-e', check, ...files]);
  expect(files).toHaveLength(2 * papers.length);
}, 120_000);

describe('what is printed', () => {
  const money = (minor: number, currency: string): string =>
    new Intl.NumberFormat('en-US', { style: 'currency', currency }).format(minor / 100);
  const long = (day: string): string =>
    new Intl.DateTimeFormat('en-US', { dateStyle: 'long', timeZone: 'UTC' }).format(new Date(`${day}T00:00:00Z`));
  const readOf = async ({ name, tree }: SamplePaper): Promise<Awaited<ReturnType<typeof readPdf>>> => {
    const known = onLetter.get(name) ?? (await readPdf((await inkDocument(tree, testFonts())).pdf));
    onLetter.set(name, known);
    return known;
  };
  const textOf = async (paper: SamplePaper): Promise<string> => (await readOf(paper)).text;
  const of = (...kinds: readonly string[]): readonly SamplePaper[] => papers.filter(({ kind }) => kinds.includes(kind));

  it('names the job and the customer on every document', async () => {
    for (const paper of papers) {
      const text = await textOf(paper);
      expect(text, paper.name).toContain(paper.reading.whole.job.number);
    }
  }, 120_000);

  it('explains every figure and date by the records and by plain arithmetic', async () => {
    const constants = new Set(CONSTANTS.map(([words]) => words));
    const explained = new Map<string, Known>();
    const unexplained: string[] = [];
    let checked = 0;
    for (const paper of papers) {
      const { reading, name } = paper;
      const known = explained.get(reading.whole.job.id) ?? knownOfJob(reading, NOW);
      explained.set(reading.whole.job.id, known);
      const { text, drawn } = await readOf(paper);
      // A text of the records, such as a name or a note, has figures of its own.
      const own = [...known.strings]
        .toSorted((a, b) => b.length - a.length)
        .reduce((rest, words) => rest.replaceAll(words, ' '), plain(text));
      const days = [...known.days].toSorted();
      const years = [...new Set(days.map((day) => Number(day.slice(0, 4))))];
      const isOnAxis = (figure: Figure): boolean =>
        figure.dimension === 'date' &&
        daysOf(figure.text, years).some((day) => day >= addDays(days[0] ?? '', -1) && day <= (days.at(-1) ?? ''));
      const figures = [
        ...figuresOf(own).map((figure) => ({ figure, isFine: isKnown(figure, known, years) })),
        // The days along a drawing's axis stand a week apart; bare numbers in a drawing are of its scale.
        ...figuresOf(plain(drawn))
          .filter(({ dimension }) => dimension !== 'plain')
          .map((figure) => ({ figure, isFine: isKnown(figure, known, years) || isOnAxis(figure) })),
      ];
      checked += figures.length;
      for (const { figure, isFine } of figures)
        if (!isFine && !constants.has(figure.text)) unexplained.push(`${name}: ${figure.dimension} ${figure.text}`);
    }
    expect(unexplained).toEqual([]);
    expect(checked).toBeGreaterThan(2_000);
  }, 120_000);

  it('has tables whose sums, numbers and rows are those of the records', async () => {
    const wrong: string[] = [];
    let rows = 0;
    for (const paper of papers) {
      const found = tableProblems((await readOf(paper)).tables, paper.reading);
      rows += found.rows;
      wrong.push(...found.problems.map((problem) => `${paper.name}: ${problem}`));
    }
    expect(wrong).toEqual([]);
    expect(rows).toBeGreaterThan(300);
  }, 120_000);

  it('notices a figure, a time, a duration or a date that no record explains', async () => {
    const paper = papers.find(({ kind, reading }) => kind === 'job-record' && reading.whole.job.number === '26-024');
    if (paper === undefined) throw new Error('The sample has the job record of 26-024.');
    const known = knownOfJob(paper.reading, NOW);
    const isExplained = (text: string): boolean => figuresOf(text).every((figure) => isKnown(figure, known, [2026]));
    // Each second text is one step from the first, which is printed.
    for (const [printed, changed] of [
      ['November 12, 2026, 2:44 pm', 'November 12, 2026, 2:47 pm'],
      ['12:04 pm', '12:06 pm'],
      ['30 s', '31 s'],
      ['$6,091.83', '$6,091.84'],
      ['252 sq ft', '255 sq ft'],
      ['6.72 qt', '6.79 qt'],
      ['Nov 13, 6:20 am', 'Nov 13, 6:21 am'],
      ['November 12, 2026', 'December 9, 2026'],
    ] as const) {
      expect(figuresOf(printed), printed).toHaveLength(1);
      expect(isExplained(printed), printed).toBe(true);
      expect(isExplained(changed), changed).toBe(false);
    }
    const { tables } = await readOf(paper);
    const withOne = (from: string, to: string) => tables.map((table) => table.map((row) => row.map((cell) => cell.replace(from, to))));
    for (const [from, to] of [
      ['Batch 3 placed: 2 bags', 'Batch 3 placed: 3 bags'],
      ['12:07 pm', '12:08 pm'],
    ] as const)
      expect(tableProblems(withOne(from, to), paper.reading).problems, from).not.toEqual([]);
  }, 120_000);

  it('gives figures of one name alike on every document of a job', async () => {
    let compared = 0;
    for (const [name, pattern] of SAME_NAME)
      for (const job of new Set(papers.map(({ reading }) => reading.whole.job.number))) {
        const said = new Map<string, Set<string>>();
        for (const paper of papers.filter(
          ({ reading, kind, stored }) => reading.whole.job.number === job && !stored && kind !== 'quote-draft',
        ))
          for (const { groups } of (await textOf(paper)).matchAll(pattern)) {
            const of = groups?.['of'] ?? '';
            said.set(of, (said.get(of) ?? new Set()).add(groups?.['figure'] ?? ''));
            compared += 1;
          }
        for (const [of, figures] of said) expect([...figures], `${job}, ${name} ${of}`).toHaveLength(1);
      }
    expect(compared).toBeGreaterThan(60);
  }, 120_000);

  it('gives the total and the last day of each quote as recorded', async () => {
    const quotes = of('quote').filter(({ name }) => name.includes('Quote'));
    expect(quotes.length).toBeGreaterThan(0);
    for (const paper of quotes) {
      const text = await textOf(paper);
      const own = paper.reading.whole.quotes.filter(
        (q) => text.includes(money(q.totalMinor, q.currency)) && text.includes(long(q.validUntil)),
      );
      expect(own.length, paper.name).toBeGreaterThan(0);
    }
  }, 60_000);

  it('shows the bags placed in each room, counted from the log, on the handover sheet and in the job record', async () => {
    const sheets = of('handover', 'job-record');
    let compared = 0;
    for (const paper of sheets) {
      const text = await textOf(paper);
      const { whole } = paper.reading;
      const undone = new Set(whole.pourEvents.flatMap((e) => (e.kind === 'undone' ? [e.eventId] : [])));
      for (const pour of whole.pours.filter((p) => p.finishedAt !== null && p.roomIds.length === 1)) {
        const bags = whole.pourEvents.reduce(
          (all, e) => all + (e.kind === 'placed' && e.pourId === pour.id && !undone.has(e.id) ? e.bags : 0),
          0,
        );
        if (bags === 0) continue;
        // The record lists each batch, the handover sheet their total.
        const room = whole.rooms.find(({ id }) => id === pour.roomIds[0])?.name ?? '';
        const batches = [...text.matchAll(new RegExp(`placed: ([\\d.]+) bags?, ${room}`, 'g'))].map((found) => Number(found[1]));
        if (paper.kind === 'job-record')
          expect(
            batches.reduce((all, one) => all + one, 0),
            `${paper.name}: ${room}`,
          ).toBeCloseTo(bags, 6);
        else expect(text, `${paper.name}: ${bags} bags`).toMatch(new RegExp(`\\b${bags}\\b`));
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(3);
  }, 60_000);

  it('joins no words at the ends of lines', async () => {
    for (const paper of papers) {
      const text = await textOf(paper);
      for (const block of flat(paper.tree.blocks))
        if (block.kind === 'paragraph') {
          const words = plain(block.runs.map((run) => run.text).join('')).replace('{pages}', '');
          if (!words.includes('\u00ad') && !block.runs.some((run) => run.counted)) expect(text, paper.name).toContain(words);
        }
    }
  }, 120_000);
});
