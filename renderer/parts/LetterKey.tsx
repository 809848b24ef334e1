import './LetterKey.css';

/** A letter in a square: a keyboard key, and the same mark on the ribbon or plan. */
export function LetterKey({ letter }: { readonly letter: string }) {
  return (
    <span className="letter-key" aria-hidden>
      {letter}
    </span>
  );
}
