import type { ReactNode } from 'react';
import './Field.css';

/** Fields side by side, as many as fit. `wide` is for sentences and names. */
export function Fields({ children, wide = false }: { readonly children: ReactNode; readonly wide?: boolean }) {
  return <div className={`fields${wide ? ' fields-wide' : ''}`}>{children}</div>;
}
