import type { ReactNode } from 'react';
import { EmptyDrawing, type EmptyDrawingName } from './EmptyDrawing.tsx';
import './EmptySheet.css';

interface EmptySheetProps {
  /** What goes there: `The floor’s readings go here.` */
  readonly what: string;
  /** How to begin. */
  readonly hint?: ReactNode;
  /** The first step. */
  readonly first?: ReactNode;
  /** Another way, such as the sample data. */
  readonly or?: ReactNode;
  readonly headingLevel?: 'h1' | 'h2';
  /** What the screen will show; a room when left out. */
  readonly drawing?: EmptyDrawingName;
}

/** A screen, or a part of one, with nothing on it yet. */
export function EmptySheet({ what, hint, first, or, headingLevel: Heading = 'h2', drawing = 'room' }: EmptySheetProps) {
  return (
    <div className="empty-sheet">
      <EmptyDrawing name={drawing} />
      <div className="empty-sheet-words">
        <Heading className="speech">{what}</Heading>
        {hint !== undefined && <p>{hint}</p>}
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
