import { type ReactNode, useState } from 'react';
import './Folded.css';

interface FoldedProps {
  readonly label: string;
  /** What is in it, and whether it was changed. */
  readonly holds: string;
  readonly children: ReactNode;
  readonly id?: string;
  /** Open at first. */
  readonly open?: boolean;
  /** The label is a heading of the screen. */
  readonly heading?: boolean;
}

/** A part folded behind a one-line summary. */
export function Folded({ label, holds, children, id, open = false, heading = false }: FoldedProps) {
  // Filling in what opened it does not close it.
  const [isOpen] = useState(open);
  return (
    <details className="folded" {...(id === undefined ? {} : { id })} open={isOpen}>
      <summary>
        {heading ? <h2>{label}</h2> : <b>{label}</b>}
        <span className="small">{holds}</span>
      </summary>
      {children}
    </details>
  );
}
