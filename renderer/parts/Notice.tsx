import { type ReactNode, useEffect, useRef } from 'react';
import { StateShape } from './StateShape.tsx';
import { TextButton } from './Buttons.tsx';
import './Notice.css';

interface NoticeProps {
  /** Screen readers announce `failure` at once, `told` after the present sentence. */
  readonly kind?: 'success' | 'failure';
  readonly children: ReactNode;
  /** The button and what it does. */
  readonly action?: { readonly word: string; readonly run: () => void; readonly keys?: string };
  readonly onClose?: () => void;
  /** The close button's words, where closing does more than close. */
  readonly closeWord?: string;
}

/** A bar with what happened and what to do. */
export function Notice({ kind = 'success', children, action, onClose, closeWord = 'Close' }: NoticeProps) {
  const bar = useRef<HTMLDivElement>(null);
  const answers = onClose !== undefined;
  // An answer to what was pressed: the screen may be scrolled away from where it stands.
  useEffect(() => {
    if (answers) bar.current?.scrollIntoView({ block: 'nearest' });
  }, [answers, children]);
  return (
    <div ref={bar} className="notice" role={kind === 'failure' ? 'alert' : 'status'}>
      {kind === 'failure' && <StateShape state="held" />}
      <div className="notice-words">{children}</div>
      {action !== undefined && (
        <TextButton onPress={action.run} {...(action.keys === undefined ? {} : { keys: action.keys })}>
          {action.word}
        </TextButton>
      )}
      {onClose !== undefined && (
        <TextButton kind="plain" onPress={onClose}>
          {closeWord}
        </TextButton>
      )}
    </div>
  );
}
