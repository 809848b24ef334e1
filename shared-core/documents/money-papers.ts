/** The customer's money documents: invoice, receipt, statement of account, overdue notice. */
import type { Business } from '../book/business.ts';
import type { Invoice, LedgerEntry, Payment, PaymentMethod } from '../book/ledger.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { qrCode } from '../drawing/qr-code.ts';
import { type Account, accountOf, counts, type InvoiceBalance } from '../ledger/account.ts';
import { formatDay } from '../measure/day.ts';
import { capital } from '../measure/first-letter.ts';
import { joined } from '../measure/list.ts';
import { formatMoney } from '../price/money.ts';
import { taxWords } from '../price/tax.ts';
import { drawingBlock, headingBlock, namedBlock, tableBlocks, textBlock, textCell } from './blocks.ts';
import { type Paper, onLetterhead } from './letterhead.ts';
import type { Block, DocumentTree } from './tree.ts';

/** Who a money document is between, and when it is made. */
export type MoneyPaperOf = Pick<WholeJob, 'business' | 'customer' | 'property' | 'job'> & {
  /** Instant it is made at. */
  readonly now: string;
  /** The same day, `YYYY-MM-DD`, in the business's time zone. */
  readonly today: string;
};

/** A payment method as it reads in a sentence. */
export const METHOD_WORDS: Readonly<Record<PaymentMethod, string>> = {
  check: 'Check',
  cash: 'Cash',
  transfer: 'Bank transfer',
  card: 'Card',
  other: 'Other',
};

const RETAINAGE_WORDS = 'Retainage, due when the work is accepted';

/** What a contract comes to, and what is invoiced of it, whole minor units. */
type InvoicedOf = {
  readonly totalMinor: number;
  readonly invoicedMinor: number;
  readonly orderCreditsMinor?: number;
  readonly isChanged?: boolean;
};

/** What is invoiced of a contract to date, in one paragraph. */
function toDateBlock(contract: InvoicedOf, money: (minor: number) => string): Block {
  const { totalMinor, invoicedMinor, orderCreditsMinor = 0 } = contract;
  const credited = orderCreditsMinor === 0 ? '' : ` Credited for change orders: ${money(orderCreditsMinor)}.`;
  const leftMinor = Math.max(0, totalMinor - invoicedMinor + orderCreditsMinor);
  const text = `Contract total${contract.isChanged === true ? ' with signed change orders' : ''}: ${money(totalMinor)}. Invoiced to date, this invoice included: ${money(invoicedMinor)}.${credited} Still to be invoiced: ${money(leftMinor)}.`;
  return { kind: 'paragraph', small: true, runs: textCell(text) };
}

/**
 * An invoice, as issued. What was paid against it since shows on the receipt and the statement, so an issued invoice never changes.
 * @param contract null where the contract was canceled: then nothing more will be invoiced of it
 * @param appliedMinor what the customer's credit balance paid of it when it was issued, whole minor units
 */
export function invoicePaper(source: MoneyPaperOf, invoice: Invoice, contract: InvoicedOf | null, appliedMinor = 0): DocumentTree {
  const { business } = source;
  const money = moneyOf(business, invoice.currency);
  const dueMinor = invoice.totalMinor - invoice.retainageMinor - appliedMinor;
  const isVoid = invoice.voidedAt !== null;
  const asks = !isVoid && dueMinor > 0;
  const toDate = contract === null ? [] : [toDateBlock(contract, money)];
  const tree = paper(source, {
    title: `Invoice ${invoice.number}${isVoid ? ' void' : ''}`,
    subject: `Invoice for work at ${source.property.address.line}`,
    right: [`Invoice ${invoice.number}`, day(source, invoice.onDay), `Job ${source.job.number}, page {page} of {pages}`],
    blocks: [
      headingBlock(1, `Invoice ${invoice.number}`),
      parties(source, [
        ['Invoice date', day(source, invoice.onDay)],
        ...(asks ? [['Due date', day(source, invoice.dueOn)] as const] : []),
        ['Job', source.job.number],
      ]),
      ...amounts('Amounts', [
        { text: lineText(invoice), amount: money(invoice.netMinor) },
        { text: 'Subtotal', amount: money(invoice.netMinor), rule: true },
        ...invoice.taxes
          .filter((tax) => tax.taxMinor !== 0)
          .map((tax) => ({
            text: taxWords(tax, money, business.locale),
            amount: money(tax.taxMinor),
          })),
        { text: 'Total', amount: money(invoice.totalMinor), strong: true, rule: true },
        ...(isVoid || invoice.retainageMinor === 0 ? [] : [{ text: RETAINAGE_WORDS, amount: money(-invoice.retainageMinor) }]),
        ...(isVoid || appliedMinor === 0 ? [] : [{ text: 'Your credit balance, applied to this invoice', amount: money(-appliedMinor) }]),
        ...(isVoid ? [] : [{ text: asks ? `Due by ${day(source, invoice.dueOn)}` : 'Due now', amount: money(dueMinor), strong: true }]),
      ]),
      ...(isVoid ? [textBlock('This invoice is void. Do not pay it.', { bold: true })] : [...(asks ? howToPay(business) : []), ...toDate]),
      ...(invoice.note === '' ? [] : [textBlock(invoice.note)]),
    ],
  });
  return isVoid ? { ...tree, watermark: 'Void' } : tree;
}

/**
 * A receipt for one payment, with what is left to pay.
 * @param account as it stood on the day of the payment
 * @param serial which receipt of the job it is, from 1
 */
export function receiptPaper(source: MoneyPaperOf, payment: Payment, account: Account, serial: number): DocumentTree {
  const money = moneyOf(source.business, source.business.currency);
  const against = account.invoices.find((b) => b.invoice.id === payment.invoiceId)?.invoice.number;
  return paper(source, {
    title: `Receipt ${source.job.number}-${serial}`,
    subject: `Receipt for a payment of ${money(payment.amountMinor)}`,
    right: [`Receipt ${source.job.number}-${serial}`, day(source, payment.onDay), `Job ${source.job.number}`],
    blocks: [
      headingBlock(1, 'Receipt'),
      parties(
        source,
        [
          ['Received on', day(source, payment.onDay)],
          ['Paid by', joined([METHOD_WORDS[payment.method], payment.reference], ' ')],
          ['For', against === undefined ? `Job ${source.job.number}` : `Invoice ${against}`],
        ],
        'Received from',
      ),
      ...amounts('Payment', [
        { text: 'Received, with thanks', amount: money(payment.amountMinor), strong: true },
        { text: 'Received to date', amount: money(account.receivedMinor - account.refundedMinor) },
        ...retainageRows(account, money),
        { text: 'Balance due on invoices', amount: money(account.dueMinor - account.overRefundedMinor), rule: true },
        ...(account.onAccountMinor === 0 ? [] : [{ text: 'Credit balance', amount: money(account.onAccountMinor) }]),
      ]),
    ],
  });
}

/** Every invoice, payment, refund and credit in order, each with the balance after it. What was written off and paid after all is added again. */
export function statementPaper(source: MoneyPaperOf, entries: readonly LedgerEntry[], account: Account): DocumentTree {
  const money = moneyOf(source.business, source.business.currency);
  let balance = 0;
  let offMinor = 0;
  const shown = entries
    .filter((e) => counts(e) && e.onDay <= source.today)
    .sort((a, b) => a.onDay.localeCompare(b.onDay) || a.createdAt.localeCompare(b.createdAt));
  const rows = shown.flatMap((e, i) => {
    const line = statementLine(e, source.business.locale);
    if (line === null) return [];
    const beforeMinor = offMinor;
    offMinor = accountOf(shown.slice(0, i + 1), source.today).writtenOffMinor;
    const adjusted = { text: offMinor < beforeMinor ? 'Adjustment taken back: it was paid' : 'Adjustment', minor: beforeMinor - offMinor };
    const lines = e.kind === 'write-off' ? [{ ...adjusted, text: line.text }] : [line, adjusted];
    return lines.flatMap((one) => {
      if (one.minor === 0) return [];
      balance += one.minor;
      return [{ ...one, onDay: e.onDay, balance }];
    });
  });
  return paper(source, {
    title: `Statement ${source.job.number} ${source.today}`,
    subject: `Statement of account for job ${source.job.number}`,
    right: ['Statement of account', day(source, source.today), `Job ${source.job.number}, page {page} of {pages}`],
    blocks: [
      headingBlock(1, 'Statement of account'),
      parties(source, [
        ['Statement through', day(source, source.today)],
        ['Job', source.job.number],
      ]),
      ...tableBlocks('Account', rows, [
        ['Date', 0.2, ({ onDay }) => day(source, onDay)],
        ['Description', null, ({ text }) => text],
        ['Amount', 0.18, ({ minor }) => money(minor), 'end'],
        ['Balance', 0.18, (row) => money(row.balance), 'end'],
      ]),
      ...amounts('Balance', [
        ...retainageRows(account, money),
        {
          text: account.onAccountMinor > 0 ? 'Credit balance' : 'Balance due',
          amount: money(account.onAccountMinor > 0 ? account.onAccountMinor : account.dueMinor),
          strong: true,
        },
      ]),
      ...(account.dueMinor > 0 ? howToPay(source.business) : []),
    ],
  });
}

/**
 * A notice for one overdue invoice.
 * @param lateChargeMinor what the contract allows to charge and is not billed: said, and not asked for until it is billed
 */
export function overduePaper(
  source: MoneyPaperOf,
  { invoice, dues, dueOn, overdueMinor, daysOverdue }: InvoiceBalance,
  lateChargeMinor: number,
): DocumentTree {
  const money = moneyOf(source.business, invoice.currency);
  const late = dues.filter((due) => due.dueOn < source.today);
  const [first, retainage] = late;
  const alsoWords =
    retainage === undefined ? '' : ` Its retainage of ${money(retainage.minor)} was due on ${day(source, retainage.dueOn)}.`;
  return paper(source, {
    title: `Overdue notice ${invoice.number} ${source.today}`,
    subject: `Invoice ${invoice.number} is overdue`,
    right: ['Overdue notice', day(source, source.today), `Job ${source.job.number}`],
    blocks: [
      headingBlock(1, `Invoice ${invoice.number} is overdue`),
      parties(source, [
        ['Due date', day(source, dueOn)],
        ['Overdue', daysWords(daysOverdue)],
        ['Job', source.job.number],
      ]),
      textBlock(
        `Invoice ${invoice.number} of ${day(source, invoice.onDay)} was due on ${day(source, dueOn)}. We have not received ${money(first?.minor ?? 0)} of it.${alsoWords} If you have paid in the meantime, thank you: please let us know.`,
      ),
      ...amounts('Amount overdue', [
        ...late.map(({ minor, isRetainage }) => ({
          text: `${isRetainage ? 'Retainage' : 'Open'} on invoice ${invoice.number}`,
          amount: money(minor),
        })),
        { text: 'Total due now', amount: money(overdueMinor), strong: true, rule: true },
      ]),
      ...(lateChargeMinor === 0
        ? []
        : [
            textBlock(
              `The contract has a late charge, ${money(lateChargeMinor)} through ${day(source, source.today)}. It is not billed and not in this total.`,
            ),
          ]),
      ...howToPay(source.business),
    ],
  });
}

/** `1 day`, `14 days`. */
export function daysWords(days: number): string {
  return `${days} ${days === 1 ? 'day' : 'days'}`;
}

/** An entry as a line of an account, and what it adds to the balance; null where it is not between the two parties. */
export function statementLine(e: LedgerEntry, locale: string): { text: string; minor: number } | null {
  switch (e.kind) {
    case 'invoice':
      return { text: `Invoice ${e.number}, due ${formatDay(e.dueOn, 'short', locale)}`, minor: e.totalMinor };
    case 'payment':
      return { text: `Payment received: ${joined([METHOD_WORDS[e.method].toLowerCase(), e.reference], ' ')}`, minor: -e.amountMinor };
    case 'refund':
      return { text: `Refund: ${joined([METHOD_WORDS[e.method].toLowerCase(), e.reference], ' ')}`, minor: e.amountMinor };
    case 'credit':
      return { text: `Credit: ${e.reason}`, minor: -e.amountMinor };
    case 'write-off':
      return { text: `Adjustment: ${e.reason}`, minor: -e.amountMinor };
    default:
      return null;
  }
}

const PURPOSE: Readonly<Record<Invoice['purpose'], string>> = {
  deposit: 'Deposit',
  stage: 'Progress payment',
  final: 'Final payment',
  'change-order': 'Change orders',
  other: 'Work performed',
};

const lineText = ({ stageName, purpose, title, lateFor }: Invoice): string =>
  lateFor === undefined ? `${stageName ?? PURPOSE[purpose]}: ${title}` : title;

function parties(source: MoneyPaperOf, facts: readonly (readonly [string, string])[], toWords = 'Bill to'): Block {
  const to = source.customer.address ?? source.property.address;
  const toLines = [source.customer.name, to.line, joined([to.city, joined([to.region, to.zip], ' ')])].filter((line) => line !== '');
  const site = joined([source.property.address.line, source.property.address.city]);
  return {
    kind: 'columns',
    shares: [0.5, 0.5],
    columns: [
      [textBlock(toWords, { bold: true }), ...toLines.map((line) => textBlock(line))],
      [...facts, ['Work at', site] as const].map(([label, value]) => namedBlock(`${label}: `, value)),
    ],
  };
}

type AmountRow = { readonly text: string; readonly amount: string; readonly strong?: boolean; readonly rule?: boolean };

/** The retainage that is held, which is no balance due. */
const retainageRows = ({ retainedMinor }: Account, money: (minor: number) => string): AmountRow[] =>
  retainedMinor === 0 ? [] : [{ text: RETAINAGE_WORDS, amount: money(retainedMinor) }];

const amounts = (caption: string, rows: readonly AmountRow[]): Block[] =>
  tableBlocks(
    caption,
    rows,
    [
      ['Description', null, ({ text }) => text],
      ['Amount', 0.25, ({ amount }) => amount, 'end'],
    ],
    ({ strong, rule }) => ({ strong, rule }),
  );

/** Side of a payment code in print, sheet units: an inch and a quarter. */
const CODE_PX = 120;

/** How to pay; beside it the QR code of the text the company entered, where it entered one. */
function howToPay(business: Business): Block[] {
  const { paymentCode } = business.contract;
  const words = paymentWords(business);
  if (paymentCode.trim() === '') return words;
  const code = drawingBlock(qrCode(paymentCode.trim(), CODE_PX), `QR code: ${paymentCode.trim()}`);
  return [{ kind: 'columns', shares: [0.78, 0.22], columns: [[...words, namedBlock('Scan to pay: ', paymentCode.trim())], [code]] }];
}

function paymentWords({ phone, email, contract: { paymentMethods } }: Business): Block[] {
  const reach = joined([phone === '' ? '' : `call ${phone}`, email === '' ? '' : `email ${email}`], ' or ');
  return [
    ...(paymentMethods === '' ? [] : [namedBlock('How to pay: ', paymentMethods)]),
    ...(reach === '' ? [] : [textBlock(`Questions? ${capital(reach)}.`)]),
  ];
}

const paper = (source: MoneyPaperOf, own: Omit<Paper, 'madeAt'>): DocumentTree =>
  onLetterhead(source.business, { ...own, madeAt: source.now });

const day = (source: MoneyPaperOf, value: string): string => formatDay(value, 'dated', source.business.locale);

const moneyOf =
  (business: Business, currency: string) =>
  (minor: number): string =>
    formatMoney(minor, currency, business.locale);
