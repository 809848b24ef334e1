/** The message about an invoice: sent when it is issued, or a reminder once it is due. It is never sent automatically. */
import type { Business } from '../book/business.ts';
import type { Customer } from '../book/customer.ts';
import type { InvoiceBalance } from '../ledger/account.ts';
import { formatDay } from '../measure/day.ts';
import { formatMoney } from '../price/money.ts';
import { callWords, issuerName, letterText } from './letterhead.ts';
import { daysWords } from './money-papers.ts';
import type { QuoteMessage } from './quote-message.ts';

type Of = {
  readonly business: Pick<Business, 'name' | 'ownerName' | 'phone' | 'contract' | 'locale'>;
  readonly customer: Pick<Customer, 'name'>;
};

/** Builds both messages. The PDF is attached by hand: a mail link cannot carry a file. */
export function paymentMessage(
  { business, customer }: Of,
  { invoice, dueOn, dueMinor, overdueMinor, daysOverdue, settledMinor }: InvoiceBalance,
): QuoteMessage {
  const day = formatDay(dueOn, 'full', business.locale);
  const { paymentMethods } = business.contract;
  const isLate = daysOverdue > 0;
  const money = formatMoney(isLate ? overdueMinor : dueMinor, invoice.currency, business.locale);
  const first = isLate
    ? `Invoice ${invoice.number} was due on ${day}, ${daysWords(daysOverdue)} ago. ${money} is still open. If you have paid in the meantime, thank you: please let us know.`
    : settledMinor > 0
      ? `Invoice ${invoice.number} is attached. ${money} is still open and is due on ${day}.`
      : `Invoice ${invoice.number} is attached. The amount is ${money}. It is due on ${day}.`;
  const methodWords = paymentMethods === '' ? [] : [`How to pay: ${paymentMethods}`];
  return {
    subject: isLate ? `Invoice ${invoice.number} is overdue` : `Invoice ${invoice.number}`,
    body: letterText(business, customer, [first, ...methodWords]),
    text: `${issuerName(business)}: invoice ${invoice.number}, ${money} ${isLate ? `was due on ${day}` : `is due on ${day}`}.${callWords(business)}`,
  };
}
