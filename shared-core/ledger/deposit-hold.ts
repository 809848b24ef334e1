/** Payments required before the pour, by the contract or by the company's setting. */
import type { Business } from '../book/business.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import type { Quote } from '../book/quote.ts';
import { formatMoney } from '../price/money.ts';
import type { PaymentStage } from '../price/stages.ts';
import { type Account, accountOf, isLateCharge } from './account.ts';
import type { Contract } from './contract.ts';
import { contractOfJob } from './job-contract.ts';
import { earlierByStage, invoiceOf, invoicesToIssue, keysOf, NOTHING_REACHED, stagesNow } from './next-invoice.ts';
import { capital } from '../measure/first-letter.ts';

/** The missing amount in whole minor units, what it is part of, and its sentence. */
export type DepositHold = { readonly missingMinor: number; readonly what: string; readonly text: string };

/**
 * The hold on a pour while a payment is missing; null otherwise. A payment due before the pour always causes a hold. A deposit
 * due on acceptance does so where the company's settings say so.
 */
export function depositHold(
  quotes: readonly Quote[],
  entries: readonly LedgerEntry[],
  { contract: terms, locale }: Pick<Business, 'contract' | 'locale'>,
): DepositHold | null {
  const contract = contractOfJob(quotes);
  if (contract === null) return null;
  const now = stagesNow(contract, entries);
  const dueMinor = (event: PaymentStage['due'], stages: readonly PaymentStage[] = now): number =>
    stages.reduce((sum, { due, amountMinor }) => (due === event ? sum + amountMinor : sum), 0);
  const acceptedMinor = dueMinor('on-acceptance');
  const deposit = terms.depositBeforePour ? acceptedMinor : 0;
  const asked = dueMinor('before-pour') + deposit;
  // A change order signed later may raise what was due on acceptance. That part is not the deposit.
  const agreed = contractOfJob(quotes.map((quote) => ({ ...quote, orders: [] })));
  const laterMinor = asked - Math.min(deposit, dueMinor('on-acceptance', agreed?.stages));
  const account = accountOf(entries, '1970-01-01');
  const { invoices, receivedMinor, refundedMinor, creditedMinor, orderCreditsMinor } = account;
  // What paid a deposit that the pour does not wait for pays nothing of the payments it does wait for.
  const depositPaidMinor = invoices.reduce((sum, { invoice, paidMinor }) => (invoice.purpose === 'deposit' ? sum + paidMinor : sum), 0);
  const latePaidMinor = invoices.reduce((sum, { invoice, paidMinor }) => (isLateCharge(invoice) ? sum + paidMinor : sum), 0);
  const elsewhereMinor = Math.min(depositPaidMinor, acceptedMinor - deposit) + latePaidMinor;
  // A credit for change orders is in the contract already, and so in what is asked.
  const forPourMinor = receivedMinor - refundedMinor + creditedMinor - orderCreditsMinor - elsewhereMinor;
  const waits = (due: PaymentStage['due']): boolean => due === 'before-pour' || (terms.depositBeforePour && due === 'on-acceptance');
  const missingMinor = Math.min(asked, asked - forPourMinor, openOf(contract, entries, account, waits));
  if (missingMinor <= 0) return null;
  const what = missingMinor > laterMinor ? 'the deposit' : 'a payment due before the pour';
  const money = formatMoney(missingMinor, contract.currency, locale);
  return { missingMinor, what, text: `${capital(what)} was not received. ${money} is due.` };
}

/**
 * What is open of the payments the pour waits for, invoiced or not, whole minor units: what was written off or credited is not. Money on
 * account pays for those to be invoiced, the next one first.
 */
function openOf(
  contract: Contract,
  entries: readonly LedgerEntry[],
  { invoices, overRefundedMinor, onAccountMinor, recoveredMinor }: Account,
  waits: (due: PaymentStage['due']) => boolean,
): number {
  const { stages } = contract;
  const dues = new Map(keysOf(contract, entries).map((key, i) => [invoiceOf(entries, key)?.id, stages[i]?.due]));
  // What bills change orders alone is due with the last payment.
  const lastDue = stages.at(-1)?.due ?? 'on-handover';
  let aheadMinor = onAccountMinor + recoveredMinor;
  const toIssue = invoicesToIssue(contract, entries, NOTHING_REACHED).map(({ totalMinor, due }) => {
    const paidMinor = Math.min(aheadMinor, totalMinor);
    aheadMinor -= paidMinor;
    return { minor: totalMinor - paidMinor, due: due === 'on-signature' ? lastDue : due };
  });
  const [earlier, own] = [true, false].map((is) => invoices.filter(({ invoice }) => invoice.createdAt < contract.quotedAt === is));
  const issued = (own ?? []).map(({ invoice, openMinor }) => ({ minor: openMinor, due: dues.get(invoice.id) ?? lastDue }));
  return [...issued, ...toIssue, ...earlierOpen(contract, entries, earlier ?? [])].reduce(
    (sum, { minor, due }) => (waits(due) ? sum + minor : sum),
    overRefundedMinor,
  );
}

/** What is open of the payments that invoices under an earlier contract count toward: what was paid is of the first ones. */
function earlierOpen(
  contract: Contract,
  entries: readonly LedgerEntry[],
  invoices: Account['invoices'],
): { readonly minor: number; readonly due: PaymentStage['due'] }[] {
  const byStage = earlierByStage(contract, entries);
  const all = (minors: readonly number[]): number => minors.reduce((sum, minor) => sum + minor, 0);
  let paidMinor = Math.max(0, all(byStage) - all(invoices.map(({ openMinor }) => openMinor)));
  return contract.stages.map(({ due }, i) => {
    const minor = byStage[i] ?? 0;
    const ofStage = Math.min(paidMinor, minor);
    paidMinor -= ofStage;
    return { minor: minor - ofStage, due };
  });
}
