import { type ReactNode, useId, useRef, useState } from 'react';
import { FieldShell, describedBy } from './FieldShell.tsx';
import { KeyHint } from './KeyHint.tsx';

interface SelectFieldProps<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly { readonly value: T; readonly word: string; readonly disabled?: boolean }[];
  readonly onChange: (value: T | null) => void;
  /** The words for no choice; choosing them returns null. Without it, a choice is required. */
  readonly none?: string;
  readonly hint?: ReactNode;
  readonly problem?: string | null;
  readonly disabled?: boolean;
  readonly under?: ReactNode;
  readonly bare?: boolean;
  /** For choices that open or add something: the keyboard takes them only with Enter. */
  readonly calls?: boolean;
}

/** A choice from a list too long for a line. Letters and arrow keys only move; Enter or leaving the field chooses. */
export function SelectField<T extends string>(props: SelectFieldProps<T>) {
  const { label, value, options, onChange, none, hint, problem = null, calls = false } = props;
  const id = useId();
  const byKeys = useRef(false);
  const [passing, setPassing] = useState<T | '' | null>(null);
  const take = (): void => {
    setPassing(null);
    if (passing !== null && passing !== (value ?? '')) onChange(passing === '' ? null : passing);
  };
  const under = calls && passing !== null && passing !== '' ? <KeyHint keys="Enter" /> : props.under;
  return (
    <FieldShell
      id={id}
      label={label}
      problem={problem}
      bare={props.bare ?? false}
      {...(hint === undefined ? {} : { hint })}
      {...(under === undefined ? {} : { under })}
    >
      <select
        id={id}
        value={passing ?? value ?? ''}
        disabled={props.disabled ?? false}
        aria-invalid={problem !== null || undefined}
        aria-describedby={describedBy(id, { unit: false, hint: hint !== undefined, problem: problem !== null })}
        onPointerDown={() => {
          byKeys.current = false;
        }}
        onKeyDown={(event) => {
          byKeys.current = true;
          if (event.key === 'Enter' && passing !== null) {
            event.preventDefault();
            take();
          } else if (event.key === 'Escape' && passing !== null) {
            event.stopPropagation();
            setPassing(null);
          }
        }}
        onBlur={() => {
          byKeys.current = false;
          if (calls) setPassing(null);
          else take();
        }}
        onChange={(event) => {
          const found = options.find((o) => o.value === event.target.value)?.value ?? '';
          if (byKeys.current) setPassing(found);
          else onChange(found === '' ? null : found);
        }}
      >
        {(none !== undefined || value === null) && <option value="">{none ?? 'Choose'}</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value} disabled={option.disabled ?? false}>
            {option.word}
          </option>
        ))}
      </select>
    </FieldShell>
  );
}
