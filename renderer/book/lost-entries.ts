/** What journals hold beyond the book, looked up when the book is opened and after another took its place. */
import { useEffect, useSyncExternalStore } from 'react';
import { allLostEntries, type LostEntries, recoverEntries } from './pour-journal.ts';

export type LostNews =
  /** To be asked about. */
  | { readonly kind: 'offered'; readonly lost: LostEntries }
  /** A pour that runs was completed at once. */
  | { readonly kind: 'recovered'; readonly lost: LostEntries; readonly many: number };

let news: readonly LostNews[] = [];
const listeners = new Set<() => void>();
const show = (next: readonly LostNews[]): void => {
  news = next;
  for (const listen of listeners) listen();
};

/** Looks through the journals. A pour that is open in pour mode looks after its own. */
export async function checkJournals(): Promise<void> {
  const found: LostNews[] = [];
  for (const lost of await allLostEntries()) {
    if (location.hash === `#/pour/${lost.pourId}`) continue;
    const recovered = lost.place === 'running' ? await recoverEntries(lost) : null;
    if (recovered?.ok !== true) found.push({ kind: 'offered', lost });
    else if (recovered.value > 0) found.push({ kind: 'recovered', lost, many: recovered.value });
  }
  show(found);
}

/** Closes one piece of news. */
export function closeLostNews(one: LostNews): void {
  show(news.filter((other) => other !== one));
}

const subscribe = (listen: () => void): (() => void) => {
  listeners.add(listen);
  return () => void listeners.delete(listen);
};

/** The news, looked up again whenever `again` changes. */
export function useLostNews(again: unknown): readonly LostNews[] {
  useEffect(() => {
    void checkJournals();
  }, [again]);
  return useSyncExternalStore(subscribe, () => news);
}
