/** The check of the whole book, run once the screens are quiet. */
import { useEffect, useState } from 'react';
import type { Oddity } from '../../shared-core/book/snapshot-check.ts';
import { book } from './database.ts';
import { checkBook } from './integrity.ts';

/** Long enough for the first sheet to stand. */
const FIRST_MS = 2500;
const BETWEEN_MS = 8;

/**
 * What is odd in the book, found in the background.
 * @param again checks anew whenever it changes
 * @returns null while checking
 */
export function useOddities(again: unknown, firstMs = FIRST_MS): readonly Oddity[] | null {
  const [found, setFound] = useState<readonly Oddity[] | null>(null);
  useEffect(() => {
    let gone = false;
    const wait = (ms: number): Promise<boolean> => new Promise((resolve) => setTimeout(() => resolve(!gone), ms));
    const run = async (): Promise<void> => {
      if (!(await wait(firstMs))) return;
      const odd = await checkBook(() => wait(BETWEEN_MS));
      if (odd !== null) setFound(odd);
    };
    // A book closed under it, by another window's newer version, has nothing to say.
    run().catch((error: unknown) => {
      if (book().isOpen()) throw error;
    });
    return () => {
      gone = true;
    };
  }, [again, firstMs]);
  return found;
}
