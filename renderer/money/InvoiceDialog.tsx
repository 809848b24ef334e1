import { useState } from 'react';
import type { Invoice } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import { addDaysToDay } from '../../shared-core/measure/day.ts';
import { issueInvoice } from '../book/ledger-commands.ts';
import { DateField } from '../parts/DateField.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { Fields } from '../parts/Fields.tsx';
import { MoneyField } from '../parts/MoneyField.tsx';
import { Notice } from '../parts/Notice.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';

/** Days to pay that a new invoice starts from. Common practice, no source. */
const USUAL_DAYS = 14;

interface InvoiceDialogProps {
  readonly whole: WholeJob;
  readonly draft: InvoiceDraft;
  readonly today: string;
  readonly onIssued: (invoice: Invoice) => void;
  readonly onClose: () => void;
}

/** Issues one invoice: the amount comes from the contract; the dates and the retainage are chosen here. */
export function InvoiceDialog({ whole, draft, today, onIssued, onClose }: InvoiceDialogProps) {
  const currency = whole.business.currency;
  const [onDay, setOnDay] = useState<string | null>(today);
  const [dueOn, setDueOn] = useState<string | null>(addDaysToDay(today, draft.purpose === 'deposit' ? 0 : USUAL_DAYS));
  const [title, setTitle] = useState(whole.job.title === '' ? `Floor leveling, ${whole.property.address.line}` : whole.job.title);
  const [retainage, setRetainage] = useState<number | null>(0);
  const [problem, setProblem] = useState<string | null>(null);
  const issue = async (): Promise<void> => {
    if (onDay === null || dueOn === null) return setProblem('Enter the invoice date and the due date.');
    if (dueOn < onDay) return setProblem('The due date is before the invoice date. Enter a later due date.');
    if ((retainage ?? 0) > draft.totalMinor) return setProblem('The retainage is more than the invoice. Enter a smaller amount.');
    const issued = await issueInvoice(whole.job.id, draft, { onDay, dueOn, title, retainageMinor: retainage ?? 0, note: '', currency });
    if (issued.ok) onIssued(issued.value);
    else setProblem(issued.message);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={`Issue invoice: ${draft.stageName ?? 'change orders'}`}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton kind="outlined" onPress={() => void issue()}>
            Issue invoice
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <Fields>
        <MoneyField label="Total" value={draft.totalMinor} onChange={() => undefined} currency={currency} disabled />
        <DateField label="Invoice date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        <DateField label="Due date" value={dueOn} onChange={setDueOn} today={today} />
        <MoneyField label="Retainage" value={retainage} onChange={setRetainage} currency={currency} />
      </Fields>
      <TextField label="Description" value={title} onChange={setTitle} emptyMessage="Enter a description." />
      <p className="small">An issued invoice keeps its number and never changes. If something is wrong, void it and issue another.</p>
    </Dialog>
  );
}
