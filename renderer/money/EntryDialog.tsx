import type { Invoice, LedgerEntry, Payment } from '../../shared-core/book/ledger.ts';
import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/TextButton.tsx';

export interface EntryActions {
  readonly onReceive: (invoiceId: string) => void;
  readonly onVoid: (entry: LedgerEntry) => void;
  readonly onInvoicePdf: (invoice: Invoice) => void;
  readonly onOverdueNotice: (balance: InvoiceBalance) => void;
  readonly onReceipt: (payment: Payment) => void;
}

interface EntryDialogProps {
  readonly entry: LedgerEntry;
  /** The entry in a sentence. */
  readonly words: string;
  /** For an invoice: how it is settled. */
  readonly balance: InvoiceBalance | null;
  readonly actions: EntryActions;
  readonly onClose: () => void;
}

/** One ledger entry with what can be done with it. */
export function EntryDialog({ entry, words, balance, actions, onClose }: EntryDialogProps) {
  const isVoid = entry.voidedAt !== null;
  const then = (work: () => void) => (): void => {
    onClose();
    work();
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={entry.kind === 'invoice' ? `Invoice ${entry.number}` : words}
      actions={
        <>
          <TextButton onPress={onClose}>Close</TextButton>
          {!isVoid && <TextButton onPress={then(() => actions.onVoid(entry))}>Void…</TextButton>}
          {entry.kind === 'payment' && !isVoid && (
            <TextButton kind="outlined" onPress={then(() => actions.onReceipt(entry))}>
              Save receipt
            </TextButton>
          )}
          {balance?.state === 'overdue' && (
            <TextButton onPress={then(() => actions.onOverdueNotice(balance))}>Save overdue notice</TextButton>
          )}
          {entry.kind === 'invoice' && <TextButton onPress={then(() => actions.onInvoicePdf(entry))}>Save PDF</TextButton>}
          {balance !== null && balance.openMinor > 0 && (
            <TextButton kind="outlined" onPress={then(() => actions.onReceive(entry.id))}>
              Record payment
            </TextButton>
          )}
        </>
      }
    >
      {entry.kind === 'invoice' && <p>{words}</p>}
      {entry.note !== '' && <p>{entry.note}</p>}
      {isVoid && <p>{`Void: ${entry.voidReason}`}</p>}
    </Dialog>
  );
}
