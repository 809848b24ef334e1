import type { Business } from '../../shared-core/book/business.ts';
import type { Invoice } from '../../shared-core/book/ledger.ts';
import { yearCsv, yearIndexCsv } from '../../shared-core/ledger/year-csv.ts';
import { type YearTable, yearTables } from '../../shared-core/ledger/year-tables.ts';
import { decimalMoney } from '../../shared-core/price/money.ts';
import { jobMoney } from '../../shared-core/standing/job-money.ts';
import { nowInstant } from '../book/moment.ts';
import type { WholeLedger } from '../book/use-ledger.ts';
import { readWholeJob } from '../book/use-whole-job.ts';
import { base64OfBytes, base64OfText } from '../parts/base64.ts';
import { askDesk } from '../parts/desk-client.ts';
import { fileName } from '../parts/keep-file.ts';
import { inkPdf } from '../parts/make-paper.ts';
import { workbookOf } from '../parts/workbook.ts';
import { moneyPapers } from './make-money-paper.ts';

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

/** Saves a period as a folder for the bookkeeper: lists, an index of their columns, and invoices as PDFs. */
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
    { name: 'all lists.xlsx', base64: base64OfBytes(await workbookOf(tables.map((table) => sheetOf(table, business.currency)))) },
  ];
  for (const file of lists) {
    const saved = await askDesk('file.keep', { ...file, folder });
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
      const saved = await askDesk('file.keep', { name: fileName(tree.title, 'pdf'), base64: inked.pdf.pdfBase64, folder });
      if (!saved.ok) return { ok: false, text: saved.error.message };
    }
  }
  const opened = await askDesk('folder.open', { folder });
  return { ok: true, text: `Saved to ${folder}.${opened.ok ? '' : ` ${opened.error.message}`}` };
}
