/** Looks for pour log entries that the recovery logs have and the database has not, when a database is opened. */
import { useEffect } from 'react';
import { heldValue } from '../desk/held-value.ts';
import { allLostEntries, type LostEntries, recoverEntries } from './recovery-log.ts';

export type LostNews =
  /** Waits for the user's decision. */
  | { readonly kind: 'offered'; readonly lost: LostEntries }
  /** Recovered at once, because the pour is running. */
  | { readonly kind: 'recovered'; readonly lost: LostEntries; readonly many: number };

const news = heldValue<readonly LostNews[]>([]);

/** Checks all recovery logs but that of the pour open in pour mode, which recovers its own. */
export async function checkJournals(): Promise<void> {
  const found: LostNews[] = [];
  for (const lost of await allLostEntries()) {
    if (location.hash === `#/pour/${lost.pourId}`) continue;
    const recovered = lost.place === 'running' ? await recoverEntries(lost) : null;
    if (recovered?.ok !== true) found.push({ kind: 'offered', lost });
    else if (recovered.value > 0) found.push({ kind: 'recovered', lost, many: recovered.value });
  }
  news.set(found);
}

export function closeLostNews(one: LostNews): void {
  news.set(news.get().filter((other) => other !== one));
}

/** Checked again whenever `again` changes. */
export function useLostNews(again: unknown): readonly LostNews[] {
  useEffect(() => {
    void checkJournals();
  }, [again]);
  return news.use();
}
