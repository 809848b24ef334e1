/** A quote of ten rooms in three options, inked by this program, beside the same content printed to PDF by Chromium. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { build } from 'esbuild';
import { chromiumArgs } from '../../build/chromium.mjs';
import { chromiumPath } from '../chromium.ts';
import { inkDocument } from '../../main/desk/ink/ink-document.ts';
import { DrawingMarks } from '../../renderer/parts/DrawingMarks.tsx';
import { quoteSheet } from '../../shared-core/documents/quote-sheet.ts';
import type { Block, DocumentTree, Run } from '../../shared-core/documents/tree.ts';
import { freeze } from '../../shared-core/price/issue-quote.ts';
import { estimateJob } from '../../shared-core/price/estimate-job.ts';
import { quotedPrice } from '../../shared-core/price/quoted-price.ts';
import { testFonts } from '../main/desk/working-desk.ts';
import { tenHalls } from '../ten-room-quote.ts';
import { type BenchResult, goalRow, median, plainRow } from './rows.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const NOW = '2026-05-12T12:00:00.000Z';
const ROOMS = 10;
const TURNS = 5;

const escaped = (text: string): string => text.replace(/[&<>]/g, (c) => ({ '&': '&amp;', '<': '&lt;' })[c] ?? '&gt;');
const words = (runs: readonly Run[]): string =>
  runs
    .map((run) =>
      run.bold === true ? `<b>${escaped(run.text)}</b>` : run.italic === true ? `<i>${escaped(run.text)}</i>` : escaped(run.text),
    )
    .join('');

/** The same content as a web page: tables, lists, drawings as SVG. */
function html(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h${block.level}>${escaped(block.text)}</h${block.level}>`;
    case 'paragraph':
      return `<p>${words(block.runs)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${words(item)}</li>`).join('')}</ul>`;
    case 'table': {
      const head = block.columns.map((c) => `<th scope="col" class="${c.align}">${escaped(c.title)}</th>`).join('');
      const row = (cells: readonly Run[][]): string =>
        `<tr>${cells.map((c, i) => `<td class="${block.columns[i]?.align ?? 'start'}">${words(c)}</td>`).join('')}</tr>`;
      return `<table><caption>${escaped(block.caption)}</caption><thead><tr>${head}</tr></thead><tbody>${block.rows.map((r) => row(r.cells)).join('')}</tbody></table>`;
    }
    case 'figure':
      return `<p>${escaped(block.label)} <big>${escaped(block.figure)}</big></p>`;
    case 'drawing': {
      const { width, height, marks } = block.drawing;
      const inked = renderToStaticMarkup(createElement(DrawingMarks, { marks, manner: null }));
      return `<svg role="img" aria-label="${escaped(block.alt)}" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${inked}</svg>`;
    }
    case 'photos':
      return block.photos.map((p) => `<img src="${p.picture}" alt="${escaped(p.caption)}">`).join('');
    case 'columns':
      return `<div class="columns">${block.columns.map((c, i) => `<div style="flex:${block.shares[i] ?? 1}">${c.map(html).join('')}</div>`).join('')}</div>`;
    case 'fields':
      return `<p>${block.fields.map((f) => `${escaped(f.label)} ____________`).join(' ')}</p>`;
    case 'together':
    case 'cover':
      return `<section>${block.blocks.map(html).join('')}</section>`;
    case 'rule':
      return '<hr>';
    case 'page':
      return '<div style="break-after:page"></div>';
  }
}

function page(tree: DocumentTree, fonts: string): string {
  const face = (family: string, file: RegExp, weight: number): string => {
    const name = readdirSync(fonts).find((f) => file.test(f));
    if (name === undefined) throw new Error(`no font like ${String(file)}`);
    return `@font-face{font-family:${family};font-weight:${weight};src:url(data:font/ttf;base64,${readFileSync(`${fonts}/${name}`).toString('base64')})}`;
  };
  const style = `${face('Sans', /SourceSans3_400Regular\.ttf$/, 400)}${face('Sans', /SourceSans3_700Bold\.ttf$/, 700)}${face('Serif', /SourceSerif4_400Regular\.ttf$/, 400)}
    @page{size:letter;margin:0.7in}:root{--ink:#000;--ink2:#000;--line:#000;--faint:#000;--dot:#000}body{font:11pt Sans}h1,h2{font-family:Serif;font-weight:400}
    table{width:100%;border-collapse:collapse}.end{text-align:right}section,svg{break-inside:avoid}.columns{display:flex;gap:24px}.columns svg{max-width:100%;height:auto}`;
  return `<!doctype html><html lang="${tree.language}"><head><title>${escaped(tree.title)}</title><style>${style}</style></head><body><header>${escaped(tree.head.name)}</header>${tree.blocks.map(html).join('')}</body></html>`;
}

async function timed<T>(work: () => Promise<T>): Promise<{ readonly ms: number; readonly value: T }> {
  const start = performance.now();
  const value = await work();
  return { ms: performance.now() - start, value };
}

/** Peak memory of a process and its children, MB; Linux reports each. */
function peakMb(pid: number): number {
  const field = (name: string, id: number): number =>
    Number(new RegExp(`^${name}:\\s+(\\d+)`, 'm').exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1] ?? 0);
  const all = readdirSync('/proc').flatMap((entry) => {
    if (!/^\d+$/.test(entry)) return [];
    try {
      return [{ id: Number(entry), parent: field('PPid', Number(entry)), peak: field('VmHWM', Number(entry)) }];
    } catch {
      return []; // The process ended after it was listed.
    }
  });
  const sum = (id: number): number =>
    (all.find((p) => p.id === id)?.peak ?? 0) + all.filter((p) => p.parent === id).reduce((total, p) => total + sum(p.id), 0);
  return sum(pid) / 1024;
}

/** Peak memory of a process that does nothing but make this document, as the desk does, MB. */
async function deskPeakMb(tree: DocumentTree, fonts: string): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-ink-'));
  const script = join(process.cwd(), '.cache', 'loaded', 'ink-once.mjs');
  try {
    writeFileSync(join(folder, 'tree.json'), JSON.stringify(tree));
    await build({
      stdin: {
        contents: `import { readFileSync } from 'node:fs';
          import { inkDocument } from './main/desk/ink/ink-document.ts';
          const [tree, fonts] = process.argv.slice(2);
          await inkDocument(JSON.parse(readFileSync(tree, 'utf8')), fonts);
          console.log(/VmHWM:\\s+(\\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))[1]);`,
        resolveDir: process.cwd(),
      },
      ...{ outfile: script, bundle: true, platform: 'node', format: 'esm', target: 'node20', packages: 'external', logLevel: 'error' },
    });
    return Number(execFileSync(process.execPath, [script, join(folder, 'tree.json'), fonts], { encoding: 'utf8' })) / 1000;
  } finally {
    removeFolder(folder);
  }
}

const pagesIn = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;

/** Measures both, and checks that both have the whole quote. */
export async function run(): Promise<BenchResult> {
  const whole = tenHalls(NOW);
  const frozen = freeze(whole);
  const fonts = testFonts();
  const tree = quoteSheet({
    frozen,
    priced: quotedPrice(estimateJob(frozen, NOW.slice(0, 10)), frozen.materials),
    holds: [],
    issuedAt: NOW,
    revision: 1,
    validUntil: '2026-06-11',
  });
  const source = page(tree, fonts);

  await inkDocument(tree, fonts);
  const inked = await inkDocument(tree, fonts);
  const ours: number[] = [];
  for (let i = 0; i < TURNS; i += 1) ours.push((await timed(() => inkDocument(tree, fonts))).ms);
  const ourMb = await deskPeakMb(tree, fonts);

  const start = performance.now();
  const server = await chromium.launchServer({ executablePath: chromiumPath(), args: chromiumArgs() });
  const browser = await chromium.connect(server.wsEndpoint());
  const tab = await browser.newPage();
  const startMs = performance.now() - start;
  const theirs: number[] = [];
  let printed: Buffer = Buffer.alloc(0);
  let theirMb: number;
  try {
    for (let i = 0; i < TURNS; i += 1) {
      const { ms, value } = await timed(async () => {
        await tab.setContent(source, { waitUntil: 'load' });
        return tab.pdf({ preferCSSPageSize: true, tagged: true });
      });
      theirs.push(ms);
      printed = value;
    }
    theirMb = peakMb(server.process().pid ?? 0);
  } finally {
    await browser.close();
    await server.close();
  }
  const [a, b] = [median(ours), median(theirs)];
  const pages = pagesIn(printed);
  if (inked.pages < ROOMS / 3 || pages < ROOMS / 3) throw new Error(`Not the whole quote: ${inked.pages} and ${pages} pages.`);
  const ratio = (x: number, y: number): string => (x / y).toFixed(2);
  return {
    title: `A quote of ${ROOMS} rooms in ${1 + whole.job.estimate.options.length} ways as a tagged PDF, median of ${TURNS}`,
    rows: [plainRow('printed by Chromium, already running', b), goalRow('made by the desk', a, b, { times: 0.5 })],
    notes: [
      `Chromium over ours: time ${ratio(b, a)}, with its start ${ratio(b + startMs, a)}, size ${ratio(printed.length, inked.pdf.length)}, memory ${ratio(theirMb, ourMb)}.`,
      `Ours has ${inked.pages} pages and ${Math.round(inked.pdf.length / 1024)} kB; Chromium’s ${pages} pages and ${Math.round(printed.length / 1024)} kB.`,
      `Memory is the most ever held: ours ${Math.round(ourMb)} MB (goal: 200) by a process that makes it; Chromium’s by all its processes.`,
      'Each sets the same blocks: words, tables and the same marks of the same drawings.',
    ],
  };
}
