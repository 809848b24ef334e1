/**
 * The folder of one job: what is stored is inked again, photos are copied byte for byte, the index lists every file, and the tables are
 * read by two readers that are not the program's: read-excel-file for the workbook, Papa Parse for CSV.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import readWorkbook from 'read-excel-file/node';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { saveJobDocument } from '../../../renderer/book/document-commands.ts';
import { openSampleData } from '../../../renderer/book/sample-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { exportJob } from '../../../renderer/backup/export-lists.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { WorkingDesk } from '../../main/desk/working-desk.ts';
import { pageDesk } from '../page-desk.ts';
import { readPdf } from '../../main/desk/read-pdf.ts';
import { freshBook } from '../book/fresh-book.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const JOB = 'sample-job-abara';

let book: Book;
let desk: WorkingDesk;
let folder: string;
let names: string[];
beforeAll(async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(NOW) });
  book = await freshBook();
  desk = pageDesk();
  expect(await openSampleData(NOW)).toMatchObject({ ok: true });
  const whole = await readWholeJob(JOB);
  const entry = DOCUMENTS.find(({ kind }) => kind === 'before-and-after');
  if (whole === null || entry === undefined) throw new Error('The sample has the job of the three floors.');
  expect(await saveJobDocument(readJob(whole, NOW), entry)).toMatchObject({ ok: true });
  const [photo, paper] = [await book.rowsOf('photos').get({ jobId: JOB }), await book.rowsOf('documents').get({ jobId: JOB })];
  if (photo === undefined || paper === undefined) throw new Error('The sample job has photos and documents.');
  await book.rowsOf('photos').put({ ...photo, id: 'deleted-photo', deletedAt: NOW });
  await book.rowsOf('documents').put({ ...paper, id: 'deleted-document', deletedAt: NOW });
  expect(await exportJob(JOB)).toMatchObject({ ok: true, message: expect.not.stringContaining('left out') });
  folder = join(desk.papers, 'Job 26-024 Adaeze Abara and Jonas Finch');
  names = readdirSync(folder).sort();
}, 120_000);
afterAll(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const isKept = (row: { readonly jobId: string | null; readonly deletedAt: string | null }): boolean =>
  row.jobId === JOB && row.deletedAt === null;
const bytesOf = (name: string): Buffer => readFileSync(join(folder, name));
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

it('has every photo of the job that was not deleted, byte for byte', async () => {
  const photos = (await book.rowsOf('photos').toArray()).filter(isKept);
  const files = names.filter((name) => /^Photo \d{3}\.png$/.test(name));
  expect(photos.length).toBeGreaterThan(3);
  expect(files.map((name) => sha256(bytesOf(name))).sort()).toEqual(photos.map((photo) => photo.sha256).sort());
});

it('has every document of the job, the before-and-after with its photos', async () => {
  const stored = (await book.rowsOf('documents').toArray()).filter(isKept);
  const pdfs = names.filter((name) => name.endsWith('.pdf'));
  expect(pdfs).toHaveLength(stored.length);
  expect(pdfs).toContain('Invoice INV-2026-007.pdf');
  const sheet = pdfs.find((name) => name.startsWith('Before and after')) ?? '';
  // Inked again, it is the PDF that was saved.
  expect(sha256(bytesOf(sheet))).toBe(stored.find(({ kind }) => kind === 'before-and-after')?.sha256);
  const { met } = await readPdf(bytesOf(sheet));
  expect(met.flatMap(({ role, words }) => (role === 'Figure' ? [words] : [])).join()).toContain('New floor from the doorway');
});

it('has an index page that links to each file once', () => {
  const links = [
    ...bytesOf('index.html')
      .toString('utf8')
      .matchAll(/href="([^"]+)"/g),
  ].map(([, link = '']) => decodeURIComponent(link));
  expect(links.sort()).toEqual(names.filter((name) => name !== 'index.html'));
});

it('has tables whose numbers are numbers', async () => {
  const ledger = await book.rowsOf('ledger').toArray();
  const invoice = ledger.flatMap((entry) => (entry.kind === 'invoice' && entry.jobId === JOB ? [entry] : []))[0];
  const total = (invoice?.totalMinor ?? 0) / 100;
  const sheets = await readWorkbook(bytesOf('all lists.xlsx'));
  const column = (list: string, head: string): unknown[] => {
    const [heads = [], ...rows] = sheets.find(({ sheet }) => sheet === list)?.data ?? [];
    return rows.map((row) => row[heads.indexOf(head)]);
  };
  expect(column('invoices', 'Total')).toEqual([total]);
  const pours = new Set((await book.rowsOf('pours').toArray()).flatMap(({ id, jobId }) => (jobId === JOB ? [id] : [])));
  const events = await book.rowsOf('pourEvents').toArray();
  const bags = events.flatMap((event) => (event.kind === 'placed' && pours.has(event.pourId) ? [event.bags] : []));
  expect(bags.length).toBeGreaterThan(0);
  expect(column('batches', 'Bags').sort()).toEqual(bags.sort());
  expect(new Set([...column('readings', 'Reading (m)'), ...column('invoices', 'Tax')].map((cell) => typeof cell))).toEqual(
    new Set(['number']),
  );
  const csv = Papa.parse<Record<string, unknown>>(
    bytesOf('invoices.csv')
      .toString('utf8')
      .replace(/^\uFEFF/, ''),
    {
      header: true,
      dynamicTyping: true,
      skipEmptyLines: true,
    },
  );
  expect(csv.data.map((row) => row['Total'])).toEqual([total]);
});
