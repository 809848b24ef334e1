import { useEffect, useState } from 'react';
import type { Unreadable } from '../book/integrity.ts';
import { Notice } from '../parts/Notice.tsx';

interface NoticesProps {
  /** What undo or redo just did, or why it did not. */
  readonly said: string | null;
  readonly canRedo: boolean;
  readonly onRedo: () => void;
  readonly onClose: () => void;
  readonly unreadable: readonly Unreadable[];
}

const SHOWN_MS = 8000;

/** The bars above the foot that belong to no screen. */
export function Notices({ said, canRedo, onRedo, onClose, unreadable }: NoticesProps) {
  const [seen, setSeen] = useState(false);
  useEffect(() => {
    if (said === null) return undefined;
    const timer = setTimeout(onClose, SHOWN_MS);
    return () => clearTimeout(timer);
  }, [said, onClose]);
  if (said === null && (unreadable.length === 0 || seen)) return null;
  return (
    <>
      {said !== null && (
        <Notice onClose={onClose} {...(canRedo ? { action: { word: 'Do it again', run: onRedo, keys: 'shift+mod+z' } } : {})}>
          {said}
        </Notice>
      )}
      {unreadable.length > 0 && !seen && (
        <Notice kind="failure" onClose={() => setSeen(true)}>
          {unreadable.length === 1 ? 'One record' : `${unreadable.length} records`} in the book cannot be read and{' '}
          {unreadable.length === 1 ? 'is' : 'are'} kept untouched:{' '}
          {unreadable
            .slice(0, 3)
            .map((u) => `${u.table} ${u.id} (${u.where}: ${u.message})`)
            .join('; ')}
          .
        </Notice>
      )}
    </>
  );
}
