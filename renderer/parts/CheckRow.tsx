import { type ReactNode, useId } from 'react';
import { StateShape, type StateName } from './StateShape.tsx';
import './CheckRow.css';

interface CheckRowProps {
  readonly label: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  /** A number or a letter: the key for signing, and the mark on the plan. */
  readonly mark?: string;
  /** Why, in italics. */
  readonly because?: ReactNode;
  /** At the right: how much, when it was signed. */
  readonly right?: ReactNode;
  /** Its shape, where it is more than done or not. */
  readonly state?: StateName;
  /** A thing to be done, and so in bold while it is open; a setting stands plain either way. */
  readonly task?: boolean;
  /** 28 px instead of 44 on a desk, for a long list; 52 on a phone. */
  readonly dense?: boolean;
  readonly disabled?: boolean;
}

/** A thing to be done or a setting, the whole row of it pressable: ring while open, disc when done. */
export function CheckRow(props: CheckRowProps) {
  const { label, checked, onChange, mark, because, right, task = false, dense = false, disabled = false } = props;
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
      <StateShape state={props.state ?? (checked ? 'done' : 'waiting')} sizePx={dense ? 14 : 18} />
      {mark !== undefined && <span className="check-row-mark">{mark}</span>}
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
