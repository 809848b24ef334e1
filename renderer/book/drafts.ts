/** What is typed but not yet a value is kept too. */
import { useLiveQuery } from 'dexie-react-hooks';
import { useCallback, useState } from 'react';
import { book } from './database.ts';
import { nowInstant } from './moment.ts';
import { attempt, done, type Outcome } from './outcome.ts';
import { beginDraft } from './pending.ts';

/** Text kept under a key of its own (`room/abc/sides`). */
export interface Draft {
  /** As last put here, or as the book has it; null when there is none, undefined while reading. */
  readonly text: string | null | undefined;
  /**
   * Shows a text from now on and keeps it; null forgets what is kept. With `first`, the book's own draft stays until that
   * writing is done, and is shown again when it fails.
   */
  readonly put: (text: string | null, first?: Promise<Outcome>) => Promise<Outcome>;
}

/** Keeps a text under its key; null forgets it. */
export async function keepDraft(key: string, text: string | null): Promise<Outcome> {
  const instant = nowInstant();
  const kept = beginDraft(key, text, instant);
  const outcome = await attempt(async () => {
    if (text === null) await book().drafts.delete(key);
    else await book().drafts.put({ key, text, instant });
    return done(undefined);
  });
  // One that the database failed to keep stays pending: it is put aside when the window goes.
  if (outcome.ok || outcome.isFault !== true) kept();
  return outcome;
}

/** The text kept under a key, and the way to change it. */
export function useDraft(key: string): Draft {
  const kept = useLiveQuery(async () => (await book().drafts.get(key))?.text ?? null, [key]);
  // What was put is ahead of the book's own view until that shows it.
  const [pendingText, setPendingText] = useState<{ readonly text: string | null; readonly written: boolean } | null>(null);
  if (pendingText?.written === true && kept === pendingText.text) setPendingText(null);
  const put = useCallback(
    async (text: string | null, first?: Promise<Outcome>) => {
      const pendingText = { text, written: false };
      setPendingText(pendingText);
      const outcome = first === undefined ? await keepDraft(key, text) : await first;
      if (first !== undefined && outcome.ok) await keepDraft(key, text);
      if (outcome.ok) setPendingText((now) => (now === pendingText ? { text, written: true } : now));
      // What could not be kept stays on the screen, unless the book still holds what was kept before.
      else if (first !== undefined) setPendingText((now) => (now === pendingText ? null : now));
      return outcome;
    },
    [key],
  );
  return { text: pendingText === null ? kept : pendingText.text, put };
}
