import { useEffect, useLayoutEffect, useRef } from 'react';

/** Key names: a letter (`a`), `mod+z` (Ctrl, or Command on a Mac), `shift+mod+z`, `escape`, `space`, `/`. */
export type KeyMap = Readonly<Record<string, (event: KeyboardEvent) => void>>;

/** Handles keys pressed anywhere on the page, except in a field, an open dialog or list, a browser command, or repeats. */
export function useKeys(keys: KeyMap): void {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  });
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.repeat || event.isComposing || isLetterOff(event) || isTaken(event)) return;
      const run = latest.current[keyName(event)];
      if (run === undefined) return;
      event.preventDefault();
      run(event);
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, []);
}

/** Turns keys of one letter on or off on the whole page. */
export function useLetterKeys(on: boolean): void {
  useLayoutEffect(() => {
    document.documentElement.toggleAttribute('data-letters-off', !on);
  }, [on]);
}

/** Whether a key is a letter or sign alone, and these are off in Settings, as WCAG 2.1.4 asks: dictation types them. Space always works. */
export function isLetterOff({ key, ctrlKey, metaKey, altKey }: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean {
  const isLetter = isPrinted(key) && key !== ' ' && !ctrlKey && !metaKey && !altKey;
  return isLetter && document.documentElement.hasAttribute('data-letters-off');
}

/** The name of a key press in the terms of `KeyMap`. */
export function keyName(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>): string {
  const key = event.key === ' ' ? 'space' : event.key.toLowerCase();
  const isLetter = /^[a-z]$/.test(key);
  const mod = event.ctrlKey || event.metaKey;
  return [event.shiftKey && (mod || !isPrinted(key) || isLetter) ? 'shift' : '', event.altKey ? 'alt' : '', mod ? 'mod' : '', key]
    .filter((part) => part !== '')
    .join('+');
}

function isPrinted(key: string): boolean {
  return key.length === 1;
}

function isTaken(event: KeyboardEvent): boolean {
  const target = event.target;
  if (!(target instanceof Element)) return false;
  if (target.closest('[role="dialog"], [role="alertdialog"], [role="listbox"], [role="menu"]') !== null) return true;
  if (target instanceof HTMLElement && target.isContentEditable) return true;
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return true;
  if (target instanceof HTMLInputElement)
    return !['button', 'submit', 'checkbox', 'radio', 'file'].includes(target.type) || event.key === ' ';
  // A focused button or link handles Space and Enter itself.
  if (event.key === ' ' || event.key === 'Enter') return target.closest('button, a, summary, [role="button"], [role="radio"]') !== null;
  return false;
}
