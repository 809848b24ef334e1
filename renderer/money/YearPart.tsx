import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { nowInstant } from '../book/now-instant.ts';
import type { WholeLedger } from '../book/use-ledger.ts';
import { Fields } from '../parts/Fields.tsx';
import { Notice } from '../parts/Notice.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { exportYear } from './export-year.ts';

const PERIODS = [
  { value: 'year', word: 'Whole year', from: '01-01', to: '12-31' },
  { value: 'q1', word: 'January to March', from: '01-01', to: '03-31' },
  { value: 'q2', word: 'April to June', from: '04-01', to: '06-30' },
  { value: 'q3', word: 'July to September', from: '07-01', to: '09-30' },
  { value: 'q4', word: 'October to December', from: '10-01', to: '12-31' },
] as const;
type Period = (typeof PERIODS)[number]['value'];

export function YearPart({ business, ledger }: { readonly business: Business; readonly ledger: WholeLedger }) {
  const thisYear = Number(dayOfInstant(nowInstant(), business.timeZone).slice(0, 4));
  const [year, setYear] = useState(String(thisYear));
  const [period, setPeriod] = useState<Period>('year');
  const [message, setMessage] = useState<{ readonly ok: boolean; readonly text: string } | null>(null);
  const [busy, setBusy] = useState(false);
  const years = [...new Set([thisYear, ...ledger.entries.map((e) => Number(e.onDay.slice(0, 4)))])].sort((a, b) => b - a);
  const save = async (): Promise<void> => {
    const chosen = PERIODS.find((p) => p.value === period) ?? PERIODS[0];
    const [from, to] = [`${year}-${chosen.from}`, `${year}-${chosen.to}`];
    setBusy(true);
    setMessage(await exportYear(business, ledger, from, to));
    setBusy(false);
  };
  return (
    <BlockPart heading="For the bookkeeper">
      {message !== null && (
        <Notice kind={message.ok ? 'success' : 'failure'} onClose={() => setMessage(null)}>
          {message.text}
        </Notice>
      )}
      <p className="small">
        Income, expenses, sales tax, mileage, labor, contractor payments, and unpaid invoices as lists, with the invoices as PDFs.
      </p>
      <div className="below">
        <Fields>
          <SelectField label="Year" value={year} options={years.map((y) => ({ value: String(y), word: String(y) }))} onChange={setYear} />
          <SelectField label="Period" value={period} options={PERIODS.map(({ value, word }) => ({ value, word }))} onChange={setPeriod} />
        </Fields>
      </div>
      <TextButton disabled={busy} onPress={() => void save()}>
        {busy ? 'Exporting…' : 'Export folder'}
      </TextButton>
    </BlockPart>
  );
}
