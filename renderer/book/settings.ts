/** Settings of this computer, such as the look and closed hints. They are not backed up. */
import { useLiveQuery } from 'dexie-react-hooks';
import { book } from './database.ts';
import { attempt, done, type Outcome } from './command.ts';

export function storeSetting(key: string, value: string): Promise<Outcome> {
  return attempt(async () => {
    await book().meta.put({ key: `setting/${key}`, value });
    return done(undefined);
  });
}

/** Null when never set, undefined while loading. */
export function useSetting(key: string): string | null | undefined {
  return useLiveQuery(async () => {
    const stored = (await book().meta.get(`setting/${key}`))?.value;
    return typeof stored === 'string' ? stored : null;
  }, [key]);
}
