/** The head and foot of every document of the business. */
import { printedCredentials } from '../book/contract-terms.ts';
import type { Address, Business } from '../book/business.ts';
import type { Customer } from '../book/customer.ts';
import type { Property } from '../book/property.ts';
import { joined } from '../measure/list.ts';
import { formatInstantDay } from '../measure/moment.ts';
import type { DocumentInput } from './document-input.ts';
import type { DocumentTree } from './tree.ts';

/** Business fields that a document needs; a quote uses those it was issued with. */
export type Issuer = Pick<Business, 'name' | 'ownerName' | 'address' | 'phone' | 'email' | 'mark' | 'paper' | 'locale' | 'contract'>;

/** The name on a document: the business's, or its owner's where it has none. */
export function issuerName(business: Pick<Business, 'name' | 'ownerName'>): string {
  return business.name === '' ? business.ownerName : business.name;
}

/** The first fact of a letterhead that the company has not entered; null when it has all. */
export function missingForLetterhead({
  name,
  ownerName,
  address,
  phone,
  email,
}: Pick<Business, 'name' | 'ownerName' | 'address' | 'phone' | 'email'>): 'name' | 'owner' | 'address' | 'phone' | null {
  const isEmpty = (text: string): boolean => text.trim() === '';
  if (isEmpty(name)) return 'name';
  if (isEmpty(ownerName)) return 'owner';
  if (isEmpty(address.line)) return 'address';
  return isEmpty(phone) && isEmpty(email) ? 'phone' : null;
}

/** An address on one line: `12 Elm St, Troy, NY 12180`. */
export function addressLine(address: Pick<Address, 'line' | 'city' | 'region' | 'zip'>): string {
  return joined([address.line, address.city, joined([address.region, address.zip], ' ')]);
}

/** The customer of a document, on one line: the customer's name and the property's address, if known. */
export const customerLine = ({ customer, property }: { customer: Pick<Customer, 'name'>; property: Pick<Property, 'address'> }): string =>
  joined([customer.name, addressLine(property.address)]);

/** An address on one line, or a blank to write it in. */
export const addressOrBlank = (address: Parameters<typeof addressLine>[0]): string => addressLine(address) || '_'.repeat(40);

/** The text of an email to a customer: greeting, paragraphs, and who signs. */
export function letterText(
  { ownerName, name, phone }: Pick<Business, 'name' | 'ownerName' | 'phone'>,
  customer: Pick<Customer, 'name'>,
  paragraphs: readonly string[],
): string {
  const from = [...new Set([ownerName, issuerName({ ownerName, name }), phone])];
  return [`Dear ${customer.name},`, ...paragraphs, joined(from, '\n')].join('\n\n');
}

/** How to reach the business, as in `call Ros Teague, 555-0142`: by email where there is no phone, and `call us` where nothing is entered. */
export const reachWords = (name: string, { phone, email }: Pick<Business, 'phone' | 'email'>): string =>
  `${phone === '' && email !== '' ? 'email' : 'call'} ${joined([name, phone, email]) || 'us'}`;

/** The end of a short message, with the number to call. */
export const callWords = ({ phone }: Pick<Business, 'phone'>): string => (phone === '' ? '' : ` Questions? Call ${phone}.`);

/** Address, phone and email under the business's name, with license and registration where it has them. */
export function issuerLines(business: Pick<Business, 'address' | 'phone' | 'email' | 'contract'>): string[] {
  const credentials = printedCredentials(business.contract, 'letterhead').map(({ label, text }) => `${label} ${text}`);
  return [addressLine(business.address), joined([business.phone, business.email]), credentials.join(', ')].filter((line) => line !== '');
}

export type Paper = Pick<DocumentTree, 'title' | 'subject' | 'madeAt' | 'blocks'> & {
  /** The lines at the head's right. */
  readonly right: string[];
  /** The lines under the name, instead of the business's own address. */
  readonly lines?: string[];
};

/** A document under the business's name and mark, on its paper size. */
export function onLetterhead(business: Issuer, { title, subject, madeAt, right, lines, blocks }: Paper): DocumentTree {
  const name = issuerName(business);
  return {
    title,
    subject,
    author: name,
    language: business.locale,
    paper: business.paper,
    madeAt,
    head: { name, lines: lines ?? issuerLines(business), mark: business.mark, right },
    blocks,
    foot: business.contract.footLine ? 'Made with Straightedge' : '',
  };
}

/**
 * A document of a job by revision, dated the day it is made.
 * @param name of the document
 * @param about the subject of the file, before the address
 * @param dated words before its day
 */
export function revisedDocument(
  { reading, now, revision }: Pick<DocumentInput, 'reading' | 'now' | 'revision'>,
  {
    name,
    about,
    dated = '',
    blocks,
  }: { readonly name: string; readonly about: string; readonly dated?: string; readonly blocks: DocumentTree['blocks'] },
): DocumentTree {
  const { business, property, job, customer } = reading.whole;
  return onLetterhead(business, {
    title: `${name} ${job.number} revision ${revision}, ${customer.name}`,
    subject: `${about} ${property.address.line}`,
    madeAt: now,
    right: [
      `${dated}${formatInstantDay(now, property.timeZone, 'full', business.locale)}`,
      `Job ${job.number}, revision ${revision}, page {page} of {pages}`,
    ],
    blocks,
  });
}
