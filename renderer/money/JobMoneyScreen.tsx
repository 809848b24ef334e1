import { useState, useMemo } from 'react';
import type { Invoice, LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { type LoggedHours, loggedHours } from '../../shared-core/learn/logged-hours.ts';
import { type InvoiceDraft, proposedDueDay } from '../../shared-core/ledger/next-invoice.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { useMoney } from '../parts/use-measure.ts';
import { netReceivedMinor } from '../../shared-core/ledger/account.ts';
import { creditsVoidedWith } from '../../shared-core/ledger/job-contract.ts';
import { jobTitle } from '../../shared-core/standing/names.ts';
import { type JobMoney, jobMoney, jobStateWord, moneyDays } from '../../shared-core/standing/job-money.ts';
import { putJob, changeJob } from '../book/job-commands.ts';
import { useWholeJob } from '../book/use-whole-job.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Notice, SaveDialog, ResultNotice, type Said } from '../parts/Dialog.tsx';
import { Sheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { useBusy } from '../parts/use-busy.ts';
import { NoJob } from '../parts/job/JobSheet.tsx';
import { CostDialog } from './CostDialog.tsx';
import { EntriesPart, entryWords, InvoicesPart } from './EntriesPart.tsx';
import { EntryDialog, ReceiveDialog, type ReceiveKind } from './EntryDialog.tsx';
import { lateCharge, moneyPapers } from './money-documents.ts';
import { creditFirst, invoiceTaxWords, moneyAnswer, moneyLeft } from '../parts/money-words.ts';
import { MoneyDatum } from './MoneyDatum.tsx';
import { ResultPart } from './ResultPart.tsx';
import { VoidDialog } from './VoidDialog.tsx';
import './money.css';
import { nowInstant } from '../book/command.ts';
import { type LienKind, lienDeadlines } from '../../shared-core/ledger/lien-deadlines.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { issueInvoice, recordEntries } from '../book/ledger-commands.ts';
import { DateField, Fields, MoneyField, TextField } from '../parts/Fields.tsx';
import { payOf } from '../../shared-core/ledger/worked-hours.ts';
import { formatWork } from '../../shared-core/measure/duration.ts';
import { Table } from '../parts/Table.tsx';
import { joined } from '../../shared-core/measure/list.ts';

type Receive = { readonly kind: ReceiveKind; readonly amountMinor: number | null };

type Asking =
  | { readonly kind: 'issue'; readonly draft: InvoiceDraft }
  | { readonly kind: 'receive'; readonly invoiceId: string | null; readonly first?: Receive }
  | { readonly kind: 'cost'; readonly hours?: LoggedHours | undefined }
  | { readonly kind: 'entry' | 'void'; readonly entry: LedgerEntry };

export function JobMoneyScreen({ jobId }: { readonly jobId: string }) {
  const whole = useWholeJob(jobId);
  const money = useJobMoney(whole);
  if (whole === undefined) return <p className="app-opening caption">Loading…</p>;
  if (whole === null || money === null) return <NoJob />;
  return <JobMoneyShown whole={whole} money={money} />;
}

function JobMoneyShown({ whole, money }: { readonly whole: WholeJob; readonly money: JobMoney }) {
  const [asking, setAsking] = useState<Asking | null>(null);
  const [message, setMessage] = useState<Said>(null);
  const { business, job, customer, property } = whole;
  const format = useMoney();
  const papers = moneyPapers(whole, money);
  const close = (): void => setAsking(null);
  const [, run] = useBusy();
  const show = (save: () => Promise<{ ok: boolean; text: string }>): void => run(() => save().then(setMessage));
  // The records read before do not have it. It is issued once, so that it waits for no other PDF.
  const savePdf = (issued: Invoice): void =>
    void moneyPapers({ ...whole, ledger: [...whole.ledger, issued] }, money)
      .invoice(issued)
      .then(setMessage);
  const ready = money.toIssue.find((draft) => draft.isReady);
  const open = money.account.invoices
    .filter((b) => b.openMinor > 0)
    .map((balance) => ({ name: balance.invoice.stageName ?? 'Invoice', balance }));
  const asked = asking?.kind === 'entry' ? money.account.invoices.find((b) => b.invoice.id === asking.entry.id) : undefined;
  const overdue = money.account.invoices.find((b) => b.state === 'overdue');
  const firstRoom = job.rooms[0]?.roomId ?? '';
  const record = toRecord(money);
  const isSettled = money.contract === null && money.settle === 'nothing';
  return (
    <Sheet
      page="Money"
      who={{
        name: customer.name,
        short: customer.name,
        where: joined([property.address.line, property.address.city]),
        right: `Job ${job.number}${job.state === 'open' ? '' : `, ${jobStateWord(job, whole.quotes)}`}`,
      }}
      block={
        <BlockPart>
          <dl className="figures money-totals">
            {totals(money, format).map(([label, value]) => (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{value}</dd>
              </div>
            ))}
          </dl>
          {!isSettled && (
            <p>
              <LinkWord href={`/jobs/${job.id}/quote/${firstRoom}`}>Go to Quote</LinkWord>
            </p>
          )}
        </BlockPart>
      }
      datum={<MoneyDatum rows={open} today={money.today} />}
      foot={<p className="speech">{`${moneyAnswer(money, format)}${job.state === 'finished' ? ' The job is finished.' : ''}`}</p>}
      action={
        record !== null ? (
          <ActionButton
            onPress={() => setAsking({ kind: 'receive', invoiceId: null, first: record })}
          >{`Record ${record.kind}`}</ActionButton>
        ) : money.canFinish ? (
          <ActionButton onPress={() => void putJob(job, 'finished').then(setMessage)}>Finish job</ActionButton>
        ) : overdue !== undefined && !money.isCanceled ? (
          <ActionButton onPress={() => setAsking({ kind: 'entry', entry: overdue.invoice })}>Send reminder</ActionButton>
        ) : isSettled ? (
          <ActionButton href={`/jobs/${job.id}/quote/${firstRoom}`}>Go to Quote</ActionButton>
        ) : (money.isPaid && moneyLeft(money, format) === null) || (money.isCanceled && money.settle === 'kept') ? (
          <ActionButton href="/jobs">Go to Jobs</ActionButton>
        ) : ready === undefined ? (
          <ActionButton onPress={() => setAsking({ kind: 'receive', invoiceId: null })}>Record payment</ActionButton>
        ) : (
          <ActionButton onPress={() => setAsking({ kind: 'issue', draft: ready })}>
            {`Issue invoice for ${format(ready.totalMinor)}`}
          </ActionButton>
        )
      }
    >
      <SheetHeading under={`Invoices, payments, and costs of job ${job.number}`}>Money</SheetHeading>
      <ResultNotice message={message} onClose={setMessage} />
      <InvoicesPart
        whole={whole}
        money={money}
        onIssue={(draft) => setAsking({ kind: 'issue', draft })}
        onPick={(balance) => setAsking({ kind: 'entry', entry: balance.invoice })}
        onStatement={() => show(papers.statement)}
      />
      <EntriesPart
        whole={whole}
        onReceive={() => setAsking({ kind: 'receive', invoiceId: null })}
        onCost={() => setAsking({ kind: 'cost' })}
        onPick={(entry) => setAsking({ kind: 'entry', entry })}
      />
      <LienPart whole={whole} />
      <LoggedHoursPart whole={whole} onCorrect={(hours) => setAsking({ kind: 'cost', hours })} />
      <ResultPart whole={whole} money={money} />
      {asking?.kind === 'issue' && (
        <InvoiceDialog whole={whole} draft={asking.draft} today={money.today} onIssued={savePdf} onClose={close} />
      )}
      {asking?.kind === 'receive' && (
        <ReceiveDialog
          whole={whole}
          money={money}
          invoiceId={asking.invoiceId}
          first={asking.first ?? { kind: 'payment', amountMinor: null }}
          onClose={close}
        />
      )}
      {asking?.kind === 'cost' && <CostDialog whole={whole} today={money.today} hours={asking.hours} onClose={close} />}
      {asking?.kind === 'entry' && (
        <EntryDialog
          whole={whole}
          entry={asking.entry}
          words={
            asking.entry.kind === 'invoice'
              ? `${format(asking.entry.totalMinor)}, due ${formatDay(asking.entry.dueOn, 'dated', business.locale)}`
              : entryWords(asking.entry, business)
          }
          balance={asked ?? null}
          creditFirst={creditFirst(money, format)}
          late={asked === undefined ? null : lateCharge(whole, asked, money.today)}
          actions={{
            onReceive: (invoiceId) => setAsking({ kind: 'receive', invoiceId }),
            onVoid: (entry) => setAsking({ kind: 'void', entry }),
            onInvoicePdf: (invoice) => show(() => papers.invoice(invoice)),
            onOverdueNotice: (balance) => show(() => papers.overdue(balance)),
            onLateCharge: (draft) => setAsking({ kind: 'issue', draft }),
            onReceipt: (payment) => show(() => papers.receipt(payment)),
          }}
          onClose={close}
        />
      )}
      {asking?.kind === 'void' && (
        <VoidDialog entry={asking.entry} credits={creditsVoidedWith(asking.entry, money.contract, whole.ledger)} onClose={close} />
      )}
    </Sheet>
  );
}

/** The credit or refund that is next; null where none is. */
function toRecord({ overInvoicedMinor, isCanceled, isPaid, settle, account }: JobMoney): Receive | null {
  if (overInvoicedMinor > 0) return { kind: 'credit', amountMinor: overInvoicedMinor };
  if (isCanceled && settle === 'choose') return { kind: 'credit', amountMinor: null };
  if (isCanceled && settle === 'pay-all-back') return { kind: 'credit', amountMinor: netReceivedMinor(account) };
  const payBackMinor = Math.min(account.onAccountMinor, netReceivedMinor(account));
  return (isCanceled || isPaid) && payBackMinor > 0 ? { kind: 'refund', amountMinor: payBackMinor } : null;
}

function totals({ contract, account, isCanceled }: JobMoney, format: (minor: number) => string): (readonly [string, string])[] {
  return [
    ['Contract total', contract === null ? (isCanceled ? 'Canceled' : 'No accepted quote') : format(contract.totalMinor)],
    ['Invoiced', format(account.invoicedMinor)],
    ...(account.lateChargesMinor === 0 ? [] : [['Late charges in it', format(account.lateChargesMinor)] as const]),
    ['Received', format(account.receivedMinor - account.refundedMinor)],
    ...(account.creditedMinor + account.writtenOffMinor > 0
      ? [['Credits and write-offs', format(account.creditedMinor + account.writtenOffMinor)] as const]
      : []),
    ['Open', format(account.openMinor)],
    ...(account.overRefundedMinor === 0 ? [] : [['Refunded beyond receipts', format(account.overRefundedMinor)] as const]),
    ...(account.onAccountMinor === 0 ? [] : [['Credit balance', format(account.onAccountMinor)] as const]),
  ];
}

function useJobMoney(whole: WholeJob | null | undefined): JobMoney | null {
  return useMemo(() => (whole === null || whole === undefined ? null : jobMoney(whole, nowInstant())), [whole]);
}

const WORDS: Readonly<Record<LienKind, string>> = { 'lien-notice': 'Lien notice', 'lien-deadline': 'Lien' };

/** Lien deadlines from the days entered for the state, each checked off once met. */
function LienPart({ whole }: { readonly whole: WholeJob }) {
  const [problem, setProblem] = useState<string | null>(null);
  const { business, job } = whole;
  const deadlines = lienDeadlines(whole, business.lienRules);
  if (deadlines.length === 0) return null;
  const set = (kind: LienKind, done: boolean): void =>
    void changeJob(job.id, 'lien deadline', (j) => ({
      ...j,
      lienDone: done ? [...new Set([...j.lienDone, kind])] : j.lienDone.filter((one) => one !== kind),
    })).then((saved) => setProblem(saved.ok ? null : saved.message));
  return (
    <section className="money-part">
      <h2 className="speech">Lien deadlines</h2>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {deadlines.map(({ kind, onDay, isDone }) => (
        <CheckRow
          key={kind}
          task
          label={`${WORDS[kind]} by ${formatDay(onDay, 'dated', business.locale)}`}
          because="From the days you entered for the state. Check them before you rely on them."
          checked={isDone}
          onChange={(done) => set(kind, done)}
        />
      ))}
    </section>
  );
}

interface InvoiceDialogProps {
  readonly whole: WholeJob;
  readonly draft: InvoiceDraft;
  readonly today: string;
  readonly onIssued: (invoice: Invoice) => void;
  readonly onClose: () => void;
}

/** Issues one invoice. The amount comes from the contract; dates and retainage are chosen here. */
function InvoiceDialog({ whole, draft, today, onIssued, onClose }: InvoiceDialogProps) {
  const { currency } = whole.business;
  const format = useMoney();
  const taxWords = invoiceTaxWords(draft, whole.ledger, format);
  const [onDay, setOnDay] = useState<string | null>(today);
  const [firstAt] = whole.job.rooms.flatMap(({ pourAt }) => pourAt ?? []).sort();
  const days = moneyDays(whole);
  const pourDay = firstAt === undefined ? null : dayOfInstant(firstAt, whole.property.timeZone);
  const [dueOn, setDueOn] = useState<string | null>(proposedDueDay(draft, today, { pour: pourDay, thirtyDays: days.thirtyDays }));
  const late = whole.ledger.find((entry): entry is Invoice => entry.kind === 'invoice' && entry.id === draft.lateFor);
  const [title, setTitle] = useState(
    late === undefined
      ? jobTitle(whole.job, whole.rooms) || `Floor leveling, ${whole.property.address.line}`
      : `Late charge on invoice ${late.number} through ${formatDay(today, 'dated', whole.business.locale)}`,
  );
  const [totalMinor, setTotal] = useState<number | null>(draft.totalMinor);
  const [retainage, setRetainage] = useState<number | null>(0);
  const issue = async () => {
    if (onDay === null || dueOn === null) return 'Enter the invoice date and the due date.';
    if (dueOn < onDay) return 'The due date is before the invoice date. Enter a later due date.';
    if (totalMinor === null || totalMinor === 0) return 'Enter an amount greater than 0.';
    if (totalMinor > draft.totalMinor) return `The contract allows ${format(draft.totalMinor)}. Enter that amount or less.`;
    if ((retainage ?? 0) > draft.totalMinor) return 'The retainage is more than the invoice. Enter a smaller amount.';
    const issued = await issueInvoice(whole.job.id, late === undefined ? draft : { ...draft, netMinor: totalMinor, totalMinor }, {
      onDay,
      dueOn,
      title,
      retainageMinor: retainage ?? 0,
      note: '',
      currency,
    });
    if (issued.ok) onIssued(issued.value);
    return issued;
  };
  return (
    <SaveDialog
      title={`Issue invoice: ${late === undefined ? (draft.stageName ?? 'change orders') : 'late charge'}`}
      saveWord="Issue invoice"
      save={issue}
      onClose={onClose}
    >
      <Fields>
        <MoneyField label="Total" value={totalMinor} onChange={setTotal} disabled={late === undefined} />
        <DateField label="Invoice date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        <DateField label="Due date" value={dueOn} onChange={setDueOn} today={today} />
        {late === undefined && days.handedOver === null && <MoneyField label="Retainage" value={retainage} onChange={setRetainage} />}
      </Fields>
      <TextField label="Description" value={title} onChange={setTitle} emptyMessage="Enter a description." />
      {late !== undefined && (
        <p className="small">
          By the contract: simple interest by the day on what is overdue. State law may allow less. Check it first, and bill less or nothing
          if you choose.
        </p>
      )}
      {taxWords !== null && <p className="small">{taxWords}</p>}
      <p className="small">An issued invoice keeps its number and never changes. If something is wrong, void it and issue another.</p>
    </SaveDialog>
  );
}

const SHOWN = 5;

/** Hours from prep signatures and the pour log that the ledger lacks, to be added as they are or corrected first. */
function LoggedHoursPart({ whole, onCorrect }: { readonly whole: WholeJob; readonly onCorrect: (hours: LoggedHours) => void }) {
  const [problem, setProblem] = useState<string | null>(null);
  const rows = loggedHours(whole);
  const { business, job, ledger } = whole;
  if (rows.length === 0) return null;
  const record = async (): Promise<void> => {
    const saved = await recordEntries(
      rows.map((hours) => ({ ...hours, ...payOf(hours.who, business, ledger), kind: 'hours' as const, jobId: job.id, note: '' })),
    );
    setProblem(saved.ok ? null : saved.message);
  };
  return (
    <section className="money-part">
      <div className="ends-line">
        <h2 className="speech">Hours in the logs</h2>
        <TextButton onPress={() => void record()}>{rows.length === 1 ? 'Record hours' : `Record all ${rows.length}`}</TextButton>
      </div>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <p className="small">From the times prep lines were signed and the pour log. Not recorded yet. Select a row to correct it first.</p>
      <Table
        label="Hours in the logs that are not recorded"
        dense
        rows={rows}
        first={SHOWN}
        rowKey={({ readFrom }) => readFrom}
        onPick={onCorrect}
        columns={[
          { caption: 'Date', cell: ({ onDay }) => <span className="unbroken">{formatDay(onDay, 'short', business.locale)}</span> },
          { caption: 'Worker', heads: true, cell: ({ who }) => who },
          { caption: 'Task', cell: ({ task }) => task },
          { caption: 'Time', align: 'right', cell: ({ minutes }) => formatWork(minutes / 60, business.locale) },
        ]}
      />
    </section>
  );
}
