import type { ReactNode } from 'react';
import { Link } from 'wouter';
import './ActionButton.css';

interface ActionButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  /** Makes the action a link to another screen. */
  readonly href?: string;
  /** Why it is unavailable. The button stays focusable and shows this when pressed. */
  readonly held?: string | null;
  /** True while its work is running. */
  readonly busy?: boolean;
  readonly submits?: boolean;
}

/** The main action of a screen, of which there is only one. */
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
