import { useState } from 'react';
import type { Credit, LedgerEntry } from '../../shared-core/book/ledger.ts';
import { isTaxCredit } from '../../shared-core/ledger/credit-taxes.ts';
import { voidEntry } from '../book/ledger-commands.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

interface VoidDialogProps {
  readonly entry: LedgerEntry;
  /** Credits and write-offs that are voided with an invoice. */
  readonly credits?: readonly Credit[];
  readonly onClose: () => void;
}

export function VoidDialog({ entry, credits = [], onClose }: VoidDialogProps) {
  const { locale } = useMeasure();
  const [reason, setReason] = useState('');
  const save = async () =>
    reason.trim() === '' ? 'Enter the reason. It stays with the entry.' : await voidEntry(entry, reason.trim(), credits);
  return (
    <SaveDialog
      firm
      title={entry.kind === 'invoice' ? `Void invoice ${entry.number}` : 'Void this entry'}
      saveWord="Void"
      save={save}
      onClose={onClose}
    >
      <p>It stays on the record and no longer counts. An invoice keeps its number. This cannot be undone.</p>
      {entry.kind === 'invoice' && credits.length > 0 && (
        <p>
          {`Credits and write-offs that are voided with it: ${credits.map(({ amountMinor }) => formatMoney(amountMinor, entry.currency, locale)).join(', ')}.`}
        </p>
      )}
      {credits.some(isTaxCredit) && (
        <p>An invoice issued again has the contract’s sales tax again. If the customer is exempt, record the credit for sales tax again.</p>
      )}
      <TextField label="Reason" value={reason} onChange={setReason} />
    </SaveDialog>
  );
}
