import type { Business } from '../../shared-core/book/business.ts';
import { pictureName } from '../../shared-core/book/backup.ts';
import type { Invoice } from '../../shared-core/book/ledger.ts';
import { yearCsv, yearIndexCsv } from '../../shared-core/ledger/year-csv.ts';
import { receiptFiles, type YearTable, yearTables } from '../../shared-core/ledger/year-tables.ts';
import { decimalMoney } from '../../shared-core/price/money.ts';
import { jobMoney } from '../../shared-core/standing/job-money.ts';
import { book } from '../book/database.ts';
import { nowInstant } from '../book/now-instant.ts';
import { readPicture } from '../book/pictures.ts';
import type { WholeLedger } from '../book/use-ledger.ts';
import { readWholeJob } from '../book/use-whole-job.ts';
import { base64OfBytes, base64OfText } from '../desk/base64.ts';
import { askDesk } from '../desk/desk-client.ts';
import { fileName } from '../desk/save-file.ts';
import { inkPdf } from '../desk/save-document.ts';
import { workbookOf } from '../parts/workbook.ts';
import { moneyPapers } from './money-documents.ts';

const MILE_KM = 1.609344;

type Said = { readonly ok: boolean; readonly text: string };

/** A table of the year with amounts as decimals. */
function sheetOf({ name, columns, rows }: YearTable, currency: string) {
  const isMoney = (i: number): boolean => columns[i]?.holds === 'money';
  return {
    name,
    about: '',
    columns: columns.map((column) => ({ ...column, about: '' })),
    rows: rows.map((cells) => cells.map((cell, i) => (isMoney(i) && cell !== null ? decimalMoney(Number(cell), currency) : cell))),
  };
}

/** Saves the receipt photos. Returns how many are missing or damaged, or why one could not be saved. */
async function saveReceipts(receipts: ReadonlyMap<string, string>, folder: string): Promise<number | Said> {
  let lost = 0;
  for (const [id, stem] of receipts) {
    const photo = await book().rowsOf('photos').get(id);
    const name = photo === undefined ? null : pictureName(photo);
    const bytes = name === null ? null : await readPicture(name);
    if (name === null || bytes === null) {
      lost += 1;
      continue;
    }
    const saved = await askDesk('file.save', { name: `${stem}.${name.split('.').at(-1) ?? 'jpg'}`, base64: base64OfBytes(bytes), folder });
    if (!saved.ok) return { ok: false, text: saved.error.message };
  }
  return lost;
}

/** Saves a period as a folder for the bookkeeper: lists, an index of their columns, invoices as PDFs, and receipt photos. */
export async function exportYear(business: Business, ledger: WholeLedger, from: string, to: string): Promise<Said> {
  const job = (id: string) => {
    const found = ledger.jobs.get(id);
    return { number: found?.number ?? '', customerName: ledger.customers.get(found?.customerId ?? '')?.name ?? '' };
  };
  const isUs = business.units === 'us';
  const tables = yearTables({ entries: ledger.entries, from, to, job, unitKm: isUs ? MILE_KM : 1, distanceUnit: isUs ? 'mi' : 'km' });
  const folder = `Bookkeeper ${from} to ${to}`;
  const lists = [
    { name: 'index.csv', base64: base64OfText(yearIndexCsv(tables, from, to)) },
    ...tables.map((table) => ({ name: `${table.name}.csv`, base64: base64OfText(yearCsv(table, business.currency)) })),
    { name: 'all lists.xlsx', base64: base64OfBytes(workbookOf(tables.map((table) => sheetOf(table, business.currency)))) },
  ];
  for (const file of lists) {
    const saved = await askDesk('file.save', { ...file, folder });
    if (!saved.ok) return { ok: false, text: saved.error.message };
  }
  const invoices = ledger.entries.filter((e): e is Invoice => e.kind === 'invoice' && e.onDay >= from && e.onDay <= to);
  for (const jobId of new Set(invoices.map((invoice) => invoice.jobId))) {
    const whole = await readWholeJob(jobId);
    if (whole === null) continue;
    const papers = moneyPapers(whole, jobMoney(whole, nowInstant()));
    for (const invoice of invoices.filter((one) => one.jobId === jobId)) {
      const tree = await papers.treeOf(invoice);
      const inked = await inkPdf(tree);
      if (!inked.ok) return { ok: false, text: inked.text };
      const saved = await askDesk('file.save', { name: fileName(tree.title, 'pdf'), base64: inked.pdf.pdfBase64, folder });
      if (!saved.ok) return { ok: false, text: saved.error.message };
    }
  }
  const lost = await saveReceipts(receiptFiles(ledger.entries, from, to), folder);
  if (typeof lost === 'object') return lost;
  const opened = await askDesk('folder.open', { folder });
  const left = lost === 0 ? [] : [lost === 1 ? '1 receipt photo is missing or damaged.' : `${lost} receipt photos are missing or damaged.`];
  return { ok: true, text: [`Saved to ${folder}.`, ...left, ...(opened.ok ? [] : [opened.error.message])].join(' ') };
}
