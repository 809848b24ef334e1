import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { LetterKey } from './LetterKey.tsx';
import './LetterRow.css';

interface LetterRowProps {
  /** Its key on the keyboard (the screen binds it) and its mark on the drawing. */
  readonly letter: string;
  /** The sentence; its verb in `<b>`. The whole row leads to `href`. */
  readonly children: ReactNode;
  readonly href: string;
  /** At the right: when. */
  readonly right?: ReactNode;
  /** The word at the right is chalk: it is late. */
  readonly late?: boolean;
  /** A plain line under the first row. */
  readonly under?: ReactNode;
  /** The main action, beside the first row. */
  readonly action?: ReactNode;
  /** Below 26 px on a small screen, all but the first. */
  readonly first?: boolean;
}

/** One thing that needs doing, as a sentence with its letter. */
export function LetterRow({ letter, children, href, right, late = false, under, action, first = false }: LetterRowProps) {
  return (
    <li className={`letter-row${first ? ' letter-row-first' : ''}`}>
      <LetterKey letter={letter} />
      <div className="letter-row-words">
        <Link href={href} className="letter-row-link speech" aria-keyshortcuts={letter.toLowerCase()}>
          {children}
        </Link>
        {under !== undefined && <p className="letter-row-under">{under}</p>}
      </div>
      {right !== undefined && <span className={`letter-row-right${late ? ' late' : ''}`}>{right}</span>}
      {action !== undefined && <div className="letter-row-action">{action}</div>}
    </li>
  );
}
