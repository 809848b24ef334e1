/** Invoices to issue and payments to collect. */
import { accountOf, counts, netReceivedMinor } from '../ledger/account.ts';
import { contractOfJob, overInvoicedMinor, stillToPayMinor } from '../ledger/job-contract.ts';
import { lienDeadlines } from '../ledger/lien-deadlines.ts';
import { type InvoiceDraft, invoicesToIssue } from '../ledger/next-invoice.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { acceptedQuote } from '../price/change-order.ts';
import { formatMoney } from '../price/money.ts';
import {
  canceledAt,
  canceledContract,
  type MoneyDays,
  moneyDays,
  releasedOn,
  settleStep,
  type SettleStep,
  toCreditMinor,
} from '../standing/job-money.ts';
import { customerWords } from '../standing/names.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';

/**
 * Open invoices, each on its due day. They are due whether the job is open, finished or canceled. A credit still to be recorded lowers what
 * is asked for; where it leaves nothing to collect, it is asked for itself.
 */
export function paymentEntries(make: EntryMaker): readonly AgendaEntry[] {
  const { ledger, customer, quotes } = make.bundle;
  // The amount due does not depend on today's date.
  const account = accountOf(ledger, '1970-01-01', releasedOn(make.bundle, make.zone));
  const contract = contractOfJob(quotes);
  const overMinor = toCreditMinor(contract, canceledContract(make.bundle) !== null, account);
  const why = contract === null ? 'It was refunded.' : 'More is invoiced than the contract total.';
  let creditMinor = overMinor;
  const due = account.invoices.flatMap(({ invoice, dueMinor, dueOn }) => {
    // As in the account, a credit goes to what is due first.
    const creditedMinor = Math.min(creditMinor, dueMinor);
    creditMinor -= creditedMinor;
    return dueMinor === 0 ? [] : [{ invoice, dueOn, askedMinor: dueMinor - creditedMinor }];
  });
  const asked = due.filter(({ askedMinor }) => askedMinor > 0);
  // What is to be paid back asks for the credit as well.
  const isOverpaid = contract !== null && stillToPayMinor(contract, account) < 0;
  return (asked.length > 0 || isOverpaid ? asked : due.slice(0, 1)).map(({ invoice, dueOn, askedMinor }) => {
    const money = (minor: number): string => formatMoney(minor, invoice.currency, make.locale);
    const who = customerWords(customer.name);
    const own = { kind: 'payment-due' as const, name: invoice.id, roomIds: [], toDo: true, stage: 'money' as const };
    const credit = `a credit of ${money(overMinor)} for ${who}. ${why}`;
    if (askedMinor === 0) return make.allDay({ ...own, event: 'record credit', verb: 'Record', rest: credit }, dueOn);
    const rest = `${money(askedMinor)} from ${who}, invoice ${invoice.number}.`;
    const note = overMinor === 0 ? null : `Record a credit of ${money(overMinor)} first.`;
    return make.allDay({ ...own, event: 'payment due', verb: 'Collect', rest, note }, dueOn);
  });
}

/** What is to be paid back to the customer until it is, or the job archived. */
export function refundEntries(make: EntryMaker): readonly AgendaEntry[] {
  return [...overpaidEntries(make), ...canceledEntries(make)];
}

/** What was paid beyond a contract, as when a change order lowers its total, from the day it was signed or paid. */
function overpaidEntries(make: EntryMaker): AgendaEntry[] {
  const { job, quotes, ledger, customer } = make.bundle;
  const quote = job.state === 'set-aside' ? null : acceptedQuote(quotes);
  const contract = contractOfJob(quotes);
  if (quote === null || contract === null) return [];
  const account = accountOf(ledger, '1970-01-01');
  const owedMinor = -stillToPayMinor(contract, account);
  if (owedMinor <= 0) return [];
  const overMinor = overInvoicedMinor(contract, account);
  const money = (minor: number): string => formatMoney(minor, contract.currency, make.locale);
  const moved = ledger.flatMap((entry) =>
    counts(entry) && ['invoice', 'payment', 'refund', 'credit', 'write-off'].includes(entry.kind) ? [entry.onDay] : [],
  );
  return [
    make.allDay(
      {
        kind: 'refund-due',
        name: quote.id,
        roomIds: [],
        event: 'refund due',
        verb: 'Pay back',
        rest: `${money(owedMinor)} to ${customerWords(customer.name)}. More is paid than is owed.`,
        note: overMinor === 0 ? 'Record the refund.' : `Record a credit of ${money(overMinor)}, then the refund.`,
        toDo: true,
        stage: 'money',
      },
      [moneyDays(make.bundle).signed ?? '', ...moved].toSorted().at(-1) ?? '',
    ),
  ];
}

/** What is to be done about money received for a contract that was canceled; in the other cases it is not to be paid back. */
const SETTLE: Readonly<Partial<Record<SettleStep, string>>> = {
  'pay-back': 'Pay back the credit balance and record the refund.',
  void: 'Void the invoices that are no longer owed, or record a credit.',
  'pay-all-back': 'The customer canceled within three business days. Record a credit and pay all of it back within 10 business days.',
  choose: 'To pay it back, record a credit, then the refund. To keep it, archive the job.',
};

/** What was received for a contract that was canceled since, from the day of the cancellation until it is settled. */
function canceledEntries(make: EntryMaker): AgendaEntry[] {
  const { job, quotes, ledger, customer } = make.bundle;
  const canceled = canceledContract({ job, quotes });
  const account = accountOf(ledger, '1970-01-01');
  const heldMinor = netReceivedMinor(account);
  const note = SETTLE[settleStep(account, ledger, canceled)];
  const since = canceledAt(canceled);
  if (canceled === null || since === null || heldMinor <= 0 || note === undefined) return [];
  return [
    make.allDay(
      {
        kind: 'refund-due',
        name: canceled.id,
        roomIds: [],
        event: 'settle canceled contract',
        verb: 'Settle',
        rest: `${formatMoney(heldMinor, canceled.currency, make.locale)} received from ${customerWords(customer.name)}. The contract was canceled.`,
        note,
        toDo: true,
        stage: 'money',
      },
      dayOfInstant(since, make.zone),
    ),
  ];
}

/** Lien deadlines entered by the owner, while the contract or, without one in force, the invoices are not paid in full. */
export function lienEntries(make: EntryMaker): readonly AgendaEntry[] {
  const { bundle, business, locale } = make;
  // What is not invoiced of a job that was declined or archived will not be done.
  const contract = ['declined', 'set-aside'].includes(bundle.job.state) ? null : contractOfJob(bundle.quotes);
  const account = accountOf(bundle.ledger, '1970-01-01');
  const refundedMinor = toCreditMinor(null, canceledContract(bundle) !== null, account);
  const unpaidMinor = stillToPayMinor(contract, account) - refundedMinor;
  const currency = contract?.currency ?? account.invoices[0]?.invoice.currency;
  if (currency === undefined || unpaidMinor <= 0) return [];
  const unpaid = formatMoney(unpaidMinor, currency, locale);
  const { line, region } = bundle.property.address;
  const customer = customerWords(bundle.customer.name);
  const propertyWords = line.trim() === '' ? `the property of ${customer}` : `${line.trim()} (${customer})`;
  return lienDeadlines(bundle, business.lienRules)
    .filter(({ isDone }) => !isDone)
    .map(({ kind, onDay }) =>
      make.allDay(
        {
          kind,
          name: kind,
          roomIds: [],
          event: kind === 'lien-notice' ? 'lien notice due' : 'lien deadline',
          verb: kind === 'lien-notice' ? 'Send' : 'File',
          rest: `${kind === 'lien-notice' ? 'the lien notice for' : 'the lien on'} ${propertyWords} by the day you entered for ${region.trim()}. ${unpaid} is not paid.`,
          note: 'Check the deadline with your state or a lawyer.',
          toDo: true,
          stage: 'money',
        },
        onDay,
      ),
    );
}

/** The next invoice of the contract, on the day its payment is ready: thirty days after the handover may be ahead. */
export function invoiceEntries(make: EntryMaker): readonly AgendaEntry[] {
  const { quotes, ledger, customer } = make.bundle;
  const contract = contractOfJob(quotes);
  if (contract === null) return [];
  const days = moneyDays(make.bundle);
  const draft = invoicesToIssue(contract, ledger, {
    accepted: days.accepted !== null,
    poured: days.poured !== null,
    handedOver: days.handedOver !== null,
    thirtyDaysPast: days.thirtyDays !== null,
  }).find(({ isReady }) => isReady);
  const since = draft === undefined ? null : days[DUE_DAY[draft.due]];
  if (draft === undefined || since === null) return [];
  // What is paid already presses nobody.
  const isPaid = accountOf(ledger, '1970-01-01').onAccountMinor >= draft.totalMinor;
  return [
    make[isPaid ? 'undated' : 'allDay'](
      {
        kind: 'invoice-ready',
        name: draft.key,
        roomIds: [],
        event: 'send invoice',
        verb: 'Invoice',
        rest: `${customerWords(customer.name)} ${formatMoney(draft.totalMinor, contract.currency, make.locale)}: ${draft.stageName ?? 'change orders'}.${isPaid ? ' It is paid already.' : ''}`,
        toDo: true,
        stage: 'money',
      },
      since,
    ),
  ];
}

const DUE_DAY: Readonly<Record<InvoiceDraft['due'], keyof MoneyDays>> = {
  'on-acceptance': 'accepted',
  'before-pour': 'accepted',
  'after-pour': 'poured',
  'on-handover': 'handedOver',
  'thirty-days': 'thirtyDays',
  'on-signature': 'signed',
};

/** When an invoice was paid: the last payment that went to it. Null while a part is due, and for one that was voided or credited. */
export function settledOn(ledger: EntryMaker['bundle']['ledger'], invoiceId: string): string | null {
  const balance = accountOf(ledger, '1970-01-01').invoices.find((b) => b.invoice.id === invoiceId);
  return balance === undefined || balance.dueMinor > 0 ? null : balance.paidAt;
}
