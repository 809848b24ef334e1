import type { ReactNode } from 'react';
import { KeyHint } from './KeyHint.tsx';
import './TextButton.css';

interface TextButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  /** `underlined` is a second action beside the main one; `outlined` reads as a button at a glance; `plain` is in a line of words; `delete` destroys or archives. */
  readonly kind?: 'underlined' | 'outlined' | 'plain' | 'delete';
  readonly keys?: string;
  readonly label?: string;
  readonly disabled?: boolean;
  readonly submits?: boolean;
  readonly expanded?: boolean;
}

/** A button that is a word and does something. A word that leads somewhere is a `LinkWord`. */
export function TextButton({
  children,
  onPress,
  kind = 'underlined',
  keys,
  label,
  disabled = false,
  submits = false,
  expanded,
}: TextButtonProps) {
  return (
    <button
      type={submits ? 'submit' : 'button'}
      className={`text-button text-button-${kind}`}
      onClick={onPress}
      disabled={disabled}
      aria-label={label}
      aria-expanded={expanded}
    >
      <span className="text-button-word">{children}</span>
      {keys !== undefined && <KeyHint keys={keys} />}
    </button>
  );
}
