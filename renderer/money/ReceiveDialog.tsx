import { useState } from 'react';
import { type PaymentMethod } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { METHOD_WORDS } from '../../shared-core/documents/money-papers.ts';
import { taxInside } from '../../shared-core/ledger/job-result.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { recordEntry } from '../book/ledger-commands.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { DateField, Fields, MoneyField, TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

type Kind = 'payment' | 'refund' | 'credit' | 'write-off';
const KINDS: Readonly<Record<Kind, string>> = { payment: 'Payment', refund: 'Refund', credit: 'Credit', 'write-off': 'Write-off' };

interface ReceiveDialogProps {
  readonly whole: WholeJob;
  readonly money: JobMoney;
  /** The invoice it was opened from. */
  readonly invoiceId: string | null;
  readonly onClose: () => void;
}

/** Records a payment, a refund, or an amount written off. */
export function ReceiveDialog({ whole, money, invoiceId: first, onClose }: ReceiveDialogProps) {
  const { currency } = whole.business;
  const open = money.account.invoices.filter((b) => b.openMinor > 0);
  const [kind, setKind] = useState<Kind>('payment');
  const [invoiceId, setInvoiceId] = useState<string | null>(first);
  const [amountMinor, setAmount] = useState<number | null>(open.find((b) => b.invoice.id === first)?.dueMinor ?? null);
  const [onDay, setOnDay] = useState<string | null>(money.today);
  const [method, setMethod] = useState<PaymentMethod>('check');
  const [reference, setReference] = useState('');
  const [reason, setReason] = useState('');
  const isAdjustment = kind === 'credit' || kind === 'write-off';
  const save = async () => {
    if (amountMinor === null || amountMinor === 0) return 'Enter an amount greater than 0.';
    if (onDay === null) return 'Enter the date.';
    const own = { jobId: whole.job.id, onDay, note: '', amountMinor };
    if (!isAdjustment)
      return kind === 'payment'
        ? recordEntry({ ...own, kind, method, reference, invoiceId })
        : recordEntry({ ...own, kind, method, reference });
    if (reason.trim() === '') return 'Enter the reason. It shows on the statement.';
    const against = money.account.invoices.flatMap((b) => (invoiceId === null || b.invoice.id === invoiceId ? [b.invoice] : []));
    const taxMinor = taxInside(
      amountMinor,
      against.filter(({ voidedAt }) => voidedAt === null),
    );
    return recordEntry({ ...own, kind, taxMinor, invoiceId, reason: reason.trim() });
  };
  return (
    <SaveDialog title="Record payment" save={save} onClose={onClose}>
      <ChoiceRow label="Type" options={KINDS} value={kind} onChange={setKind} />
      <Fields>
        <MoneyField label="Amount" value={amountMinor} onChange={setAmount} currency={currency} />
        <DateField label="Date" value={onDay} onChange={setOnDay} today={money.today} latest={money.today} />
        {kind !== 'refund' && open.length > 0 && (
          <SelectField
            label="Invoice"
            value={invoiceId}
            onChange={setInvoiceId}
            none="Oldest open invoice"
            options={open.map((b) => ({ value: b.invoice.id, word: b.invoice.number }))}
          />
        )}
      </Fields>
      {isAdjustment ? (
        <TextField label="Reason" value={reason} onChange={setReason} />
      ) : (
        <>
          <ChoiceRow label="Method" captioned options={METHOD_WORDS} value={method} onChange={setMethod} />
          <TextField label="Reference" hint="Check number or transfer reference" value={reference} onChange={setReference} />
        </>
      )}
    </SaveDialog>
  );
}
