import type { ReactNode } from 'react';
import './Answer.css';

interface AnswerProps {
  /** The figure at 52 px, usually in a `Reason`. */
  readonly figure?: ReactNode;
  /** The sentence, or the unit of the figure. */
  readonly children: ReactNode;
  /** Italic, beside the figure: `enough 80% of the time`. */
  readonly note?: ReactNode;
  /** Below the figure: a `RangeMark` or a line of text. */
  readonly under?: ReactNode;
  /** Hides it on a small screen, whose foot has space for one answer. */
  readonly wideOnly?: boolean;
}

/** One result in the foot of a screen. */
export function Answer({ figure, children, note, under, wideOnly = false }: AnswerProps) {
  return (
    <div className={`answer${wideOnly ? ' answer-wide' : ''}`}>
      <p className="speech answer-line">
        {figure !== undefined && <span className="answer-figure">{figure}</span>}
        <span>{children}</span>
        {note !== undefined && <span className="caption answer-note">{note}</span>}
      </p>
      {under !== undefined && <div className="answer-under">{under}</div>}
    </div>
  );
}
