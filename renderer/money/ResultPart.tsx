import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { formatDuration } from '../../shared-core/measure/duration.ts';
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
      {result.minutesByTask.length > 1 && (
        <p className="small">
          {`Hours by task: ${result.minutesByTask.map(({ task, minutes }) => `${task} ${formatDuration(minutes * 60, locale)}`).join(', ')}.`}
        </p>
      )}
    </section>
  );
}
