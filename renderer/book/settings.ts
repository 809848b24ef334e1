/** Choices that belong to this machine and not to the book: the look, the way of leaving hints. */
import { useLiveQuery } from 'dexie-react-hooks';
import { book } from './database.ts';
import { attempt, done, type Outcome } from './outcome.ts';

/** Keeps a choice of this machine. */
export function keepSetting(key: string, value: string): Promise<Outcome> {
  return attempt(async () => {
    await book().meta.put({ key: `setting/${key}`, value });
    return done(undefined);
  });
}

/** A choice of this machine; null when never made, undefined while reading. */
export function useSetting(key: string): string | null | undefined {
  return useLiveQuery(async () => {
    const kept = (await book().meta.get(`setting/${key}`))?.value;
    return typeof kept === 'string' ? kept : null;
  }, [key]);
}
