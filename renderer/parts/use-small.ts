import { useCallback, useSyncExternalStore } from 'react';
import { MEDIA } from '../look/media.ts';

const lists = new Map<keyof typeof MEDIA, MediaQueryList>();

/** One list for each size, because components ask at every render. */
function listOf(name: keyof typeof MEDIA): MediaQueryList {
  const list = lists.get(name) ?? window.matchMedia(MEDIA[name]);
  lists.set(name, list);
  return list;
}

/** Whether the window has one of the named sizes. */
export function useMedia(name: keyof typeof MEDIA): boolean {
  const watch = useCallback(
    (changed: () => void): (() => void) => {
      const list = listOf(name);
      list.addEventListener('change', changed);
      return () => list.removeEventListener('change', changed);
    },
    [name],
  );
  return useSyncExternalStore(
    watch,
    () => listOf(name).matches,
    () => false,
  );
}

/** Whether screens have one column. */
export const useSmall = (): boolean => useMedia('small');
