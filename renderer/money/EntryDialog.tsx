import { useState } from 'react';
import type { Invoice, LedgerEntry, Payment, PaymentMethod } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { paymentMessage } from '../../shared-core/documents/payment-message.ts';
import { type InvoiceBalance, openToWriteOffMinor, proposedMinor } from '../../shared-core/ledger/account.ts';
import type { InvoiceDraft } from '../../shared-core/ledger/next-invoice.ts';
import { useReceipts } from '../book/use-photos.ts';
import { Dialog, SaveDialog } from '../parts/Dialog.tsx';
import { mailAddress } from '../parts/mail-address.ts';
import { PhotosPart } from '../parts/PhotosPart.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { METHOD_WORDS } from '../../shared-core/documents/money-papers.ts';
import { useMoney } from '../parts/use-measure.ts';
import { creditTaxes, orderCreditTaxes, taxLeftMinor } from '../../shared-core/ledger/credit-taxes.ts';
import { opensAgainMinor } from '../../shared-core/ledger/job-contract.ts';
import type { JobMoney } from '../../shared-core/standing/job-money.ts';
import { recordEntries, recordEntry } from '../book/ledger-commands.ts';
import { CheckRow, ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { DateField, Fields, MoneyField, TextField } from '../parts/Fields.tsx';

interface EntryActions {
  readonly onReceive: (invoiceId: string) => void;
  readonly onVoid: (entry: LedgerEntry) => void;
  readonly onInvoicePdf: (invoice: Invoice) => void;
  readonly onOverdueNotice: (balance: InvoiceBalance) => void;
  readonly onLateCharge: (draft: InvoiceDraft) => void;
  readonly onReceipt: (payment: Payment) => void;
}

interface EntryDialogProps {
  readonly whole: WholeJob;
  readonly entry: LedgerEntry;
  readonly words: string;
  /** How an invoice was settled. */
  readonly balance: InvoiceBalance | null;
  /** What to do before the customer is asked for money; null for nothing. */
  readonly creditFirst: string | null;
  /** What may be billed for paying late; null for nothing. */
  readonly late: InvoiceDraft | null;
  readonly actions: EntryActions;
  readonly onClose: () => void;
}

export function EntryDialog({ whole, entry, words, balance, creditFirst, late, actions, onClose }: EntryDialogProps) {
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
          {late !== null && creditFirst === null && (
            <TextButton onPress={then(() => actions.onLateCharge(late))}>Bill late charge…</TextButton>
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
      {balance !== null &&
        balance.dueMinor > 0 &&
        (creditFirst === null ? <MessagePart whole={whole} balance={balance} /> : <p>{creditFirst}</p>)}
      {entry.kind === 'purchase' && entry.photoIds.length > 0 && <ReceiptPhotos whole={whole} ids={entry.photoIds} />}
    </Dialog>
  );
}

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

export type ReceiveKind = 'payment' | 'refund' | 'credit' | 'write-off';
const KINDS: Readonly<Record<ReceiveKind, string>> = { payment: 'Payment', refund: 'Refund', credit: 'Credit', 'write-off': 'Write-off' };

interface ReceiveDialogProps {
  readonly whole: WholeJob;
  readonly money: JobMoney;
  /** The invoice it was opened from. */
  readonly invoiceId: string | null;
  /** What it was opened to record. */
  readonly first: { readonly kind: ReceiveKind; readonly amountMinor: number | null };
  readonly onClose: () => void;
}

/** Records a payment, a refund, or an amount written off. */
export function ReceiveDialog({ whole, money, invoiceId: firstInvoiceId, first, onClose }: ReceiveDialogProps) {
  const format = useMoney();
  const open = money.account.invoices.filter((b) => b.openMinor > 0);
  const [kind, setKind] = useState<ReceiveKind>(first.kind);
  const [invoiceId, setInvoiceId] = useState<string | null>(firstInvoiceId);
  // Undefined until an amount is entered or cleared.
  const [typedMinor, setAmount] = useState<number | null | undefined>(undefined);
  const [taxChosen, setTaxOnly] = useState(false);
  // While change orders leave an amount to credit, a credit is for them, whichever button opened this.
  const { contract, overInvoicedMinor } = money;
  const forChangeOrders = kind === 'credit' && contract !== null && overInvoicedMinor > 0;
  const taxMinor = kind === 'credit' && !forChangeOrders ? taxLeftMinor(whole.ledger, invoiceId) : 0;
  const isTaxOnly = taxChosen && taxMinor > 0;
  const opened = kind === first.kind ? first.amountMinor : null;
  const proposed = isTaxOnly ? taxMinor : (opened ?? (kind === 'payment' ? proposedMinor(money.account, invoiceId) : null));
  const amountMinor = typedMinor === undefined ? proposed : typedMinor;
  const openedMinor = kind === 'refund' && contract !== null ? opensAgainMinor(amountMinor ?? 0, money.account, overInvoicedMinor) : 0;
  const [isGiven, setGiven] = useState(true);
  const [onDay, setOnDay] = useState<string | null>(money.today);
  const [method, setMethod] = useState<PaymentMethod>('check');
  const [reference, setReference] = useState('');
  const [reason, setReason] = useState(first.kind !== 'credit' ? '' : money.isCanceled ? 'Contract canceled' : 'Change orders');
  const isAdjustment = kind === 'credit' || kind === 'write-off';
  const save = async () => {
    if (amountMinor === null || amountMinor === 0) return 'Enter an amount greater than 0.';
    if (onDay === null) return 'Enter the date.';
    const own = { jobId: whole.job.id, onDay, note: '', amountMinor };
    if (kind === 'payment') return recordEntry({ ...own, kind, method, reference, invoiceId });
    if (kind === 'refund') {
      const given = { amountMinor: openedMinor, invoiceId: null };
      const credit = { ...own, ...given, kind: 'credit', taxes: creditTaxes(whole.ledger, given), reason: 'Goodwill' } as const;
      return recordEntries([{ ...own, kind, method, reference }, ...(openedMinor > 0 && isGiven ? [credit] : [])]);
    }
    if (reason.trim() === '') return 'Enter the reason. It shows on the statement.';
    if (forChangeOrders && amountMinor > overInvoicedMinor)
      return `The change orders leave ${format(overInvoicedMinor)} to credit. Enter that amount or less.`;
    if (isTaxOnly && amountMinor > taxMinor) return `${format(taxMinor)} of sales tax is invoiced. Enter that amount or less.`;
    const offMinor = openToWriteOffMinor(money.account, invoiceId);
    if (kind === 'write-off' && amountMinor > offMinor)
      return offMinor === 0 ? 'Nothing is open to write off.' : `Only ${format(offMinor)} is open to write off. Enter that amount or less.`;
    const taxes = forChangeOrders
      ? orderCreditTaxes(contract, whole.ledger, amountMinor)
      : creditTaxes(whole.ledger, { amountMinor, invoiceId }, isTaxOnly);
    return recordEntry({ ...own, kind, taxes, invoiceId, reason: reason.trim(), ...(forChangeOrders && { forChangeOrders }) });
  };
  return (
    <SaveDialog title={`Record ${KINDS[kind].toLowerCase()}`} save={save} onClose={onClose}>
      <ChoiceRow label="Type" options={KINDS} value={kind} onChange={setKind} />
      <Fields>
        <MoneyField label="Amount" value={amountMinor} onChange={setAmount} />
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
      {kind === 'payment' && money.account.writtenOffMinor > 0 && (
        <p className="small">
          {`${format(money.account.writtenOffMinor)} is written off. What is paid beyond the open invoices takes that back before it becomes a credit balance.`}
        </p>
      )}
      {openedMinor > 0 && (
        <CheckRow
          label={`Record a goodwill credit of ${format(openedMinor)} too`}
          because="Without the credit, this amount is open on the invoices again, and the customer is asked to pay it."
          checked={isGiven}
          onChange={setGiven}
        />
      )}
      {taxMinor > 0 && (
        <CheckRow
          label="Sales tax only"
          because="For a customer who is exempt. The price stays as invoiced."
          checked={isTaxOnly}
          onChange={(only) => {
            setTaxOnly(only);
            setAmount(undefined);
          }}
        />
      )}
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
