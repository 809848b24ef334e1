/** Invoices to issue and payments to collect. */
import { accountOf } from '../ledger/account.ts';
import { contractOfJob, isContractPaid } from '../ledger/job-contract.ts';
import { lienDeadlines } from '../ledger/lien-deadlines.ts';
import { invoicesToIssue } from '../ledger/next-invoice.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { formatMoney } from '../price/money.ts';
import { type MoneyDays, moneyDays, releasedOn } from '../standing/job-money.ts';
import { customerWords } from '../standing/names.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';

/** Open invoices, each on its due day. They are due whether or not the job is finished. */
export function paymentEntries(make: EntryMaker): readonly AgendaEntry[] {
  const { ledger, customer } = make.bundle;
  // The amount due does not depend on today's date.
  const { invoices } = accountOf(ledger, '1970-01-01', releasedOn(make.bundle, make.zone));
  return invoices
    .filter((balance) => balance.dueMinor > 0)
    .map(({ invoice, dueMinor, dueOn }) =>
      make.allDay(
        {
          kind: 'payment-due',
          name: invoice.id,
          roomIds: [],
          event: 'payment due',
          verb: 'Collect',
          rest: `${formatMoney(dueMinor, invoice.currency, make.locale)} from ${customerWords(customer.name)}, invoice ${invoice.number}.`,
          toDo: true,
          stage: 'money',
        },
        dueOn,
      ),
    );
}

/** Lien deadlines entered by the owner, while the contract is not paid in full. */
export function lienEntries(make: EntryMaker): readonly AgendaEntry[] {
  const { bundle, business, locale } = make;
  const contract = contractOfJob(bundle.quotes);
  const account = accountOf(bundle.ledger, '1970-01-01');
  if (contract === null || isContractPaid(contract, account)) return [];
  const unpaid = formatMoney(contract.totalMinor - (account.invoicedMinor - account.openMinor), contract.currency, locale);
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
          rest: `${kind === 'lien-notice' ? 'the lien notice' : 'the lien'} for ${customerWords(bundle.customer.name)} by the day you entered for ${bundle.property.address.region.trim()}. ${unpaid} is not paid.`,
          note: 'Check the deadline with your state or a lawyer.',
          toDo: true,
          stage: 'money',
        },
        onDay,
      ),
    );
}

/** The next invoice of the contract, on the day its payment became ready. */
export function invoiceEntries(make: EntryMaker): readonly AgendaEntry[] {
  const { quotes, ledger, customer } = make.bundle;
  const contract = contractOfJob(quotes);
  if (contract === null) return [];
  const days = moneyDays(make.bundle);
  const draft = invoicesToIssue(contract, ledger, {
    accepted: days.accepted !== null,
    poured: days.poured !== null,
    handedOver: days.handedOver !== null,
    thirtyDaysPast: false,
  }).find(({ isReady }) => isReady);
  const since = draft === undefined ? null : readyAt(draft.due, days);
  if (draft === undefined || since === null) return [];
  return [
    make.allDay(
      {
        kind: 'invoice-ready',
        name: draft.key,
        roomIds: [],
        event: 'send invoice',
        verb: 'Invoice',
        rest: `${customerWords(customer.name)} ${formatMoney(draft.totalMinor, contract.currency, make.locale)}: ${(draft.stageName ?? 'change orders').toLowerCase()}.`,
        toDo: true,
        stage: 'money',
      },
      dayOfInstant(since, make.zone),
    ),
  ];
}

function readyAt(due: 'on-acceptance' | 'before-pour' | 'after-pour' | 'on-handover' | 'thirty-days', days: MoneyDays): string | null {
  if (due === 'after-pour') return days.poured;
  if (due === 'on-handover' || due === 'thirty-days') return days.handedOver;
  return days.accepted;
}

/** The invoice of an entry and when it was paid; null while it is open. */
export function settledOn(ledger: EntryMaker['bundle']['ledger'], invoiceId: string): string | null {
  const balance = accountOf(ledger, '1970-01-01').invoices.find((b) => b.invoice.id === invoiceId);
  if (balance === undefined || balance.openMinor > 0) return null;
  // A payment against another invoice says nothing of this one.
  const payments = ledger
    .filter((e) => e.kind === 'payment' && e.voidedAt === null && (e.invoiceId ?? invoiceId) === invoiceId)
    .map((e) => e.createdAt);
  return [...payments].sort().at(-1) ?? null;
}
