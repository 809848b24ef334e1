import { type ReactNode, useId } from 'react';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { FieldShell, describedBy } from './FieldShell.tsx';
import { useDraft } from './use-draft.ts';
import './Field.css';

/** A suggested value, and why. */
export interface Suggestion<T> {
  readonly value: T;
  readonly text: string;
  readonly why?: string;
}

/** What every field of one line takes. */
export interface FieldCommon<T> {
  readonly label: string;
  /** Null while it is not known. */
  readonly value: T | null;
  /** The value read, when the field is left, on Enter, or after a pause; null when emptied. */
  readonly onChange: (value: T | null) => void;
  readonly unit?: ReactNode;
  readonly hint?: ReactNode;
  readonly placeholder?: string;
  /** A message from outside, such as the record's. The field's own comes first. */
  readonly problem?: string | null;
  /** The message for an empty required field. Left out, it may be empty. */
  readonly emptyMessage?: string;
  readonly suggestion?: Suggestion<T> | null;
  /** A typical figure, in italic, that a data sheet or a reading should replace. */
  readonly typical?: boolean;
  readonly disabled?: boolean;
  /** Shown under it: a limit with its state. */
  readonly under?: ReactNode;
  /** The label is only read aloud. */
  readonly bare?: boolean;
  readonly autoFocus?: boolean;
  /** Enter was pressed and what was typed could be read: go to the next. */
  readonly onEnter?: () => void;
}

interface FieldProps<T> extends FieldCommon<T> {
  readonly parse: (text: string) => Parsed<T>;
  /** The text in the field, ready to be typed over. */
  readonly format: (value: T) => string;
  readonly same?: (a: T, b: T) => boolean;
  readonly inputMode?: 'text' | 'decimal' | 'numeric' | 'tel' | 'email' | 'url';
  readonly autoComplete?: string;
  /** At the right inside the slot, after the unit. */
  readonly within?: ReactNode;
  readonly name?: string;
  /** Says what the text being typed is taken as, beside it. */
  readonly readAs?: (value: T) => string;
}

/** One typed value: read by `parse`, shown by `format`. Text that cannot be read stays with a message under it. */
export function Field<T>(props: FieldProps<T>) {
  const { label, value, onChange, parse, format, unit, hint, placeholder, suggestion, under, within, onEnter } = props;
  const id = useId();
  const same = props.same ?? Object.is;
  const draft = useDraft<T>({ value, parse, format, onChange, same, emptyMessage: props.emptyMessage ?? null });
  const problem = draft.problem ?? props.problem ?? null;
  const typed = props.readAs === undefined || draft.text === (value === null ? '' : format(value)) ? null : parse(draft.text);
  const offered = suggestion !== undefined && suggestion !== null && (value === null || !same(value, suggestion.value)) ? suggestion : null;
  return (
    <FieldShell
      id={id}
      label={label}
      problem={problem}
      bare={props.bare ?? false}
      {...(unit === undefined ? {} : { unit })}
      {...(hint === undefined ? {} : { hint })}
      {...(under === undefined ? {} : { under })}
      suggestion={
        offered !== null && (
          <button
            type="button"
            className="field-suggestion"
            onClick={() => {
              draft.giveUp();
              onChange(offered.value);
            }}
          >
            Use <b>{offered.text}</b>
            {offered.why !== undefined && <>: {offered.why}</>}
          </button>
        )
      }
    >
      <span className={props.typical === true ? 'field-typical' : undefined} style={{ display: 'contents' }}>
        <input
          id={id}
          value={draft.text}
          onChange={(event) => draft.type(event.target.value)}
          onBlur={draft.commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              draft.commit();
              if (parse(draft.text).ok) onEnter?.();
            }
            if (event.key === 'Escape' && problem !== null) draft.giveUp();
          }}
          aria-invalid={problem !== null || undefined}
          aria-required={props.emptyMessage === undefined ? undefined : true}
          aria-describedby={describedBy(id, { unit: unit !== undefined, hint: hint !== undefined, problem: problem !== null })}
          placeholder={placeholder}
          disabled={props.disabled ?? false}
          inputMode={props.inputMode ?? 'text'}
          autoComplete={props.autoComplete ?? 'off'}
          autoFocus={props.autoFocus ?? false}
          name={props.name}
          spellCheck={false}
        />
      </span>
      {typed?.ok === true && <span className="field-read-as small">= {props.readAs?.(typed.value)}</span>}
      {within}
    </FieldShell>
  );
}
