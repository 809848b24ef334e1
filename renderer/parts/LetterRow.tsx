import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useShortcut } from './Buttons.tsx';
import './LetterRow.css';
import './LetterKey.css';

interface LetterRowProps {
  /** The screen binds this key, and the drawing has the same mark. */
  readonly letter: string;
  /** The sentence, with its verb in `<b>`. The whole row links to `href`. */
  readonly children: ReactNode;
  readonly href: string;
  readonly date?: string | null;
  readonly late?: boolean;
  /** Beside the date: what moves it. */
  readonly control?: ReactNode;
  readonly under?: ReactNode;
  /** The main action, in the first row only. */
  readonly action?: ReactNode;
  /** Rows after the first are below 26 px on a small screen. */
  readonly first?: boolean;
}

/** A task as a sentence with its letter. */
export function LetterRow({ letter, children, href, date = null, late = false, control, under, action, first = false }: LetterRowProps) {
  return (
    <li className={`letter-row whole-row${first ? ' letter-row-first' : ''}`}>
      <LetterKey letter={letter} />
      <div className="letter-row-words">
        <Link
          href={href}
          className="letter-row-link whole-row-target speech"
          aria-keyshortcuts={useShortcut(letter.toLowerCase() || undefined)}
        >
          {children}
        </Link>
        {under !== undefined && <p>{under}</p>}
      </div>
      {(date !== null || control !== undefined) && (
        <span className="letter-row-right">
          {date !== null && <span className={late ? 'late' : undefined}>{date}</span>}
          {control}
        </span>
      )}
      {action !== undefined && <div className="letter-row-action">{action}</div>}
    </li>
  );
}

/** A letter in a square: a keyboard key, and the same mark on the ribbon or plan. */
export function LetterKey({ letter }: { readonly letter: string }) {
  return (
    <span className="letter-key" aria-hidden>
      {letter}
    </span>
  );
}
