import { USUAL_CATEGORIES } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { counts } from '../../shared-core/ledger/account.ts';
import { purchaseMinor } from '../../shared-core/ledger/job-result.ts';
import { type Compared, jobReview, leftOutOfCost } from '../../shared-core/learn/job-review.ts';
import { formatWork } from '../../shared-core/measure/duration.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { useMoney } from '../parts/use-measure.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { costGaps } from './cost-gaps.ts';
import { Table } from '../parts/Table.tsx';

type Row = { readonly name: string; readonly estimated: string; readonly actual: string; readonly strong?: boolean };

/** Compares estimate with actual: bags, days, hours by task, costs, price, profit. */
export function ResultPart({ whole, money }: { readonly whole: WholeJob; readonly money: JobMoney }) {
  const { locale } = whole.business;
  const { result } = money;
  const review = jobReview(whole);
  const format = useMoney();
  const row = (name: string, { estimated, actual }: Compared, say: (value: number) => string, strong = false): Row[] => {
    if (estimated === null && actual === null) return [];
    const words = (value: number | null): string => (value === null ? '' : say(value));
    return [{ name, estimated: words(estimated), actual: words(actual), strong }];
  };
  const count = (value: number): string => formatNumber(value, { most: 1 }, locale);
  const hours = (value: number): string => formatWork(value, locale);
  const spent: readonly (readonly [string, number])[] = [
    ...byCategory(whole),
    ['Labor', result.laborMinor],
    ['Drives', result.drivesMinor],
  ];
  const rows: Row[] = [
    ...row('Bags', review.bags, count),
    ...row('Days on site', review.days, count),
    ...row('Helper days', { estimated: null, actual: helperDays(whole) }, count),
    ...review.hours.flatMap((task) => row(`Hours: ${task.task}`, task, hours)),
    ...spent.flatMap(([name, minor]) => row(name, { estimated: null, actual: minor === 0 ? null : minor }, format)),
    ...row('Cost', review.costMinor, format),
    ...row('Price before sales tax', review.priceMinor, format),
    ...row('Profit', review.profitMinor, format, true),
    ...row('Earned per owner hour', review.ownerHourMinor, format, true),
  ];
  if (rows.every(({ actual }) => actual === '')) return null;
  return (
    <section className="money-part">
      <h2 className="speech">Job earnings</h2>
      <Table
        label="Estimate and actual"
        dense
        rows={rows}
        rowKey={({ name }) => name}
        isBold={({ strong }) => strong === true}
        columns={[
          { caption: 'Description', heads: true, cell: ({ name }) => name },
          { caption: 'Estimate', align: 'right', cell: ({ estimated }) => estimated },
          { caption: 'Actual', align: 'right', cell: ({ actual }) => actual },
        ]}
      />
      {costGaps(leftOutOfCost(whole), locale).map((gap) => (
        <p key={gap}>{gap}</p>
      ))}
      <p className="small">
        Actual price is what was received, without sales tax or a credit balance. The estimate is that of the accepted quote with its signed
        change orders. Earned per owner hour leaves your own pay out of the cost.
      </p>
    </section>
  );
}

function helperDays({ ledger }: WholeJob): number | null {
  const helpers = ledger.flatMap((entry) => (entry.kind === 'hours' && counts(entry) && entry.paidAs !== 'owner' ? [entry] : []));
  const days = new Set(helpers.map(({ who, onDay }) => `${who}/${onDay}`)).size;
  return days === 0 ? null : days;
}

/** Purchases by category: the standard ones in order, then the company's own. */
function byCategory({ ledger, business }: WholeJob): (readonly [string, number])[] {
  const sums = new Map<string, number>([...business.expenseCategories, ...USUAL_CATEGORIES].map((name) => [name, 0]));
  for (const entry of ledger) {
    if (entry.kind !== 'purchase' || entry.voidedAt !== null) continue;
    sums.set(entry.category, (sums.get(entry.category) ?? 0) + purchaseMinor(entry));
  }
  return [...sums];
}
