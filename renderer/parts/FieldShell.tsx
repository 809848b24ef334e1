import type { ReactNode } from 'react';
import { FieldSlashes } from './FieldSlashes.tsx';
import './Field.css';

interface FieldShellProps {
  readonly id: string;
  readonly label: string;
  readonly unit?: ReactNode;
  readonly hint?: ReactNode;
  readonly problem: string | null;
  /** A fact under the field, as its state: what the limit is. */
  readonly under?: ReactNode;
  readonly suggestion?: ReactNode;
  /** The words may be wanted only by a reader aloud, where the column is headed. */
  readonly bare?: boolean;
  readonly children: ReactNode;
}

/** The paper slot of a field: italic caption over it, unit within it, slashes at its foot, its sentence under it. */
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

/** The ids that describe a field, for its `aria-describedby`. */
export function describedBy(
  id: string,
  has: { readonly unit: boolean; readonly hint: boolean; readonly problem: boolean },
): string | undefined {
  const ids = [has.unit ? `${id}-unit` : '', has.problem ? `${id}-problem` : '', has.hint ? `${id}-hint` : ''].filter((s) => s !== '');
  return ids.length === 0 ? undefined : ids.join(' ');
}
