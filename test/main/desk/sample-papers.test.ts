/**
 * Every document of the sample data as a PDF, Letter and A4, read by readers that are not the program's: pdf.js for the structure
 * tree, the outline, the page labels and the words; qpdf for the file. ISO 14289-1 (PDF/UA-1) asks for a title that is shown, headings
 * without gaps (7.4.2), tables with header cells (7.5) and figures with alternative text (7.3). What is printed is compared with the
 * records by Intl, not by the program's own formats.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import type { Block, DocumentTree } from '../../../shared-core/documents/tree.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { testFonts } from './working-desk.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const book = sampleAt(NOW);
const readings = wholeJobsOf(book).map((whole) => readJob(whole, NOW));
const folder = mkdtempSync(join(tmpdir(), 'straightedge-papers-'));
afterAll(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 }));

type Paper = { readonly name: string; readonly kind: string; readonly reading: JobReading; readonly tree: DocumentTree };
const papers: readonly Paper[] = readings.flatMap((reading) => [
  ...DOCUMENTS.filter((entry) => entry.missing(reading) === null).map((entry) => ({
    name: `${reading.whole.job.number} ${entry.kind}`,
    kind: entry.kind as string,
    reading,
    tree: entry.build({ reading, photos: [], now: NOW, revision: 1, changes: [] }),
  })),
  ...book.documents.flatMap((document) => {
    const tree = document.jobId === reading.whole.job.id ? readTree(document.content) : null;
    return tree === null ? [] : [{ name: `${reading.whole.job.number} ${document.title}`, kind: document.kind, reading, tree }];
  }),
]);

/** What a reader of the structure tree gets: headings with their text, tables, and figures with theirs. */
type Met = { readonly role: string; readonly words: string };
type Node = { readonly role?: string; readonly alt?: string; readonly id?: string; readonly children?: readonly Node[] };

async function readPdf(pdf: Buffer) {
  const loaded = await getDocument({ data: new Uint8Array(pdf), useSystemFonts: false, verbosity: 0 }).promise;
  const [met, text]: [Met[], string[]] = [[], []];
  for (let n = 1; n <= loaded.numPages; n += 1) {
    const page = await loaded.getPage(n);
    const { items } = await page.getTextContent({ includeMarkedContent: true });
    const byId = new Map<string, string>();
    const open: string[] = [];
    for (const item of items) {
      if ('str' in item) {
        const words = `${item.str}${item.hasEOL ? ' ' : ''}`;
        for (const id of open) byId.set(id, `${byId.get(id) ?? ''}${words}`);
        text.push(words);
      } else if (item.type.startsWith('begin')) open.push(item.id);
      else {
        open.pop();
        text.push(' ');
      }
    }
    const wordsOf = (node: Node): string =>
      (node.children ?? []).map((c) => (c.role === undefined ? (byId.get(c.id ?? '') ?? '') : wordsOf(c))).join(' ');
    const walk = (node: Node): void => {
      if (node.role !== undefined && /^(H[1-6]|Table|Figure|TH)$/.test(node.role))
        met.push({
          role: node.role,
          words: (node.role === 'Figure' ? (node.alt ?? '') : /^H/.test(node.role) ? wordsOf(node) : '').replace(/\s+/g, ' ').trim(),
        });
      for (const child of node.children ?? []) walk(child);
    };
    walk(await page.getStructTree());
  }
  const outline = await loaded.getOutline();
  const labels = await loaded.getPageLabels();
  const result = { met, text: text.join('').replace(/\s+/g, ' '), outline, labels, pages: loaded.numPages };
  await loaded.destroy();
  return result;
}

const flat = (blocks: readonly Block[]): readonly Block[] =>
  blocks.flatMap((b) =>
    b.kind === 'columns' ? flat(b.columns.flat()) : b.kind === 'together' || b.kind === 'cover' ? flat(b.blocks) : [b],
  );
const plain = (words: string): string => words.replace(/\s+/g, ' ').trim();
const titlesOf = (outline: Awaited<ReturnType<typeof readPdf>>['outline']): string[] =>
  outline.flatMap((o) => [o.title, ...titlesOf(o.items as typeof outline)]);

describe.each(['letter', 'a4'] as const)('on %s paper', (paper) => {
  it.each(papers.map((one) => [one.name, one] as const))(
    '%s reads in order: headings, tables, figures, bookmarks, labels',
    async (_, { tree }) => {
      const { pdf, pages } = await inkDocument({ ...tree, paper }, testFonts());
      const read = await readPdf(pdf);
      const path = join(folder, 'one.pdf');
      writeFileSync(path, pdf);
      execFileSync('qpdf', ['--check', path], { stdio: 'pipe' });
      const blocks = flat(tree.blocks);
      const headings = blocks.flatMap((b) => (b.kind === 'heading' ? [{ role: `H${b.level}`, words: plain(b.text) }] : []));
      expect(read.met.filter(({ role }) => /^H[1-6]$/.test(role))).toEqual(headings);
      expect(headings.filter(({ role }) => role === 'H1')).toHaveLength(1);
      expect(titlesOf(read.outline)).toEqual(headings.map(({ words }) => words));
      expect(read.labels).toEqual(Array.from({ length: pages }, (__, i) => String(i + 1)));
      expect(new Set(read.met.filter(({ role }) => role === 'Table')).size > 0).toBe(blocks.some((b) => b.kind === 'table'));
      expect(read.met.some(({ role }) => role === 'TH')).toBe(blocks.some((b) => b.kind === 'table'));
      const figures = read.met.filter(({ role }) => role === 'Figure');
      for (const figure of figures) expect(figure.words).not.toBe('');
      for (const drawing of blocks.flatMap((b) => (b.kind === 'drawing' ? [plain(b.alt)] : [])))
        expect(figures.map(({ words }) => words)).toContain(drawing);
    },
  );
});

describe('what is printed', () => {
  const money = (minor: number, currency: string): string =>
    new Intl.NumberFormat('en-US', { style: 'currency', currency }).format(minor / 100);
  const long = (day: string): string =>
    new Intl.DateTimeFormat('en-US', { dateStyle: 'long', timeZone: 'UTC' }).format(new Date(`${day}T00:00:00Z`));
  const read = new Map<string, string>();
  const textOf = async ({ name, tree }: Paper): Promise<string> => {
    const known = read.get(name) ?? (await readPdf((await inkDocument(tree, testFonts())).pdf)).text;
    read.set(name, known);
    return known;
  };
  const of = (...kinds: readonly string[]): readonly Paper[] => papers.filter(({ kind }) => kinds.includes(kind));

  it('names the job and the customer on every document', async () => {
    for (const paper of papers) {
      const text = await textOf(paper);
      expect(text, paper.name).toContain(paper.reading.whole.job.number);
    }
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
