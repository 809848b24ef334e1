import { useSyncExternalStore } from 'react';

/** Below this width the sheet is cut along its own rules and set in one column; the style sheets use the same number. */
export const SMALL_BELOW_PX = 800;

const QUERY = `(max-width: ${SMALL_BELOW_PX - 1}px)`;

function watch(changed: () => void): () => void {
  const list = window.matchMedia(QUERY);
  list.addEventListener('change', changed);
  return () => list.removeEventListener('change', changed);
}

/** Whether the sheet is set for a small screen now. */
export function useSmall(): boolean {
  return useSyncExternalStore(
    watch,
    () => window.matchMedia(QUERY).matches,
    () => false,
  );
}
