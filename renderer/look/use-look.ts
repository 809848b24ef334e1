import { useLayoutEffect } from 'react';

/** Light, dark, or as the computer is set. */
export type Look = 'light' | 'dark' | 'system';

/** Applies the look to the page while the calling screen is mounted. `still` also turns motion off. */
export function useLook(look: Look, still = false): void {
  useLayoutEffect(() => {
    const root = document.documentElement;
    if (look === 'system') root.removeAttribute('data-look');
    else root.setAttribute('data-look', look);
    if (still) root.setAttribute('data-motion', 'off');
    else root.removeAttribute('data-motion');
  }, [look, still]);
}
