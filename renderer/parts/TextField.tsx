import { type ReactNode, useId } from 'react';
import { FieldShell, describedBy } from './FieldShell.tsx';
import { checkLong, checkShort } from './text-checks.ts';
import { useDraft } from './use-draft.ts';

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  /** Called with the trimmed text on blur or after a pause. */
  readonly onChange: (value: string) => void;
  /** Several lines; the field grows with its text. */
  readonly long?: boolean;
  readonly hint?: ReactNode;
  readonly placeholder?: string;
  readonly problem?: string | null;
  /** The error when a required field is empty. */
  readonly emptyMessage?: string;
  /** Returns an error or null; by default only the schema's length is checked. */
  readonly check?: (text: string) => string | null;
  readonly kind?: 'text' | 'tel' | 'email' | 'url';
  readonly autoComplete?: string;
  readonly disabled?: boolean;
  readonly bare?: boolean;
  readonly autoFocus?: boolean;
  readonly onEnter?: () => void;
}

/** Text: a name, an address, a note. */
export function TextField(props: TextFieldProps) {
  const { label, value, onChange, long = false, hint, onEnter } = props;
  const check = props.check ?? (long ? checkLong : checkShort);
  const id = useId();
  const draft = useDraft<string>({
    value: value === '' ? null : value,
    parse: (text) => {
      const message = check(text.trim());
      return message === null ? { ok: true, value: text.trim() } : { ok: false, message };
    },
    format: (text) => text,
    onChange: (text) => onChange(text ?? ''),
    same: Object.is,
    emptyMessage: props.emptyMessage ?? null,
  });
  const problem = draft.problem ?? props.problem ?? null;
  const shared = {
    id,
    value: draft.text,
    onBlur: draft.commit,
    placeholder: props.placeholder,
    disabled: props.disabled ?? false,
    autoFocus: props.autoFocus ?? false,
    autoComplete: props.autoComplete ?? 'off',
    'aria-invalid': problem !== null || undefined,
    'aria-required': props.emptyMessage === undefined ? undefined : true,
    'aria-describedby': describedBy(id, { unit: false, hint: hint !== undefined, problem: problem !== null }),
  };
  return (
    <FieldShell id={id} label={label} problem={problem} bare={props.bare ?? false} {...(hint === undefined ? {} : { hint })}>
      {long ? (
        <textarea {...shared} rows={3} onChange={(event) => draft.type(event.target.value)} />
      ) : (
        <input
          {...shared}
          type={props.kind ?? 'text'}
          onChange={(event) => draft.type(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            draft.commit();
            onEnter?.();
          }}
        />
      )}
    </FieldShell>
  );
}
