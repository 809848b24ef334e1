/** Settings of this computer, such as the look and closed hints. They are not backed up. */
import { useLiveQuery } from 'dexie-react-hooks';
import { ownBook } from './database.ts';
import { type Outcome, stored } from './command.ts';

export function storeSetting(key: string, value: string): Promise<Outcome> {
  return stored(() => ownBook().meta.put({ key: `setting/${key}`, value }));
}

/** Null when never set, undefined while loading. */
export function useSetting(key: string): string | null | undefined {
  return useLiveQuery(async () => {
    const stored = (await ownBook().meta.get(`setting/${key}`))?.value;
    return typeof stored === 'string' ? stored : null;
  }, [key]);
}
