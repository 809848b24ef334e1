/** Checks all data in the background, one check at a time, shared by all screens that show the result. */
import { proxy, wrap } from 'comlink';
import { useEffect } from 'react';
import { heldValue } from '../desk/held-value.ts';
import type { DataProblem } from '../../shared-core/book/data-check.ts';
import type { CheckWork } from '../workers/check.worker.ts';
import { book } from './database.ts';

/** Starts after the first screen is drawn, ms. */
const FIRST_MS = 2500;
/** Pauses as long as a piece takes, so that the screens' own reads get their turn. */
const BETWEEN_MS = 24;
const HELD_MS = 500;
/** Rests this long after each key and press: a piece that is being read doubled the time from a key in Search to its results. */
const QUIET_MS = 1500;

const found = heldValue<readonly DataProblem[] | null>(null);
let run = 0;
let held = 0;
let pressedAt = Number.NEGATIVE_INFINITY;
const notePress = (): void => {
  pressedAt = performance.now();
};
const isBusy = (): boolean => held > 0 || performance.now() - pressedAt < QUIET_MS;
const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const checkInWorker = async (pause: () => Promise<boolean>): Promise<readonly DataProblem[] | null> => {
  const worker = new Worker(new URL('../workers/check.worker.ts', import.meta.url), { type: 'module' });
  const failed = new Promise<never>((_, reject) => {
    worker.addEventListener('error', () => reject(new Error('The worker could not be started.')));
  });
  try {
    return await Promise.race([wrap<CheckWork>(worker).check(book().name, proxy(pause)), failed]);
  } finally {
    worker.terminate();
  }
};

const check = async (firstMs: number): Promise<void> => {
  run += 1;
  const own = run;
  const pause = async (): Promise<boolean> => {
    await wait(BETWEEN_MS);
    while (isBusy() && own === run) await wait(HELD_MS);
    return own === run;
  };
  await wait(firstMs);
  if (own !== run) return;
  try {
    const odd = await checkInWorker(pause);
    if (odd !== null) found.set(odd);
  } catch (error) {
    // Another window's newer version closes the database; the check then reports nothing.
    if (book().isOpen()) throw error;
  }
};

/** Holds the check while other work reads all data. Returns a function that resumes it. */
export function holdChecks(): () => void {
  held += 1;
  return () => {
    held -= 1;
  };
}

/**
 * Data problems, found in the background.
 * @param again repeats the check when it changes
 * @returns null during the first check
 */
export function useDataProblems(again: unknown, firstMs = FIRST_MS): readonly DataProblem[] | null {
  useEffect(() => {
    // The same function again is one listener.
    for (const press of ['keydown', 'pointerdown']) addEventListener(press, notePress, { capture: true, passive: true });
    void check(firstMs);
  }, [again, firstMs]);
  return found.use();
}
