import { useState } from 'react';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import { addDaysToDay } from '../../shared-core/measure/day.ts';
import { issueInvoice } from '../book/ledger-commands.ts';
import { DateField, Fields, MoneyField, TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

/** Default days to pay for a new invoice. Common practice, no source. */
const USUAL_DAYS = 14;

interface InvoiceDialogProps {
  readonly whole: WholeJob;
  readonly draft: InvoiceDraft;
  readonly today: string;
  readonly onClose: () => void;
}

/** Issues one invoice. The amount comes from the contract; dates and retainage are chosen here. */
export function InvoiceDialog({ whole, draft, today, onClose }: InvoiceDialogProps) {
  const currency = whole.business.currency;
  const [onDay, setOnDay] = useState<string | null>(today);
  const [dueOn, setDueOn] = useState<string | null>(addDaysToDay(today, draft.purpose === 'deposit' ? 0 : USUAL_DAYS));
  const [title, setTitle] = useState(whole.job.title === '' ? `Floor leveling, ${whole.property.address.line}` : whole.job.title);
  const [retainage, setRetainage] = useState<number | null>(0);
  const issue = async () => {
    if (onDay === null || dueOn === null) return 'Enter the invoice date and the due date.';
    if (dueOn < onDay) return 'The due date is before the invoice date. Enter a later due date.';
    if ((retainage ?? 0) > draft.totalMinor) return 'The retainage is more than the invoice. Enter a smaller amount.';
    return issueInvoice(whole.job.id, draft, { onDay, dueOn, title, retainageMinor: retainage ?? 0, note: '', currency });
  };
  return (
    <SaveDialog title={`Issue invoice: ${draft.stageName ?? 'change orders'}`} saveWord="Issue invoice" save={issue} onClose={onClose}>
      <Fields>
        <MoneyField label="Total" value={draft.totalMinor} onChange={() => undefined} currency={currency} disabled />
        <DateField label="Invoice date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        <DateField label="Due date" value={dueOn} onChange={setDueOn} today={today} />
        <MoneyField label="Retainage" value={retainage} onChange={setRetainage} currency={currency} />
      </Fields>
      <TextField label="Description" value={title} onChange={setTitle} emptyMessage="Enter a description." />
      <p className="small">An issued invoice keeps its number and never changes. If something is wrong, void it and issue another.</p>
    </SaveDialog>
  );
}
