import { useLayoutEffect } from 'react';

export type Look = 'light' | 'dark' | 'system';

/** Applies the look to the page while the calling screen is mounted. */
export function useLook(look: Look): void {
  useLayoutEffect(() => {
    const root = document.documentElement;
    if (look === 'system') root.removeAttribute('data-look');
    else root.setAttribute('data-look', look);
  }, [look]);
}
