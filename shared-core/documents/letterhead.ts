/** What every paper of the business begins and ends with. */
import type { Business } from '../book/business.ts';
import type { DocumentTree } from './tree.ts';

/** The business as a paper names it; a quote brings the one it was frozen with. */
export type Issuer = Pick<Business, 'name' | 'ownerName' | 'address' | 'phone' | 'email' | 'mark' | 'paper' | 'locale'>;

/** The name a paper goes out under: the business's, or its owner's while it has none. */
export function issuerName(business: Pick<Business, 'name' | 'ownerName'>): string {
  return business.name === '' ? business.ownerName : business.name;
}

/** Address and telephone under the business's name, a line each. */
export function issuerLines(business: Pick<Business, 'address' | 'phone' | 'email'>): string[] {
  const address = [business.address.line, business.address.city].filter((part) => part !== '').join(', ');
  const reach = [business.phone, business.email].filter((part) => part !== '').join(', ');
  return [address, reach].filter((line) => line !== '');
}

export type Paper = Pick<DocumentTree, 'title' | 'subject' | 'madeAt' | 'blocks'> & {
  /** The lines at the head's right. */
  readonly right: string[];
  /** The lines under the name; the business's own address unless told otherwise. */
  readonly lines?: string[];
};

/** A paper under the business's head and mark, on its size of sheet. */
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
    foot: 'Set with Straightedge',
  };
}
