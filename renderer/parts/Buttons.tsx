import { type ReactNode, useId } from 'react';
import './TextButton.css';
import { Link } from 'wouter';
import './LinkWord.css';
import './ActionButton.css';
import { Button } from 'react-aria-components';
import { useAction } from './form-check.ts';
import { useSheetFrame } from './sheet-frame.ts';
import './PourButton.css';
import './KeyHint.css';

interface TextButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  /**
   * `underlined` is a second action beside the main one; `outlined` looks like a button at a glance; `plain` is for a line of words;
   * `delete` deletes or archives.
   */
  readonly kind?: 'underlined' | 'outlined' | 'plain' | 'delete';
  readonly keys?: string;
  readonly label?: string;
  readonly disabled?: boolean;
  readonly submits?: boolean;
  /** Saves what the fields of its form say: refused while one of them is wrong. */
  readonly saves?: boolean;
  readonly expanded?: boolean;
}

/** A text button that does something. `LinkWord` is for text that leads somewhere. */
export function TextButton({
  children,
  onPress,
  kind = 'underlined',
  keys,
  label,
  disabled = false,
  submits = false,
  saves = false,
  expanded,
}: TextButtonProps) {
  const press = useAction(saves, onPress);
  return (
    <button
      // Another thing to delete is another button, so that a second press never reaches it.
      key={kind === 'delete' ? (label ?? (typeof children === 'string' ? children : kind)) : kind}
      type={submits ? 'submit' : 'button'}
      className={`text-button text-button-${kind}`}
      onClick={press}
      disabled={disabled}
      aria-label={label}
      aria-expanded={expanded}
      aria-keyshortcuts={useShortcut(keys)}
    >
      <span className="text-button-word">{children}</span>
      {keys !== undefined && <KeyHint keys={keys} />}
    </button>
  );
}

interface LinkWordProps {
  readonly href: string;
  readonly children: ReactNode;
  /** `quiet` is underlined on hover only, for names in a list. `tall` fills the row. */
  readonly quiet?: boolean;
  readonly tall?: boolean;
  readonly current?: boolean;
}

/** A word that leads to another screen. */
export function LinkWord({ href, children, quiet = false, tall = false, current = false }: LinkWordProps) {
  return (
    <Link
      href={href}
      className={`link-word${quiet ? ' link-word-quiet' : ''}${tall ? ' link-word-tall' : ''}`}
      aria-current={current ? 'page' : undefined}
    >
      {children}
    </Link>
  );
}

interface ActionButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  readonly href?: string;
  /** Why it is unavailable. The button stays focusable, and the foot of a small screen shows this in place of its answer. */
  readonly held?: string | null;
  readonly busy?: boolean;
  readonly saves?: boolean;
}

/** The main action of a screen, of which there is only one. */
export function ActionButton({ children, onPress, href, held = null, busy = false, saves = false }: ActionButtonProps) {
  const press = useAction(saves, onPress);
  const heldId = useId();
  const ticks = <span className="action-ticks" aria-hidden="true" />;
  if (href !== undefined && held === null) {
    return (
      <Link className="action" href={href} onClick={onPress}>
        {ticks}
        {children}
      </Link>
    );
  }
  return (
    <>
      {held !== null && (
        <p id={heldId} className="action-held">
          {held}
        </p>
      )}
      <button
        type="button"
        className="action"
        aria-disabled={held !== null || busy || undefined}
        aria-busy={busy || undefined}
        aria-describedby={held === null ? undefined : heldId}
        title={held ?? undefined}
        onClick={(event) => {
          if (held !== null || busy) event.preventDefault();
          else press?.();
        }}
      >
        {ticks}
        <span>{children}</span>
      </button>
    </>
  );
}

/** A word that opens a dialog or a panel, placed inside that dialog's trigger. */
export function PressWord({ children }: { readonly children: ReactNode }) {
  return (
    <Button className="text-button text-button-plain">
      <span className="text-button-word">{children}</span>
    </Button>
  );
}

interface PourButtonProps {
  readonly children: ReactNode;
  /** A second line, such as what undo would remove. */
  readonly detail?: string;
  readonly keys?: string;
  /** `next` is the one chalk field; `plain` is outlined. */
  readonly kind?: 'next' | 'plain';
  readonly onPress: () => void;
  readonly disabled?: boolean;
  readonly saves?: boolean;
}

/** A button of pour mode: at least 88 px, readable at 2 m with gloves on. */
export function PourButton({ children, detail, keys, kind = 'plain', onPress, disabled = false, saves = false }: PourButtonProps) {
  const press = useAction(saves, onPress);
  return (
    <button type="button" className={`pour-button pour-button-${kind}`} onClick={press} disabled={disabled}>
      <span className="pour-button-words">
        <span className="pour-button-word">{children}</span>
        {detail !== undefined && <span className="pour-button-detail">{detail}</span>}
      </span>
      {keys !== undefined && <KeyHint keys={keys} />}
    </button>
  );
}

/** Keys as `aria-keyshortcuts` has them; undefined where they do nothing, because keys of one letter or digit are off. */
export function useShortcut(keys: string | undefined): string | undefined {
  const { letterKeys } = useSheetFrame();
  if (keys === undefined || (!letterKeys && /^(shift\+)?[a-z0-9/]$/i.test(keys))) return undefined;
  return keys.replace('mod', isMac() ? 'Meta' : 'Control');
}

/** A keyboard shortcut in a thin box. `mod` is Ctrl, or ⌘ on a Mac. */
export function KeyHint({ keys }: { readonly keys: string }) {
  if (useShortcut(keys) === undefined) return null;
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
