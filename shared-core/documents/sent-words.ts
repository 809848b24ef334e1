/** How a document was given out, in words. */
import type { Sent } from '../book/papers.ts';

export const SENT_WORDS: Readonly<Record<Sent['by'], string>> = {
  email: 'by email',
  text: 'by text message',
  print: 'on paper',
  'in-person': 'in person',
};

/** ` to Ann Rowe`, after other words; empty without a name. */
export const toWords = (name: string): string => (name === '' ? '' : ` to ${name}`);

/** `by email to Ann Rowe`. */
export const sentWords = ({ by, to }: Pick<Sent, 'by' | 'to'>): string => `${SENT_WORDS[by]}${toWords(to)}`;
