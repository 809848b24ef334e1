import { useEffect, useEffectEvent } from 'react';
import { Notice } from './Notice.tsx';

interface UndoBarProps {
  /** What was done: `Reading 12 is removed.` */
  readonly done: string;
  readonly onUndo: () => void;
  /** Closes after `seconds`, by the cross, or with the next edit. Undo stays in the top line. */
  readonly onGone: () => void;
  readonly seconds?: number;
}

/** The last edit, with an Undo button. */
export function UndoBar({ done, onUndo, onGone, seconds = 12 }: UndoBarProps) {
  const close = useEffectEvent(onGone);
  useEffect(() => {
    const timer = setTimeout(() => close(), seconds * 1000);
    return () => clearTimeout(timer);
  }, [done, seconds]);
  return (
    <Notice action={{ word: 'Undo', run: onUndo, keys: 'mod+z' }} onClose={onGone}>
      {done}
    </Notice>
  );
}
