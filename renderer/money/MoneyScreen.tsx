import { useMemo } from 'react';
import { daysWords } from '../../shared-core/documents/money-papers.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { type MoneyOwed, moneyOwed } from '../../shared-core/standing/money-owed.ts';
import { nowInstant } from '../book/now-instant.ts';
import { useLedger } from '../book/use-ledger.ts';
import { useBusiness } from '../book/use-records.ts';
import { useWholeJobs } from '../book/use-whole-job.ts';
import { ActionButton, LinkWord } from '../parts/Buttons.tsx';
import { EmptySheet, Sheet, SheetHeading } from '../parts/Sheet.tsx';
import { Table } from '../parts/Table.tsx';
import { EarnedPart } from './EarnedPart.tsx';
import { MoneyDatum } from './MoneyDatum.tsx';
import { YearPart } from './YearPart.tsx';
import './money.css';

/** Maximum number of open jobs checked for invoices to issue; more than one person has at a time. */
const MOST_OPEN = 60;

/** Money of all jobs: overdue and open invoices, invoices to issue, and the year for the bookkeeper. */
export function MoneyScreen() {
  const business = useBusiness();
  const ledger = useLedger();
  const open = useWholeJobs('open', MOST_OPEN);
  const owed = useMemo(() => {
    if (business === undefined || ledger === undefined || open === undefined) return undefined;
    const now = nowInstant();
    return moneyOwed(ledger.entries, open, dayOfInstant(now, business.timeZone), now);
  }, [business, ledger, open]);
  if (business === undefined || ledger === undefined || open === undefined || owed === undefined)
    return <p className="app-opening caption">Loading…</p>;
  const format = (minor: number): string => formatMoney(minor, business.currency, business.locale);
  const total = (of: (owed: MoneyOwed) => number): number => owed.reduce((sum, o) => sum + of(o), 0);
  const overdueMinor = total((o) => o.overdueMinor);
  const openMinor = total((o) => o.account.openMinor);
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
      who={{ name: business.name === '' ? 'Your company' : business.name, where: business.address.city }}
      datum={<MoneyDatum rows={openInvoices} today={today} locale={business.locale} />}
      block={<YearPart business={business} ledger={ledger} />}
      foot={<p className="speech">{owedWords(overdueMinor, openMinor, format)}</p>}
      {...(first === undefined
        ? {}
        : { action: <ActionButton href={`/jobs/${first.jobId}/money`}>{`Go to ${customerName(first.jobId)}`}</ActionButton> })}
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
            {
              key: 'customer',
              caption: 'Customer',
              heads: true,
              cell: (o) => <LinkWord href={`/jobs/${o.jobId}/money`}>{customerName(o.jobId)}</LinkWord>,
            },
            { key: 'job', caption: 'Job', wideOnly: true, cell: (o) => <span className="money-number">{job(o.jobId)?.number}</span> },
            {
              key: 'state',
              caption: 'Status',
              cell: (o) =>
                o.daysOverdue > 0
                  ? `Overdue by ${daysWords(o.daysOverdue)}`
                  : o.account.openMinor > 0
                    ? 'Due'
                    : o.readyMinor > 0
                      ? 'Ready to invoice'
                      : o.account.onAccountMinor > 0
                        ? 'Credit balance'
                        : 'Nothing due yet',
            },
            {
              key: 'ready',
              caption: 'To invoice',
              align: 'right',
              wideOnly: true,
              cell: (o) => (o.laterMinor > 0 ? format(o.laterMinor) : ''),
            },
            { key: 'open', caption: 'Open', align: 'right', cell: (o) => format(o.account.openMinor - o.account.onAccountMinor) },
          ]}
          foot={{ customer: 'Total', ready: format(total((o) => o.laterMinor)), open: format(openMinor) }}
        />
      )}
      <EarnedPart business={business} />
    </Sheet>
  );
}

function owedWords(overdueMinor: number, openMinor: number, format: (minor: number) => string): string {
  if (overdueMinor > 0) return `${format(overdueMinor)} of ${format(openMinor)} is overdue.`;
  if (openMinor > 0) return `${format(openMinor)} is open. Nothing is overdue.`;
  return 'No money is owed to you now.';
}
