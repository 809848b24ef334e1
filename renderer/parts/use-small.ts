import { useCallback, useSyncExternalStore } from 'react';
import { MEDIA } from '../look/media.ts';

/** Whether the window has one of the named sizes. */
export function useMedia(name: keyof typeof MEDIA): boolean {
  const watch = useCallback(
    (changed: () => void): (() => void) => {
      const list = window.matchMedia(MEDIA[name]);
      list.addEventListener('change', changed);
      return () => list.removeEventListener('change', changed);
    },
    [name],
  );
  return useSyncExternalStore(
    watch,
    () => window.matchMedia(MEDIA[name]).matches,
    () => false,
  );
}

/** Whether screens have one column. */
export const useSmall = (): boolean => useMedia('small');
