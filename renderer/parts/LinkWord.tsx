import type { ReactNode } from 'react';
import { Link } from 'wouter';
import './LinkWord.css';

interface LinkWordProps {
  readonly href: string;
  readonly children: ReactNode;
  /** `quiet` is underlined on hover only, for names in a list. `tall` fills the row. */
  readonly quiet?: boolean;
  readonly tall?: boolean;
  readonly current?: boolean;
}

/** A word that leads to another screen. */
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
