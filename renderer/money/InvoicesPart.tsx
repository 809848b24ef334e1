import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { daysWords } from '../../shared-core/documents/money-papers.ts';
import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/Buttons.tsx';

interface InvoicesPartProps {
  readonly whole: WholeJob;
  readonly money: JobMoney;
  readonly onIssue: (draft: InvoiceDraft) => void;
  readonly onPick: (balance: InvoiceBalance) => void;
  readonly onStatement: () => void;
}

const WAITS_FOR: Readonly<Record<InvoiceDraft['due'], string>> = {
  'on-acceptance': 'Waits for acceptance',
  'before-pour': 'Waits for acceptance',
  'after-pour': 'Waits for the pour',
  'on-handover': 'Waits for the handover',
  'thirty-days': 'Waits for 30 days after the handover',
};

export function stateWords({ state, daysOverdue, invoice, retainedMinor }: InvoiceBalance): string {
  if (state === 'void') return `Void: ${invoice.voidReason}`;
  if (state === 'overdue') return `Overdue by ${daysWords(daysOverdue)}`;
  if (state === 'paid') return 'Paid';
  return retainedMinor > 0 ? 'Retainage held' : 'Due';
}

/** Payments of the contract: issued invoices and those to come. */
export function InvoicesPart({ whole, money, onIssue, onPick, onStatement }: InvoicesPartProps) {
  const { locale, currency } = whole.business;
  const format = (minor: number): string => formatMoney(minor, currency, locale);
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
          { key: 'number', caption: 'Invoice', heads: true, cell: (b) => <span className="money-number">{b.invoice.number}</span> },
          { key: 'for', caption: 'Purpose', wideOnly: true, cell: (b) => b.invoice.stageName ?? b.invoice.title },
          { key: 'due', caption: 'Due date', wideOnly: true, cell: (b) => formatDay(b.dueOn, 'dated', locale) },
          { key: 'state', caption: 'Status', cell: stateWords },
          { key: 'total', caption: 'Total', align: 'right', cell: (b) => format(b.invoice.totalMinor) },
          { key: 'open', caption: 'Open', align: 'right', cell: (b) => format(b.openMinor) },
        ]}
      />
      {money.toIssue.length > 0 && (
        <Table
          label="To be invoiced"
          captioned
          rows={money.toIssue}
          rowKey={(draft) => draft.stageName ?? 'change-orders'}
          columns={[
            { key: 'for', caption: 'Payment', heads: true, cell: (draft) => draft.stageName ?? 'Change orders' },
            { key: 'when', caption: 'Status', cell: (draft) => (draft.isReady ? 'Ready to invoice' : WAITS_FOR[draft.due]) },
            { key: 'total', caption: 'Total', align: 'right', cell: (draft) => format(draft.totalMinor) },
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
