import type { ReactNode } from 'react';
import { Link } from 'wouter';
import './LinkWord.css';

interface LinkWordProps {
  readonly href: string;
  readonly children: ReactNode;
  /** `quiet` is underlined only when pointed at: for names in a list. `tall` gives it a full row to press. */
  readonly quiet?: boolean;
  readonly tall?: boolean;
  readonly current?: boolean;
}

/** A word that leads to another sheet. */
export function LinkWord({ href, children, quiet = false, tall = false, current = false }: LinkWordProps) {
  return (
    <Link
      href={href}
      className={`link-word${quiet ? ' link-word-quiet' : ''}${tall ? ' link-word-tall' : ''}`}
      aria-current={current ? 'page' : undefined}
    >
      {children}
    </Link>
  );
}
