import { useLayoutEffect, useRef } from 'react';
import { isLetterOff } from '../../parts/use-keys.ts';

type Keys = Readonly<Record<string, () => void>>;

/**
 * The keys of pour mode, wherever the focus is. A foot switch types Space, so Space never presses the focused button; Enter does. Fields
 * and dialogs keep their own keys. A held key counts once.
 */
export function usePourKeys(keys: Keys, on: boolean): void {
  const latest = useRef(keys);
  useLayoutEffect(() => {
    latest.current = keys;
  });
  // A layout effect, so that a key pressed as soon as the screen shows counts.
  useLayoutEffect(() => {
    if (!on) return undefined;
    const isOurs = (event: KeyboardEvent): boolean =>
      !(event.ctrlKey || event.metaKey || event.altKey || isLetterOff(event)) &&
      !(event.target instanceof Element && event.target.closest('input, textarea, select, [role="dialog"], [role="alertdialog"]') !== null);
    const down = (event: KeyboardEvent) => {
      const run = latest.current[event.key.toLowerCase()];
      if (run === undefined || !isOurs(event)) return;
      event.preventDefault();
      event.stopPropagation();
      if (!event.repeat) run();
    };
    // Browsers press a focused button when Space is released.
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
