import { useId } from 'react';
import { describedBy, FieldShell } from '../parts/Field.tsx';

interface PassphraseFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly isNew?: boolean;
  readonly problem?: string | null;
  readonly hint?: string;
  readonly autoFocus?: boolean;
  readonly onEnter?: () => void;
}

/** Never stored as a draft and never shown. */
export function PassphraseField(props: PassphraseFieldProps) {
  const { label, value, onChange, isNew = false, problem = null, hint, autoFocus = false, onEnter } = props;
  const id = useId();
  return (
    <FieldShell id={id} label={label} problem={problem} hint={hint}>
      <input
        id={id}
        type="password"
        value={value}
        autoComplete={isNew ? 'new-password' : 'current-password'}
        autoFocus={autoFocus}
        aria-invalid={problem !== null || undefined}
        aria-describedby={describedBy(id, { unit: false, hint: hint !== undefined, problem: problem !== null })}
        onChange={(event) => onChange(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') onEnter?.();
        }}
      />
    </FieldShell>
  );
}
