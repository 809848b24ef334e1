/** What is typed but not yet a value is kept too. */
import { useLiveQuery } from 'dexie-react-hooks';
import { book } from './database.ts';
import { done, explainDatabase, type Outcome } from './outcome.ts';

/** Keeps typed text under a field's own key (`room/abc/plan/side-2`). */
export async function keepDraft(key: string, text: string, now: string): Promise<Outcome> {
  try {
    await book().drafts.put({ key, text, at: now });
    return done(undefined);
  } catch (error) {
    return explainDatabase(error);
  }
}

/** Forgets it, once it became a value or was given up. */
export async function dropDraft(key: string): Promise<void> {
  await book().drafts.delete(key);
}

/** The text kept for a field; null when none, undefined while reading. */
export function useDraft(key: string): string | null | undefined {
  return useLiveQuery(async () => (await book().drafts.get(key))?.text ?? null, [key]);
}
