import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { yearCsv, yearIndexCsv } from '../../shared-core/ledger/year-csv.ts';
import { yearTables } from '../../shared-core/ledger/year-tables.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { nowInstant } from '../book/moment.ts';
import type { WholeLedger } from '../book/use-ledger.ts';
import { base64OfText } from '../parts/base64.ts';
import { askDesk } from '../parts/desk-client.ts';
import { Notice } from '../parts/Notice.tsx';
import { SelectField } from '../parts/SelectField.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

const PERIODS = [
  { value: 'year', word: 'Whole year', from: '01-01', to: '12-31' },
  { value: 'q1', word: 'January to March', from: '01-01', to: '03-31' },
  { value: 'q2', word: 'April to June', from: '04-01', to: '06-30' },
  { value: 'q3', word: 'July to September', from: '07-01', to: '09-30' },
  { value: 'q4', word: 'October to December', from: '10-01', to: '12-31' },
] as const;
type Period = (typeof PERIODS)[number]['value'];

const MILE_KM = 1.609344;

/** The year or a quarter as a folder of lists for the bookkeeper. */
export function YearPart({ business, ledger }: { readonly business: Business; readonly ledger: WholeLedger }) {
  const thisYear = Number(dayOfInstant(nowInstant(), business.timeZone).slice(0, 4));
  const [year, setYear] = useState(String(thisYear));
  const [period, setPeriod] = useState<Period>('year');
  const [message, setMessage] = useState<{ readonly ok: boolean; readonly text: string } | null>(null);
  const years = [...new Set([thisYear, ...ledger.entries.map((e) => Number(e.onDay.slice(0, 4)))])].sort((a, b) => b - a);
  const save = async (): Promise<void> => {
    const chosen = PERIODS.find((p) => p.value === period) ?? PERIODS[0];
    const [from, to] = [`${year}-${chosen.from}`, `${year}-${chosen.to}`];
    const job = (id: string) => {
      const found = ledger.jobs.get(id);
      return { number: found?.number ?? '', customerName: ledger.customers.get(found?.customerId ?? '')?.name ?? '' };
    };
    const isUs = business.units === 'us';
    const tables = yearTables({ entries: ledger.entries, from, to, job, unitKm: isUs ? MILE_KM : 1, distanceUnit: isUs ? 'mi' : 'km' });
    const folder = `Bookkeeper ${from} to ${to}`;
    const files = [
      { name: 'index.csv', text: yearIndexCsv(tables, from, to) },
      ...tables.map((table) => ({ name: `${table.name}.csv`, text: yearCsv(table, business.currency) })),
    ];
    for (const { name, text } of files) {
      const kept = await askDesk('file.keep', { name, base64: base64OfText(text), folder });
      if (!kept.ok) return setMessage({ ok: false, text: kept.error.message });
    }
    const opened = await askDesk('folder.open', { folder });
    setMessage({ ok: true, text: `Saved to ${folder}.${opened.ok ? '' : ` ${opened.error.message}`}` });
  };
  return (
    <BlockPart heading="For the bookkeeper">
      {message !== null && (
        <Notice kind={message.ok ? 'success' : 'failure'} onClose={() => setMessage(null)}>
          {message.text}
        </Notice>
      )}
      <p className="small">Income, expenses, sales tax, mileage, contractor payments, and unpaid invoices as lists.</p>
      <SelectField
        label="Year"
        value={year}
        options={years.map((y) => ({ value: String(y), word: String(y) }))}
        onChange={(value) => setYear(value ?? String(thisYear))}
      />
      <SelectField
        label="Period"
        value={period}
        options={PERIODS.map(({ value, word }) => ({ value, word }))}
        onChange={(value) => setPeriod(value ?? 'year')}
      />
      <TextButton onPress={() => void save()}>Export folder</TextButton>
    </BlockPart>
  );
}
