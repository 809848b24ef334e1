import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { jobReview } from '../../shared-core/learn/job-review.ts';
import { formatDuration } from '../../shared-core/measure/duration.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { Table } from '../parts/Table.tsx';

/** What the job earned so far: money received less what it cost. */
export function ResultPart({ whole, money }: { readonly whole: WholeJob; readonly money: JobMoney }) {
  const { currency, locale } = whole.business;
  const { result } = money;
  const format = (minor: number): string => formatMoney(minor, currency, locale);
  const rows: readonly (readonly [string, string])[] = [
    ['Received, without sales tax', format(result.incomeMinor)],
    ['Purchases', format(-result.purchasesMinor)],
    ['Labor', `${format(-result.laborMinor)} (${formatDuration(result.minutes * 60, locale)})`],
    ['Drives', format(-result.drivesMinor)],
    ['Profit', format(result.profitMinor)],
    ...(result.ownerHourMinor === null ? [] : [['Earned per owner hour', format(result.ownerHourMinor)] as const]),
  ];
  const review = jobReview(whole);
  const compared = [
    { name: 'Bags', ...review.bags },
    { name: 'Days on site', ...review.days },
  ].filter((row) => row.estimated !== null || row.actual !== null);
  const count = (value: number | null): string => (value === null ? 'Not recorded' : formatNumber(value, { most: 1 }, locale));
  if (result.incomeMinor === 0 && result.costMinor === 0) return null;
  return (
    <section className="money-part">
      <h2 className="speech">What the job earned</h2>
      <Table
        label="Result so far"
        rows={rows}
        rowKey={([label]) => label}
        isBold={([label]) => label === 'Profit'}
        columns={[
          { key: 'what', caption: 'Description', heads: true, cell: ([label]) => label },
          { key: 'amount', caption: 'Amount', align: 'right', cell: ([, amount]) => amount },
        ]}
      />
      <Table
        label="Estimate and actual"
        captioned
        rows={compared}
        rowKey={(row) => row.name}
        columns={[
          { key: 'what', caption: 'Description', heads: true, cell: (row) => row.name },
          { key: 'estimated', caption: 'Estimate', align: 'right', cell: (row) => count(row.estimated) },
          { key: 'actual', caption: 'Actual', align: 'right', cell: (row) => count(row.actual) },
        ]}
      />
      {result.minutesByTask.length > 1 && (
        <p className="small">
          {`Hours by task: ${result.minutesByTask.map(({ task, minutes }) => `${task} ${formatDuration(minutes * 60, locale)}`).join(', ')}.`}
        </p>
      )}
      {review.prepHours.length > 0 && (
        <p className="small">
          {`Prep by task, from the times lines were signed: ${review.prepHours.map(({ task, hours }) => `${taskWords(task)} ${formatDuration(hours * 3600, locale)}`).join(', ')}.`}
        </p>
      )}
    </section>
  );
}

/** `fill-cracks` as `fill cracks`. */
function taskWords(task: string): string {
  return task.replaceAll('-', ' ');
}
