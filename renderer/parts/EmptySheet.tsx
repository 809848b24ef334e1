import type { ReactNode } from 'react';
import { EmptyDrawing, type EmptyDrawingName } from './EmptyDrawing.tsx';
import './EmptySheet.css';

interface EmptySheetProps {
  /** What will be here: `The floor’s readings go here.` */
  readonly heading: string;
  readonly hint?: ReactNode;
  readonly first?: ReactNode;
  /** Another way to start, such as the sample data. */
  readonly or?: ReactNode;
  readonly headingLevel?: 'h1' | 'h2';
  /** Which drawing to show; a room by default. */
  readonly drawing?: EmptyDrawingName;
}

/** A screen, or a part of one, that has nothing on it yet. */
export function EmptySheet({ heading, hint, first, or, headingLevel: Heading = 'h2', drawing = 'room' }: EmptySheetProps) {
  return (
    <div className="empty-sheet">
      <EmptyDrawing name={drawing} />
      <div className="stack empty-sheet-words">
        <Heading className="speech">{heading}</Heading>
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
