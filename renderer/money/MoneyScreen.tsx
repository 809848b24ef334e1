import { useMemo, useState } from 'react';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { useBusy } from '../parts/use-busy.ts';
import { useMoney } from '../parts/use-measure.ts';
import { type MoneyOwed, moneyOwed } from '../../shared-core/standing/money-owed.ts';
import { nowInstant } from '../book/command.ts';
import { useLedger, type WholeLedger } from '../book/use-ledger.ts';
import { useBusiness } from '../book/use-records.ts';
import { useWholeJobs, readWholeJob } from '../book/use-whole-job.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { companyWho, EmptySheet, Sheet, SheetHeading, BlockPart } from '../parts/Sheet.tsx';
import { Table } from '../parts/Table.tsx';
import { EarnedPart } from './EarnedPart.tsx';
import { MoneyDatum } from './MoneyDatum.tsx';
import './money.css';
import type { Business } from '../../shared-core/book/business.ts';
import { Fields } from '../parts/Fields.tsx';
import { ResultNotice } from '../parts/Dialog.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { pictureName } from '../../shared-core/book/backup.ts';
import type { Invoice } from '../../shared-core/book/ledger.ts';
import { dataCsv } from '../../shared-core/documents/lists/data-table.ts';
import { receiptFiles, yearIndexCsv, yearLists } from '../../shared-core/documents/lists/year-lists.ts';
import { jobMoney, releasedOn } from '../../shared-core/standing/job-money.ts';
import { book } from '../book/database.ts';
import { readPicture } from '../book/pictures.ts';
import { base64OfBytes, base64OfText } from '../desk/base64.ts';
import { askDesk } from '../desk/desk-client.ts';
import { fileName } from '../desk/save-file.ts';
import { inkPdf } from '../desk/save-document.ts';
import { workbookOf } from '../parts/workbook.ts';
import { moneyPapers } from './money-documents.ts';
import { statusWords } from '../parts/money-words.ts';

/** Maximum number of open jobs checked for invoices to issue; more than one person has at a time. */
const MOST_OPEN = 60;

/** Money of all jobs: overdue and open invoices, invoices to issue, and the year for the bookkeeper. */
export function MoneyScreen() {
  const business = useBusiness();
  const ledger = useLedger();
  const open = useWholeJobs('open', MOST_OPEN);
  const format = useMoney();
  const owed = useMemo(() => {
    if (business === undefined || ledger === undefined || open === undefined) return undefined;
    return moneyOwed(ledger, open, business.timeZone, nowInstant());
  }, [business, ledger, open]);
  if (business === undefined || ledger === undefined || open === undefined || owed === undefined)
    return <p className="app-opening caption">Loading…</p>;
  const total = (of: (owed: MoneyOwed) => number): number => owed.reduce((sum, o) => sum + of(o), 0);
  const overdueMinor = total((o) => o.overdueMinor);
  const openMinor = total((o) => o.account.openMinor);
  const creditMinor = total((o) => o.account.onAccountMinor);
  const job = (id: string) => ledger.jobs.get(id) ?? open.find((whole) => whole.job.id === id)?.job;
  const customerName = (id: string): string =>
    open.find((whole) => whole.job.id === id)?.customer.name ?? ledger.customers.get(job(id)?.customerId ?? '')?.name ?? '';
  const today = dayOfInstant(nowInstant(), business.timeZone);
  const openInvoices = owed.flatMap((o) =>
    o.account.invoices.filter((b) => b.openMinor > 0).map((balance) => ({ name: customerName(o.jobId), balance })),
  );
  const [first] = owed;
  return (
    <Sheet
      page="Money"
      who={companyWho(business)}
      datum={<MoneyDatum rows={openInvoices} today={today} />}
      block={<YearPart business={business} ledger={ledger} />}
      foot={
        <p className="speech">{`${owedWords(overdueMinor, openMinor, format)}${creditMinor > 0 ? ` Credit balances: ${format(creditMinor)}.` : ''}`}</p>
      }
      action={first && <ActionButton href={`/jobs/${first.jobId}/money`}>{`Go to job ${job(first.jobId)?.number ?? ''}`}</ActionButton>}
    >
      <SheetHeading under="Open balances, longest overdue first">Money</SheetHeading>
      {owed.length === 0 ? (
        <EmptySheet
          drawing="money"
          heading="Money owed appears here."
          hint="Accept a quote, then issue its deposit invoice from the job."
        />
      ) : (
        <Table
          label="Open accounts"
          rows={owed}
          rowKey={(o) => o.jobId}
          isBold={(o) => o.daysOverdue > 0}
          columns={[
            { caption: 'Customer', heads: true, cell: (o) => <LinkWord href={`/jobs/${o.jobId}/money`}>{customerName(o.jobId)}</LinkWord> },
            { caption: 'Job', wideOnly: true, cell: (o) => <span className="unbroken">{job(o.jobId)?.number}</span> },
            {
              caption: 'Status',
              cell: (o) => statusWords(o, format),
            },
            { caption: 'To invoice', align: 'right', wideOnly: true, cell: (o) => (o.laterMinor > 0 ? format(o.laterMinor) : '') },
            { caption: 'Open', align: 'right', cell: (o) => format(o.account.openMinor) },
          ]}
          foot={{ Customer: 'Total', 'To invoice': format(total((o) => o.laterMinor)), Open: format(openMinor) }}
        />
      )}
      <EarnedPart business={business} />
    </Sheet>
  );
}

function owedWords(overdueMinor: number, openMinor: number, format: (minor: number) => string): string {
  if (overdueMinor > 0 && overdueMinor === openMinor) return `${format(overdueMinor)} is overdue.`;
  if (overdueMinor > 0) return `${format(overdueMinor)} of ${format(openMinor)} is overdue.`;
  if (openMinor > 0) return `${format(openMinor)} is open. Nothing is overdue.`;
  return 'No money is owed to you now.';
}

const PERIODS = [
  { value: 'year', word: 'Whole year', from: '01-01', to: '12-31' },
  { value: 'q1', word: 'January to March', from: '01-01', to: '03-31' },
  { value: 'q2', word: 'April to June', from: '04-01', to: '06-30' },
  { value: 'q3', word: 'July to September', from: '07-01', to: '09-30' },
  { value: 'q4', word: 'October to December', from: '10-01', to: '12-31' },
] as const;
type Period = (typeof PERIODS)[number]['value'];

function YearPart({ business, ledger }: { readonly business: Business; readonly ledger: WholeLedger }) {
  const thisYear = Number(dayOfInstant(nowInstant(), business.timeZone).slice(0, 4));
  const [year, setYear] = useState(String(thisYear));
  const [period, setPeriod] = useState<Period>('year');
  const [message, setMessage] = useState<{ readonly ok: boolean; readonly text: string } | null>(null);
  const [busy, run] = useBusy();
  const years = [...new Set([thisYear, ...ledger.entries.map((e) => Number(e.onDay.slice(0, 4)))])].sort((a, b) => b - a);
  const save = (): void => {
    const chosen = PERIODS.find((p) => p.value === period) ?? PERIODS[0];
    run(() => exportYear(business, ledger, `${year}-${chosen.from}`, `${year}-${chosen.to}`).then(setMessage));
  };
  return (
    <BlockPart heading="For the bookkeeper">
      <ResultNotice message={message} onClose={setMessage} />
      <p className="small">
        Income, expenses, sales tax, mileage, labor, contractor payments, and unpaid invoices as lists, with the invoices as PDFs.
      </p>
      <div className="below">
        <Fields>
          <SelectField label="Year" value={year} options={years.map((y) => ({ value: String(y), word: String(y) }))} onChange={setYear} />
          <SelectField label="Period" value={period} options={PERIODS.map(({ value, word }) => ({ value, word }))} onChange={setPeriod} />
        </Fields>
      </div>
      <TextButton disabled={busy} onPress={save}>
        {busy ? 'Exporting…' : 'Export folder'}
      </TextButton>
    </BlockPart>
  );
}

const MILE_KM = 1.609344;

type Said = { readonly ok: boolean; readonly text: string };

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
async function exportYear(business: Business, ledger: WholeLedger, from: string, to: string): Promise<Said> {
  const job = (id: string) => {
    const found = ledger.jobs.get(id);
    return {
      number: found?.number ?? '',
      customerName: ledger.customers.get(found?.customerId ?? '')?.name ?? '',
      releasedOn: found === undefined ? null : releasedOn({ job: found }, business.timeZone),
    };
  };
  const isUs = business.units === 'us';
  const { currency } = business;
  const distance = { unitKm: isUs ? MILE_KM : 1, distanceUnit: isUs ? 'mi' : 'km' } as const;
  const period = { entries: ledger.entries, from, to, zone: business.timeZone };
  const tables = yearLists({ ...period, today: dayOfInstant(nowInstant(), business.timeZone), currency, job, ...distance });
  const folder = `Bookkeeper ${from} to ${to}`;
  const lists = [
    { name: 'index.csv', base64: base64OfText(yearIndexCsv(tables, from, to)) },
    ...tables.map((table) => ({ name: `${table.name}.csv`, base64: base64OfText(dataCsv(table)) })),
    { name: 'all lists.xlsx', base64: base64OfBytes(await workbookOf(tables)) },
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
  const lost = await saveReceipts(receiptFiles(period), folder);
  if (typeof lost === 'object') return lost;
  const opened = await askDesk('folder.open', { folder });
  const left = lost === 0 ? [] : [lost === 1 ? '1 receipt photo is missing or damaged.' : `${lost} receipt photos are missing or damaged.`];
  return { ok: true, text: [`Saved to ${folder}.`, ...left, ...(opened.ok ? [] : [opened.error.message])].join(' ') };
}
