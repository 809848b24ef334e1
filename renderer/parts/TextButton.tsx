import type { ReactNode } from 'react';
import { KeyHint } from './KeyHint.tsx';
import './TextButton.css';

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
