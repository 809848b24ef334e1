import { type ReactNode, useId } from 'react';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { useAction } from './form-check.ts';
import { useDraft } from './use-draft.ts';
import './Field.css';

interface Suggestion<T> {
  readonly value: T;
  readonly text: string;
  readonly why?: string;
}

interface FieldBase<T> {
  readonly label: string;
  readonly value: T | null;
  readonly unit?: ReactNode;
  readonly hint?: ReactNode;
  readonly placeholder?: string;
  /** An error from the caller, such as the schema's. The field's own error comes first. */
  readonly problem?: string | null;
  readonly suggestion?: Suggestion<T> | null;
  /** Shows the value in italics, because it is typical and a data sheet or reading should replace it. */
  readonly typical?: boolean;
  readonly disabled?: boolean;
  /** Shown below: a limit with its state. */
  readonly under?: ReactNode;
  /** Hides the label visually; screen readers still read it. */
  readonly bare?: boolean;
  readonly autoFocus?: boolean;
  /** Called on Enter when the text is valid, to go to the next field. */
  readonly onEnter?: () => void;
  /** Takes the value on Enter or when the field is left, not after a pause: for a field that goes away with its value. */
  readonly waits?: boolean;
}

/**
 * Props that all single-line fields take. `onChange` gets the parsed value on blur, on Enter, or after a pause. `emptyMessage` is the
 * error of an empty required field; without it, the field may be emptied and `onChange` gets null.
 */
export type FieldCommon<T> = FieldBase<T> &
  (
    | { readonly emptyMessage: string; readonly onChange: (value: T) => void }
    | { readonly emptyMessage?: undefined; readonly onChange: (value: T | null) => void }
  );

type FieldProps<T> = FieldCommon<T> & {
  readonly parse: (text: string) => Parsed<T>;
  readonly check?: ((value: T) => string | null) | undefined;
  readonly format: (value: T) => string;
  readonly same?: (a: T, b: T) => boolean;
  readonly inputMode?: 'text' | 'decimal' | 'numeric' | 'tel' | 'email' | 'url';
  /** Right-aligned inside the slot, after the unit. `pick` sets the value in place of what was entered. */
  readonly within?: (pick: (value: T | null) => void) => ReactNode;
  /** Shows how the entered text is understood. */
  readonly readAs?: (value: T) => string;
};

/** One value, read by `parse` and shown by `format`. Invalid text stays with an error below it. */
export function Field<T>(props: FieldProps<T>) {
  const { label, value, format, unit, hint, placeholder, suggestion, under, within } = props;
  const onEnter = useAction(true, props.onEnter);
  const id = useId();
  const same = props.same ?? Object.is;
  const parse = (text: string): Parsed<T> => {
    const read = props.parse(text);
    const message = read.ok ? (props.check?.(read.value) ?? null) : null;
    return message === null ? read : { ok: false, message };
  };
  const onChange = (next: T | null): void => {
    if (props.emptyMessage === undefined) props.onChange(next);
    else if (next !== null) props.onChange(next);
  };
  const draft = useDraft<T>({
    value,
    parse,
    format,
    onChange,
    same,
    emptyMessage: props.emptyMessage ?? null,
    waits: props.waits ?? false,
  });
  const pick = (next: T | null): void => {
    draft.giveUp();
    onChange(next);
  };
  const problem = draft.problem ?? props.problem ?? null;
  const typed = props.readAs === undefined || draft.text === (value === null ? '' : format(value)) ? null : parse(draft.text);
  const offered = suggestion !== undefined && suggestion !== null && (value === null || !same(value, suggestion.value)) ? suggestion : null;
  return (
    <FieldShell
      id={id}
      label={label}
      problem={problem}
      bare={props.bare ?? false}
      unit={unit}
      hint={hint}
      under={under}
      suggestion={
        offered !== null && (
          <button type="button" className="field-suggestion" onClick={() => pick(offered.value)}>
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
          autoComplete="off"
          autoFocus={props.autoFocus ?? false}
          spellCheck={false}
        />
      </span>
      {typed?.ok === true && <span className="small">= {props.readAs?.(typed.value)}</span>}
      {within?.(pick)}
    </FieldShell>
  );
}

interface FieldShellProps {
  readonly id: string;
  readonly label: string;
  readonly unit?: ReactNode;
  readonly hint?: ReactNode;
  readonly problem: string | null;
  readonly under?: ReactNode;
  readonly suggestion?: ReactNode;
  readonly bare?: boolean;
  readonly children: ReactNode;
}

/** The frame of a field: italic caption above, unit inside, slashes at the foot, message below. */
export function FieldShell({ id, label, unit, hint, problem, under, suggestion, bare = false, children }: FieldShellProps) {
  return (
    <div className={`field${problem === null ? '' : ' field-wrong'}${bare ? ' field-bare' : ''}`}>
      <label htmlFor={id} className={`caption field-label${bare ? ' hidden-words' : ''}`}>
        {label}
      </label>
      <div>
        <div className="field-slot">
          {children}
          {unit !== undefined && (
            <span className="field-unit" id={`${id}-unit`}>
              {unit}
            </span>
          )}
          <FieldSlashes />
        </div>
        {suggestion}
        {problem !== null && (
          <p className="field-problem" id={`${id}-problem`} role="alert">
            {problem}
          </p>
        )}
        {hint !== undefined && (
          <p className="field-hint" id={`${id}-hint`}>
            {hint}
          </p>
        )}
        {under !== undefined && <div className="field-under">{under}</div>}
      </div>
    </div>
  );
}

export function describedBy(
  id: string,
  has: { readonly unit: boolean; readonly hint: boolean; readonly problem: boolean },
): string | undefined {
  const ids = [has.unit ? `${id}-unit` : '', has.problem ? `${id}-problem` : '', has.hint ? `${id}-hint` : ''].filter((s) => s !== '');
  return ids.length === 0 ? undefined : ids.join(' ');
}

/** The two slashes that mark an entered or measured value. */
export function FieldSlashes() {
  return (
    <>
      <svg className="field-slash field-slash-left" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
        <path d="M1 11L11 1" stroke="var(--ink)" strokeWidth="2" />
      </svg>
      <svg className="field-slash field-slash-right" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
        <path d="M1 11L11 1" stroke="var(--ink)" strokeWidth="2" />
      </svg>
    </>
  );
}

/** Why an entry is not valid, below it. */
export function FieldProblem({ text }: { readonly text: string | null }) {
  return (
    text !== null && (
      <p className="field-problem" role="alert">
        {text}
      </p>
    )
  );
}
