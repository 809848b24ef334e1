/** The email and the text message that go with a quote. */
import type { Business } from '../book/business.ts';
import type { Customer } from '../book/customer.ts';
import type { Quote } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { formatMoney } from '../price/money.ts';
import { callWords, issuerName, letterText } from './letterhead.ts';

/** Subject and body of the email; `text` is the short message to copy. */
export type QuoteMessage = { readonly subject: string; readonly body: string; readonly text: string };

/** Builds both messages. The PDF is attached by hand: a mail link cannot carry a file. */
export function quoteMessage(offer: {
  readonly business: Pick<Business, 'name' | 'ownerName' | 'phone'>;
  readonly customer: Pick<Customer, 'name'>;
  readonly number: string;
  readonly quote: Pick<Quote, 'revision' | 'totalMinor' | 'currency' | 'validUntil'>;
  readonly locale: string;
}): QuoteMessage {
  const { business, customer, number, quote, locale } = offer;
  const total = formatMoney(quote.totalMinor, quote.currency, locale);
  const until = formatDay(quote.validUntil, 'full', locale);
  return {
    subject: `Quote ${number}, revision ${quote.revision}`,
    body: letterText(business, customer, [
      `Our quote ${number} is attached. The total is ${total}. It is valid until ${until}.`,
      'To accept, sign it and send it back, or call us.',
    ]),
    text: `${issuerName(business)}: we sent you quote ${number}. Total ${total}, valid until ${until}.${callWords(business)}`,
  };
}
