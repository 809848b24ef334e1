import type { ReactNode } from 'react';
import './EmptySheet.css';

interface EmptySheetProps {
  /** What goes there: `The floor’s readings go here.` */
  readonly what: string;
  /** How it gets there, or what it is for. */
  readonly how?: ReactNode;
  /** The first step. */
  readonly first?: ReactNode;
  /** Another way: the sample book. */
  readonly or?: ReactNode;
  readonly headingLevel?: 'h1' | 'h2';
}

/** A sheet, or a part of one, on which nothing is drawn yet. */
export function EmptySheet({ what, how, first, or, headingLevel: Heading = 'h2' }: EmptySheetProps) {
  return (
    <div className="empty-sheet">
      {/* A room not read yet: its outline dashed, as all that is ahead. */}
      <svg width="168" height="92" viewBox="0 0 168 92" aria-hidden="true">
        <path d="M1 1H66V48H166V84H1Z" fill="none" stroke="var(--line)" strokeWidth="1.5" strokeDasharray="4 3" />
        <path d="M27 17H39M33 11V23M27 62H39M33 56V68M78 66H90M84 60V72M130 66H142M136 60V72" stroke="var(--line)" />
      </svg>
      <div className="empty-sheet-words">
        <Heading className="speech">{what}</Heading>
        {how !== undefined && <p>{how}</p>}
        {(first !== undefined || or !== undefined) && (
          <div className="empty-sheet-steps">
            {first}
            {or}
          </div>
        )}
      </div>
    </div>
  );
}
