import { useSyncExternalStore } from 'react';

/** Screens have one column on these windows: phones, also held sideways, and laptops at 200%. The style sheets use the same query. */
const QUERY = '(max-width: 799px), (max-height: 480px)';

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
