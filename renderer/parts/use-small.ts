import { useSyncExternalStore } from 'react';

/** Below this width screens have one column. The style sheets use the same number. */
export const SMALL_BELOW_PX = 800;

const QUERY = `(max-width: ${SMALL_BELOW_PX - 1}px)`;

function watch(changed: () => void): () => void {
  const list = window.matchMedia(QUERY);
  list.addEventListener('change', changed);
  return () => list.removeEventListener('change', changed);
}

export function useSmall(): boolean {
  return useSyncExternalStore(
    watch,
    () => window.matchMedia(QUERY).matches,
    () => false,
  );
}
