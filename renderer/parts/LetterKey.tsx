import './LetterKey.css';

interface LetterKeyProps {
  readonly letter: string;
  /** Makes the box a button. */
  readonly onPress?: () => void;
  /** The action, for screen readers. */
  readonly label?: string;
}

/** A letter in a square: a keyboard key, and the same mark on the ribbon or plan. */
export function LetterKey({ letter, onPress, label }: LetterKeyProps) {
  if (onPress === undefined) {
    return (
      <span className="letter-key" aria-hidden={label === undefined ? true : undefined}>
        {letter}
      </span>
    );
  }
  return (
    <button
      type="button"
      className="letter-key letter-key-button"
      onClick={onPress}
      aria-label={label ?? letter}
      aria-keyshortcuts={letter}
    >
      {letter}
    </button>
  );
}
