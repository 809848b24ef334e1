import type { ReactNode } from 'react';
import { FieldSlashes } from './FieldSlashes.tsx';
import './Field.css';

interface FieldShellProps {
  readonly id: string;
  readonly label: string;
  readonly unit?: ReactNode;
  readonly hint?: ReactNode;
  readonly problem: string | null;
  /** A fact with its state below the field, such as a limit. */
  readonly under?: ReactNode;
  readonly suggestion?: ReactNode;
  /** Hides the label visually where the column has a heading. */
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
  );
}

/** Ids for the field's `aria-describedby`. */
export function describedBy(
  id: string,
  has: { readonly unit: boolean; readonly hint: boolean; readonly problem: boolean },
): string | undefined {
  const ids = [has.unit ? `${id}-unit` : '', has.problem ? `${id}-problem` : '', has.hint ? `${id}-hint` : ''].filter((s) => s !== '');
  return ids.length === 0 ? undefined : ids.join(' ');
}
