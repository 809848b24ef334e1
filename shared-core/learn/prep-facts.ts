/** Hours of each prep task, from the times its lines were signed. */
import type { SignedItem } from '../book/job.ts';

export type TaskHours = { readonly task: string; readonly hours: number };

/** Signatures farther apart than this had a break or a night between them and are left out. Common practice, no source. */
const MOST_HOURS_BETWEEN = 5;

/** The kind of work of a line: its key up to the first colon. */
export function taskOf(itemKey: string): string {
  return itemKey.split(':')[0] ?? itemKey;
}

/** Hours of each task, as {@link signedSpans} reads them. */
export function prepFacts(signed: readonly SignedItem[]): readonly TaskHours[] {
  return signedSpans(signed).map(({ item, hours }) => ({ task: taskOf(item.itemKey), hours }));
}

/**
 * Hours of each signed line since the line signed before it on the same visit. The first of a visit is left out, because its start
 * is unknown. Lines signed within one minute were checked off afterwards, and are left out too.
 */
export function signedSpans(signed: readonly SignedItem[]): readonly { readonly item: SignedItem; readonly hours: number }[] {
  const inOrder = signed.filter((s) => s.withdrawnAt === null).sort((a, b) => Date.parse(a.doneAt) - Date.parse(b.doneAt));
  return inOrder.flatMap((item, i) => {
    const before = inOrder[i - 1];
    if (before === undefined) return [];
    const hours = (Date.parse(item.doneAt) - Date.parse(before.doneAt)) / 3_600_000;
    return hours < 1 / 60 || hours > MOST_HOURS_BETWEEN ? [] : [{ item, hours }];
  });
}
