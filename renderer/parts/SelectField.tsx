import { type ReactNode, useId } from 'react';
import { FieldShell, describedBy } from './FieldShell.tsx';

interface SelectFieldProps<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly { readonly value: T; readonly word: string; readonly disabled?: boolean }[];
  readonly onChange: (value: T | null) => void;
  /** The words while nothing is chosen; choosing them again gives null. Left out, something is always chosen. */
  readonly none?: string;
  readonly hint?: ReactNode;
  readonly problem?: string | null;
  readonly disabled?: boolean;
  readonly under?: ReactNode;
  readonly bare?: boolean;
}

/** One of a list too long for a line of words. */
export function SelectField<T extends string>(props: SelectFieldProps<T>) {
  const { label, value, options, onChange, none, hint, problem = null, under } = props;
  const id = useId();
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
        value={value ?? ''}
        disabled={props.disabled ?? false}
        aria-invalid={problem !== null || undefined}
        aria-describedby={describedBy(id, { unit: false, hint: hint !== undefined, problem: problem !== null })}
        onChange={(event) => onChange(options.find((o) => o.value === event.target.value)?.value ?? null)}
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
