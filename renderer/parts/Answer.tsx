import type { ReactNode } from 'react';
import './Answer.css';

interface AnswerProps {
  /** The one figure at 52 px, usually in a `Reason`. */
  readonly figure?: ReactNode;
  /** The sentence, or the figure's unit. */
  readonly children: ReactNode;
  /** Italic, beside the figure: `enough eight times in ten`. */
  readonly note?: ReactNode;
  /** Under it: a `RangeMark`, or a plain line. */
  readonly under?: ReactNode;
  /** Not on a small screen, where the foot keeps one answer. */
  readonly wideOnly?: boolean;
}

/** One thing that the sheet means now, in its foot. */
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
