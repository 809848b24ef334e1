import type { ReactNode } from 'react';
import { KeyHint } from './KeyHint.tsx';
import './PourButton.css';

interface PourButtonProps {
  readonly children: ReactNode;
  /** A second line, such as what undo would remove. */
  readonly detail?: string;
  readonly keys?: string;
  /** `next` is the one chalk field; `plain` is outlined. */
  readonly kind?: 'next' | 'plain';
  readonly onPress: () => void;
  readonly disabled?: boolean;
}

/** A button of pour mode: at least 88 px, readable at 2 m with gloves on. */
export function PourButton({ children, detail, keys, kind = 'plain', onPress, disabled = false }: PourButtonProps) {
  return (
    <button type="button" className={`pour-button pour-button-${kind}`} onClick={onPress} disabled={disabled}>
      <span className="pour-button-words">
        <span className="pour-button-word">{children}</span>
        {detail !== undefined && <span className="pour-button-detail">{detail}</span>}
      </span>
      {keys !== undefined && <KeyHint keys={keys} />}
    </button>
  );
}
