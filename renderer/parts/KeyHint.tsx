import './KeyHint.css';

/** A keyboard shortcut in a thin box. `mod` is Ctrl, or ⌘ on a Mac. */
export function KeyHint({ keys }: { readonly keys: string }) {
  return <kbd className="key-hint">{keyWords(keys)}</kbd>;
}

/** `mod+z` as this system writes it: `Ctrl Z` or `⌘ Z`. */
export function keyWords(keys: string, mac = isMac()): string {
  return keys
    .split('+')
    .map((k) => (k === 'mod' ? (mac ? '⌘' : 'Ctrl') : k.length === 1 ? k.toUpperCase() : k.charAt(0).toUpperCase() + k.slice(1)))
    .join(' ');
}

function isMac(): boolean {
  return typeof navigator !== 'undefined' && /Mac|iP(hone|ad)/.test(navigator.userAgent);
}
