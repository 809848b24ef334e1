import { type ReactNode, useId } from 'react';
import { StateShape } from './StateShape.tsx';
import './CheckRow.css';

interface CheckRowProps {
  readonly label: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  /** The reason, in italics. */
  readonly because?: ReactNode;
  /** Right-aligned: the quantity, or when it was signed. */
  readonly right?: ReactNode;
  /** A task, which is bold while open; a setting never is. */
  readonly task?: boolean;
  /** 28 px high instead of 44 on a desk, 52 on a phone. */
  readonly dense?: boolean;
  readonly disabled?: boolean;
}

/** A task or setting whose whole row is the button: a ring while open, a disc when done. */
export function CheckRow(props: CheckRowProps) {
  const { label, checked, onChange, because, right, task = false, dense = false, disabled = false } = props;
  const id = useId();
  return (
    <label className={`check-row${dense ? ' check-row-dense' : ''}${task && !checked ? ' check-row-open' : ''}`} htmlFor={id}>
      <input
        id={id}
        type="checkbox"
        className="hidden-words"
        checked={checked}
        disabled={disabled}
        onChange={(event) => onChange(event.target.checked)}
        aria-describedby={because === undefined ? undefined : `${id}-why`}
      />
      <StateShape state={checked ? 'done' : 'waiting'} sizePx={dense ? 14 : 18} />
      <span className="check-row-label">{label}</span>
      {because !== undefined && (
        <i className="check-row-because" id={`${id}-why`}>
          {because}
        </i>
      )}
      {right !== undefined && <span className="check-row-right">{right}</span>}
    </label>
  );
}
