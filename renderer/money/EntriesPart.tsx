import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { invoiceChanges } from '../../shared-core/documents/changed-since.ts';
import { METHOD_WORDS, daysWords } from '../../shared-core/documents/money-papers.ts';
import { driveMinor, hoursMinor, purchaseMinor } from '../../shared-core/ledger/job-result.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatDistance } from '../../shared-core/measure/length-format.ts';
import { formatWork } from '../../shared-core/measure/duration.ts';
import { calculatedFor } from '../parts/calculated-for.ts';
import { changedWords } from '../parts/job/out-of-date.ts';
import { useMoney } from '../parts/use-measure.ts';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import { capital, lowerFirst } from '../../shared-core/measure/first-letter.ts';
import { WAITS_FOR } from '../parts/money-words.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { joined } from '../../shared-core/measure/list.ts';

interface EntriesPartProps {
  readonly whole: WholeJob;
  readonly onReceive: () => void;
  readonly onCost: () => void;
  readonly onPick: (entry: ShownEntry) => void;
}

type ShownEntry = Exclude<LedgerEntry, { kind: 'invoice' }>;

export function entryWords(entry: ShownEntry, { units, locale }: WholeJob['business']): string {
  switch (entry.kind) {
    case 'payment':
    case 'refund':
      return joined([capital(entry.kind), METHOD_WORDS[entry.method].toLowerCase(), entry.reference]);
    case 'credit':
      return `Credit: ${entry.reason}`;
    case 'write-off':
      return `Write-off: ${entry.reason}`;
    case 'purchase':
      return `${entry.supplier}: ${entry.lines.map((line) => line.text).join(', ')} (${entry.category})`;
    case 'hours':
      return `${entry.who}: ${entry.task}, ${formatWork(entry.minutes / 60, locale)}`;
    case 'stock':
      return `Stock: ${entry.what}`;
    case 'drive':
      return `Drive: ${entry.purpose}, ${formatDistance(entry.distanceKm, units, locale)}`;
  }
}

/** Money received is positive, money paid negative. */
function signedMinor(entry: ShownEntry): number {
  switch (entry.kind) {
    case 'payment':
      return entry.amountMinor;
    case 'refund':
      return -entry.amountMinor;
    case 'credit':
    case 'write-off':
    case 'stock':
      return 0;
    case 'purchase':
      return -purchaseMinor(entry);
    case 'hours':
      return -hoursMinor(entry);
    case 'drive':
      return -driveMinor(entry);
  }
}

/** Payments and costs of the job, newest first. Voided ones are struck out. */
export function EntriesPart({ whole, onReceive, onCost, onPick }: EntriesPartProps) {
  const { business, ledger } = whole;
  const { locale } = business;
  const format = useMoney();
  const entries = ledger
    .filter((entry): entry is ShownEntry => entry.kind !== 'invoice')
    .sort((a, b) => b.onDay.localeCompare(a.onDay) || b.createdAt.localeCompare(a.createdAt));
  return (
    <section className="money-part">
      <div className="ends-line">
        <h2 className="speech">Payments and costs</h2>
        <span className="words">
          <TextButton onPress={onReceive}>Record payment</TextButton>
          <TextButton onPress={onCost}>Add cost</TextButton>
        </span>
      </div>
      <Table
        label="Payments and costs, newest first"
        rows={entries}
        rowKey={(entry) => entry.id}
        onPick={onPick}
        empty={<p className="caption">No payments or costs yet.</p>}
        columns={[
          { caption: 'Date', cell: (entry) => <span className="unbroken">{formatDay(entry.onDay, 'short', locale)}</span> },
          {
            caption: 'Description',
            heads: true,
            cell: (entry) =>
              entry.voidedAt === null ? (
                entryWords(entry, business)
              ) : (
                <>
                  <s>{entryWords(entry, business)}</s> {`Void: ${entry.voidReason}`}
                </>
              ),
          },
          {
            caption: 'Amount',
            align: 'right',
            cell: (entry) =>
              entry.kind === 'credit' || entry.kind === 'write-off' ? `(${format(entry.amountMinor)})` : format(signedMinor(entry)),
          },
        ]}
      />
    </section>
  );
}

interface InvoicesPartProps {
  readonly whole: WholeJob;
  readonly money: JobMoney;
  readonly onIssue: (draft: InvoiceDraft) => void;
  readonly onPick: (balance: InvoiceBalance) => void;
  readonly onStatement: () => void;
}

function stateWords({ state, daysOverdue, invoice, dueMinor, writtenOffMinor }: InvoiceBalance): string {
  if (state === 'void') return `Void: ${invoice.voidReason}`;
  if (state === 'overdue') return `Overdue by ${daysWords(daysOverdue)}`;
  if (state === 'paid') return writtenOffMinor === 0 ? 'Paid' : writtenOffMinor === invoice.totalMinor ? 'Written off' : 'Rest written off';
  return dueMinor > 0 ? 'Due' : 'Retainage held';
}

/** Payments of the contract: issued invoices and those to come. */
export function InvoicesPart({ whole, money, onIssue, onPick, onStatement }: InvoicesPartProps) {
  const { locale } = whole.business;
  const format = useMoney();
  const { invoices } = money.account;
  return (
    <section className="money-part">
      <div className="ends-line">
        <h2 className="speech">Invoices</h2>
        {invoices.length > 0 && <TextButton onPress={onStatement}>Save statement PDF</TextButton>}
      </div>
      <Table
        label="Invoices issued"
        rows={invoices}
        rowKey={(b) => b.invoice.id}
        onPick={onPick}
        isBold={(b) => b.state === 'overdue'}
        empty={<p className="caption">No invoices yet.</p>}
        columns={[
          { caption: 'Invoice', heads: true, cell: (b) => <span className="unbroken">{b.invoice.number}</span> },
          { caption: 'Purpose', wideOnly: true, cell: (b) => b.invoice.stageName ?? b.invoice.title },
          { caption: 'Due date', wideOnly: true, cell: (b) => formatDay(b.dueOn, 'dated', locale) },
          { caption: 'Status', cell: stateWords },
          { caption: 'Total', align: 'right', cell: (b) => format(b.invoice.totalMinor) },
          { caption: 'Open', align: 'right', cell: (b) => format(b.openMinor) },
        ]}
      />
      {invoices.map(({ invoice: { id, number }, openMinor }) => {
        const changes = openMinor > 0 ? calculatedFor(whole, `invoice ${id}`, () => invoiceChanges(whole, id)) : [];
        return (
          changes.length > 0 && (
            <p key={id} className="late small money-part">
              {`Invoice ${number}: ${lowerFirst(changedWords(changes))} It stays as issued: to correct it, void it and issue a new one.`}
            </p>
          )
        );
      })}
      {money.toIssue.length > 0 && (
        <Table
          label="To be invoiced"
          captioned
          rows={money.toIssue}
          rowKey={(draft) => draft.key}
          columns={[
            { caption: 'Payment', heads: true, cell: (draft) => draft.stageName ?? 'Change orders' },
            { caption: 'Status', cell: (draft) => (draft.isReady ? 'Ready to invoice' : capital(WAITS_FOR[draft.due])) },
            { caption: 'Total', align: 'right', cell: (draft) => format(draft.totalMinor) },
            {
              key: 'actions',
              caption: '',
              cell: (draft) =>
                draft === money.toIssue[0] && (
                  <TextButton label={`Issue invoice: ${draft.stageName ?? 'change orders'}`} onPress={() => onIssue(draft)}>
                    Issue invoice
                  </TextButton>
                ),
            },
          ]}
        />
      )}
    </section>
  );
}
