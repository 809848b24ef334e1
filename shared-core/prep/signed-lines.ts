/**
 * The checklist with its signatures. Lines are derived from the records as they are now; signatures are always kept, even when a
 * line is no longer needed.
 */
import type { SignedItem } from '../book/job.ts';
import type { PrepItem } from './prep-item.ts';

/** State of a line. `changed`: signed with other text or another amount. `not-needed`: signed and no longer needed. */
export type LineState = 'open' | 'signed' | 'changed' | 'not-needed';

/** A line of the checklist with all its signatures, oldest first. */
export type SignedLine = {
  readonly key: string;
  /** Null when the line is no longer needed. */
  readonly item: PrepItem | null;
  readonly state: LineState;
  /** The signature in force; null when there is none, or it was voided. */
  readonly signature: SignedItem | null;
  readonly signatures: readonly SignedItem[];
};

const byTime = (a: SignedItem, b: SignedItem): number =>
  Date.parse(a.doneAt) - Date.parse(b.doneAt) || (a.initials < b.initials ? -1 : a.initials > b.initials ? 1 : 0);

/** What a signature counts for, and the pour after which lines are done again that each lift needs. */
export type SigningContext = {
  /** Whether a text as signed is that of the line as it is now. */
  readonly isAsSigned: (item: PrepItem, signedText: string) => boolean;
  /** ISO UTC; null before the first lift, or when no lift follows. */
  readonly againAfter: string | null;
};

/** Assigns the signatures to the lines. Every signature belongs to exactly one line; lines no longer needed come last, by key. */
export function signedLines(
  items: readonly PrepItem[],
  signed: readonly SignedItem[],
  { isAsSigned, againAfter }: SigningContext,
): readonly SignedLine[] {
  const itemsByLine = new Map<string, SignedItem[]>();
  for (const signature of signed) itemsByLine.set(signature.itemKey, [...(itemsByLine.get(signature.itemKey) ?? []), signature]);
  const inForce = (signatures: readonly SignedItem[]): SignedItem | null =>
    signatures.filter((signature) => signature.withdrawnAt === null).at(-1) ?? null;
  const asked = items.map((item): SignedLine => {
    const signatures = (itemsByLine.get(item.key) ?? []).toSorted(byTime);
    const since = item.afterLift === 'again' ? againAfter : null;
    const signature = inForce(signatures.filter(({ doneAt }) => since === null || Date.parse(doneAt) > Date.parse(since)));
    const state = signature === null ? 'open' : isAsSigned(item, signature.signedText) ? 'signed' : 'changed';
    return { key: item.key, item, state, signature, signatures };
  });
  const known = new Set(items.map((item) => item.key));
  const dropped = [...itemsByLine.keys()]
    .filter((key) => !known.has(key))
    .toSorted()
    .map((key): SignedLine => {
      const signatures = (itemsByLine.get(key) ?? []).toSorted(byTime);
      return { key, item: null, state: 'not-needed', signature: inForce(signatures), signatures };
    });
  return [...asked, ...dropped];
}
