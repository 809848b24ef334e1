/** Stores text that is typed but not yet a valid value. */
import { useLiveQuery } from 'dexie-react-hooks';
import { useCallback, useState } from 'react';
import { book } from './database.ts';
import { nowInstant, type Outcome, stored } from './command.ts';
import { beginDraft } from './pending.ts';

/** The draft under a key (`room/abc/sides`). */
export interface Draft {
  /** The newest text, or the stored one; null when there is none, undefined while loading. */
  readonly text: string | null | undefined;
  /**
   * Shows and stores a text; null clears it. With `first`, the stored draft stays until that write succeeds and is shown again if it fails.
   */
  readonly save: (text: string | null, first?: Promise<Outcome>) => Promise<Outcome>;
}

/** Stores a text under its key; null clears it. */
export async function storeDraft(key: string, text: string | null): Promise<Outcome> {
  const instant = nowInstant();
  const ticket = beginDraft(key, text, instant);
  const outcome = await stored(() => (text === null ? book().drafts.delete(key) : book().drafts.put({ key, text, instant })));
  // A draft that the database failed to store stays pending and is saved when the window closes.
  if (outcome.ok || outcome.isFault !== true) ticket();
  return outcome;
}

export function useDraft(key: string): Draft {
  const stored = useLiveQuery(async () => (await book().drafts.get(key))?.text ?? null, [key]);
  // The new text is shown until the database's view catches up.
  const [pendingText, setPendingText] = useState<{ readonly text: string | null; readonly written: boolean } | null>(null);
  if (pendingText?.written === true && stored === pendingText.text) setPendingText(null);
  const save = useCallback(
    async (text: string | null, first?: Promise<Outcome>) => {
      const pendingText = { text, written: false };
      setPendingText(pendingText);
      const outcome = first === undefined ? await storeDraft(key, text) : await first;
      if (first !== undefined && outcome.ok) await storeDraft(key, text);
      if (outcome.ok) setPendingText((now) => (now === pendingText ? { text, written: true } : now));
      // A text that could not be stored stays on the screen unless the database still has the earlier one.
      else if (first !== undefined) setPendingText((now) => (now === pendingText ? null : now));
      return outcome;
    },
    [key],
  );
  return { text: pendingText === null ? stored : pendingText.text, save };
}
