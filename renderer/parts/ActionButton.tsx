import type { ReactNode } from 'react';
import { Link } from 'wouter';
import './ActionButton.css';

interface ActionButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  /** Given: the action is a way to another sheet. */
  readonly href?: string;
  /** Why it cannot be done now; the button stays in reach and says so when pressed or read. */
  readonly held?: string | null;
  /** The work it started is not over. */
  readonly busy?: boolean;
  readonly submits?: boolean;
}

/** The one main action of a sheet: a chalk field with corner ticks. */
export function ActionButton({ children, onPress, href, held = null, busy = false, submits = false }: ActionButtonProps) {
  const ticks = <span className="action-ticks" aria-hidden="true" />;
  if (href !== undefined && held === null) {
    return (
      <Link className="action" href={href} onClick={onPress}>
        {ticks}
        {children}
      </Link>
    );
  }
  return (
    <button
      type={submits ? 'submit' : 'button'}
      className="action"
      aria-disabled={held !== null || busy || undefined}
      aria-busy={busy || undefined}
      title={held ?? undefined}
      onClick={(event) => {
        if (held !== null || busy) event.preventDefault();
        else onPress?.();
      }}
    >
      {ticks}
      <span>
        {children}
        {held !== null && <span className="hidden-words">. {held}</span>}
      </span>
    </button>
  );
}
