/** Settings of this computer, such as the look and closed hints. They are not backed up. */
import { useState } from 'react';
import { useLiveQuery } from 'dexie-react-hooks';
import { ownBook } from './database.ts';
import { initialsOf } from './assessment-commands.ts';
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

/** A text of this computer that a field shows and stores; empty while there is none. What is typed counts before it is stored. */
export function useTypedSetting(key: string): readonly [string, (text: string) => void] {
  const stored = useSetting(key);
  const [typed, setTyped] = useState<string | null>(null);
  const type = (text: string): void => {
    setTyped(text);
    void storeSetting(key, text);
  };
  return [typed ?? stored ?? '', type];
}

/**
 * The initials used last on this computer, or else those of the owner's name; empty while neither is known, undefined while loading.
 * `keep` stores those that had to be asked for.
 */
export function useInitials(ownerName: string): { readonly known: string | undefined; readonly keep: (asked: string) => void } {
  const last = useSetting('initials');
  const known = last === undefined ? undefined : last?.trim() || initialsOf(ownerName);
  return { known, keep: (asked) => (known === '' ? void storeSetting('initials', asked) : undefined) };
}
