/** The head and foot of every document of the business. */
import { printedCredentials } from '../book/contract-terms.ts';
import type { Address, Business } from '../book/business.ts';
import type { Customer } from '../book/customer.ts';
import type { Property } from '../book/property.ts';
import type { DocumentTree } from './tree.ts';

/** Business fields that a document needs; a quote uses those it was issued with. */
export type Issuer = Pick<Business, 'name' | 'ownerName' | 'address' | 'phone' | 'email' | 'mark' | 'paper' | 'locale' | 'contract'>;

/** The name on a document: the business's, or its owner's where it has none. */
export function issuerName(business: Pick<Business, 'name' | 'ownerName'>): string {
  return business.name === '' ? business.ownerName : business.name;
}

/** An address on one line: `12 Elm St, Troy, NY 12180`. */
export function addressLine(address: Pick<Address, 'line' | 'city' | 'region' | 'zip'>): string {
  const region = [address.region, address.zip].filter((part) => part !== '').join(' ');
  return [address.line, address.city, region].filter((part) => part !== '').join(', ');
}

/** Whom a document is for, on one line: the customer's name and the property's address, if known. */
export function customerLine({
  customer,
  property,
}: {
  readonly customer: Pick<Customer, 'name'>;
  readonly property: Pick<Property, 'address'>;
}): string {
  return [customer.name, addressLine(property.address)].filter((part) => part !== '').join(', ');
}

/** An address on one line, or a blank to write it in. */
export const addressOrBlank = (address: Parameters<typeof addressLine>[0]): string => addressLine(address) || '_'.repeat(40);

/** Address, phone and email under the business's name, with license and registration where it has them. */
export function issuerLines(business: Pick<Business, 'address' | 'phone' | 'email' | 'contract'>): string[] {
  const reach = [business.phone, business.email].filter((part) => part !== '').join(', ');
  const credentials = printedCredentials(business.contract, 'letterhead').map(({ label, text }) => `${label} ${text}`);
  return [addressLine(business.address), reach, credentials.join(', ')].filter((line) => line !== '');
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
