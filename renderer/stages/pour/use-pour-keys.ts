import { useLayoutEffect, useRef } from 'react';

type Keys = Readonly<Record<string, () => void>>;

/**
 * The keys of pour mode, wherever the focus is: a foot switch types Space, and Space never presses the button that happens
 * to have the focus. Enter does. A field or a dialog keeps its own keys; a key held down counts once.
 */
export function usePourKeys(keys: Keys, on: boolean): void {
  const latest = useRef(keys);
  useLayoutEffect(() => {
    latest.current = keys;
  });
  // With the screen itself, not after it: a key pressed as soon as it shows must count.
  useLayoutEffect(() => {
    if (!on) return undefined;
    const isOurs = (event: KeyboardEvent): boolean =>
      !(event.ctrlKey || event.metaKey || event.altKey) &&
      !(event.target instanceof Element && event.target.closest('input, textarea, select, [role="dialog"], [role="alertdialog"]') !== null);
    const down = (event: KeyboardEvent) => {
      const run = latest.current[event.key.toLowerCase()];
      if (run === undefined || !isOurs(event)) return;
      event.preventDefault();
      event.stopPropagation();
      if (!event.repeat) run();
    };
    // A button would be pressed when Space comes up.
    const up = (event: KeyboardEvent) => {
      if (event.key === ' ' && isOurs(event)) event.preventDefault();
    };
    document.addEventListener('keydown', down, true);
    document.addEventListener('keyup', up, true);
    return () => {
      document.removeEventListener('keydown', down, true);
      document.removeEventListener('keyup', up, true);
    };
  }, [on]);
}
