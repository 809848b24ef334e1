import './LetterKey.css';

interface LetterKeyProps {
  readonly letter: string;
  /** Given: the box is a button. Left out: it is the mark alone. */
  readonly onPress?: () => void;
  /** What pressing does, read aloud. */
  readonly label?: string;
}

/** A letter in a square: the key on the keyboard, and the same mark on the ribbon or the plan. */
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
