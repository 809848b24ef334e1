/** The check of the whole book: one at a time, run once the screens are quiet, shared by whoever shows what it finds. */
import { useEffect, useSyncExternalStore } from 'react';
import type { DataProblem } from '../../shared-core/book/data-check.ts';
import { book } from './database.ts';
import { checkBook } from './integrity.ts';

/** Long enough for the first sheet to stand. */
const FIRST_MS = 2500;
/** The screens go first: as long a rest as a piece takes. */
const BETWEEN_MS = 24;
const HELD_MS = 500;

let found: readonly DataProblem[] | null = null;
let run = 0;
let held = 0;
const listeners = new Set<() => void>();
const show = (odd: readonly DataProblem[] | null): void => {
  found = odd;
  for (const listen of listeners) listen();
};
const subscribe = (listen: () => void): (() => void) => {
  listeners.add(listen);
  return () => void listeners.delete(listen);
};
const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const check = async (firstMs: number): Promise<void> => {
  run += 1;
  const own = run;
  const pause = async (): Promise<boolean> => {
    await wait(BETWEEN_MS);
    while (held > 0 && own === run) await wait(HELD_MS);
    return own === run;
  };
  await wait(firstMs);
  if (own !== run) return;
  try {
    const odd = await checkBook(pause);
    if (odd !== null) show(odd);
  } catch (error) {
    // A book closed under it, by another window's newer version, has nothing to say.
    if (book().isOpen()) throw error;
  }
};

/** Lets the check rest while something else has the whole book to go through. Gives how to let it go on. */
export function holdChecks(): () => void {
  held += 1;
  return () => {
    held -= 1;
  };
}

/**
 * What is odd in the book, found in the background.
 * @param again checks again whenever it changes
 * @returns null while checking for the first time
 */
export function useDataProblems(again: unknown, firstMs = FIRST_MS): readonly DataProblem[] | null {
  useEffect(() => {
    void check(firstMs);
  }, [again, firstMs]);
  return useSyncExternalStore(subscribe, () => found);
}
