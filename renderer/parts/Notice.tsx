import type { ReactNode } from 'react';
import { StateShape } from './StateShape.tsx';
import { TextButton } from './TextButton.tsx';
import './Notice.css';

interface NoticeProps {
  /** `failure` is read out at once; `told` waits its turn. */
  readonly kind?: 'success' | 'failure';
  readonly children: ReactNode;
  /** The way on: what to press, and what it does. */
  readonly action?: { readonly word: string; readonly run: () => void; readonly keys?: string };
  readonly onClose?: () => void;
  /** What the closing button is called, where closing does more. */
  readonly closeWord?: string;
}

/** A bar that says what happened and what to do about it. */
export function Notice({ kind = 'success', children, action, onClose, closeWord = 'Close' }: NoticeProps) {
  return (
    <div className="notice" role={kind === 'failure' ? 'alert' : 'status'}>
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
