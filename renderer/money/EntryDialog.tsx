import { useState } from 'react';
import type { Invoice, LedgerEntry, Payment } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { paymentMessage } from '../../shared-core/documents/payment-message.ts';
import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import { useReceipts } from '../book/use-photos.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { mailAddress } from '../parts/mail-address.ts';
import { PhotosPart } from '../parts/PhotosPart.tsx';
import { TextButton } from '../parts/Buttons.tsx';

export interface EntryActions {
  readonly onReceive: (invoiceId: string) => void;
  readonly onVoid: (entry: LedgerEntry) => void;
  readonly onInvoicePdf: (invoice: Invoice) => void;
  readonly onOverdueNotice: (balance: InvoiceBalance) => void;
  readonly onReceipt: (payment: Payment) => void;
}

interface EntryDialogProps {
  readonly whole: WholeJob;
  readonly entry: LedgerEntry;
  /** The entry in one sentence. */
  readonly words: string;
  /** How an invoice was settled. */
  readonly balance: InvoiceBalance | null;
  readonly actions: EntryActions;
  readonly onClose: () => void;
}

/** One ledger entry with its actions. */
export function EntryDialog({ whole, entry, words, balance, actions, onClose }: EntryDialogProps) {
  const isVoid = entry.voidedAt !== null;
  const then = (work: () => void) => (): void => {
    onClose();
    work();
  };
  return (
    <Dialog
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
      {balance !== null && balance.dueMinor > 0 && <MessagePart whole={whole} balance={balance} />}
      {entry.kind === 'purchase' && entry.photoIds.length > 0 && <ReceiptPhotos whole={whole} ids={entry.photoIds} />}
    </Dialog>
  );
}

/** An email about an open invoice. */
function MessagePart({ whole, balance }: { readonly whole: WholeJob; readonly balance: InvoiceBalance }) {
  const [copied, setCopied] = useState(false);
  const message = paymentMessage(whole, balance);
  return (
    <section>
      <p className="caption">Message to the customer</p>
      <p className="money-message">{message.body}</p>
      <p className="words">
        <a className="link-word" href={mailAddress(whole.customer.email, message)}>
          {balance.daysOverdue > 0 ? 'Email reminder' : 'Email invoice'}
        </a>
        <TextButton kind="plain" onPress={() => void navigator.clipboard.writeText(message.text).then(() => setCopied(true))}>
          {copied ? 'Copied' : 'Copy text message'}
        </TextButton>
      </p>
    </section>
  );
}

function ReceiptPhotos({ whole, ids }: { readonly whole: WholeJob; readonly ids: readonly string[] }) {
  const album = useReceipts(whole.job.id, ids);
  return <PhotosPart album={album} zone={whole.business.timeZone} label="Photos of the receipt" />;
}
