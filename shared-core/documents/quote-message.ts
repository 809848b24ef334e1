/** The email and the text message that go with a quote. */
import type { Business } from '../book/business.ts';
import type { Customer } from '../book/customer.ts';
import type { Quote } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { formatMoney } from '../price/money.ts';
import { standingOption } from '../price/quoted-price.ts';
import { callWords, issuerName, letterText } from './letterhead.ts';

/** Subject and body of the email; `text` is the short message to copy. */
export type QuoteMessage = { readonly subject: string; readonly body: string; readonly text: string };

/** Builds both messages, with the total of each option until one is accepted. The PDF is attached by hand: a mail link cannot carry a file. */
export function quoteMessage(offer: {
  readonly business: Pick<Business, 'name' | 'ownerName' | 'phone'>;
  readonly customer: Pick<Customer, 'name'>;
  readonly number: string;
  readonly quote: Pick<Quote, 'revision' | 'priced' | 'acceptedOptionId' | 'currency' | 'validUntil'>;
  readonly locale: string;
}): QuoteMessage {
  const { business, customer, number, quote, locale } = offer;
  const money = (minor: number): string => formatMoney(minor, quote.currency, locale);
  const { options } = quote.priced;
  const choices =
    quote.acceptedOptionId === null && options.length > 1
      ? options.map(({ name, totalMinor }) => `${name}: ${money(totalMinor)}.`).join(' ')
      : null;
  const total = money(standingOption(quote).totalMinor);
  const until = formatDay(quote.validUntil, 'full', locale);
  const [offered, accept] =
    choices === null
      ? [`The total is ${total}.`, 'To accept, sign it and send it back, or call us.']
      : [`It has ${options.length} options. ${choices}`, 'To accept, choose an option, sign the quote and send it back, or call us.'];
  return {
    subject: `Quote ${number}, revision ${quote.revision}`,
    body: letterText(business, customer, [`Our quote ${number} is attached. ${offered} It is valid until ${until}.`, accept]),
    text: `${issuerName(business)}: we sent you quote ${number}. ${choices === null ? `Total ${total}, valid` : `${choices} Valid`} until ${until}.${callWords(business)}`,
  };
}
