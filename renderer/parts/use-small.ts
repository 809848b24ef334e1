import { useSyncExternalStore } from 'react';
import { MEDIA } from '../look/media.ts';

function watch(changed: () => void): () => void {
  const list = window.matchMedia(MEDIA.small);
  list.addEventListener('change', changed);
  return () => list.removeEventListener('change', changed);
}

/** Whether screens have one column. */
export function useSmall(): boolean {
  return useSyncExternalStore(
    watch,
    () => window.matchMedia(MEDIA.small).matches,
    () => false,
  );
}
