import { type ReactNode, useId, useRef, useState } from 'react';
import { FieldShell, describedBy, FieldProblem } from './Field.tsx';
import { KeyHint } from './Buttons.tsx';
import { Label, Radio, RadioGroup } from 'react-aria-components';
import { Pointer } from './Pointer.tsx';
import './ChoiceRow.css';
import './ChoiceList.css';
import { StateShape } from './StateShape.tsx';
import './CheckRow.css';

interface ChoiceOption<T extends string, W = ReactNode> {
  readonly value: T;
  readonly word: W;
  readonly disabled?: boolean;
}

/** The words of each value in their order, or a list where it is computed. */
type Options<T extends string, W = ReactNode> = readonly ChoiceOption<T, W>[] | Readonly<Record<T, W>>;

const isList = <T extends string, W>(options: Options<T, W>): options is readonly ChoiceOption<T, W>[] => Array.isArray(options);

function listOf<T extends string, W>(options: Options<T, W>): readonly ChoiceOption<T, W>[] {
  return isList(options) ? options : (Object.keys(options) as T[]).map((value) => ({ value, word: options[value] }));
}

type SelectFieldProps<T extends string> = SelectFieldBase<T> &
  (
    | { readonly none?: undefined; readonly onChange: (value: T) => void }
    /** `none` is the words for no choice; choosing them returns null. Without it, a choice is required. */
    | { readonly none: string; readonly onChange: (value: T | null) => void }
  );

interface SelectFieldBase<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly options: Options<T, string>;
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
  const { label, value, none, hint, problem = null, calls = false } = props;
  const options = listOf(props.options);
  const id = useId();
  const byKeys = useRef(false);
  const [passing, setPassing] = useState<T | '' | null>(null);
  const choose = (chosen: T | ''): void => {
    if (chosen !== '') props.onChange(chosen);
    else if (props.none !== undefined) props.onChange(null);
  };
  const take = (): void => {
    setPassing(null);
    if (passing !== null && passing !== (value ?? '')) choose(passing);
  };
  const under = calls && passing !== null && passing !== '' ? <KeyHint keys="Enter" /> : props.under;
  return (
    <FieldShell id={id} label={label} problem={problem} bare={props.bare ?? false} hint={hint} under={under}>
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
          else choose(found);
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

interface ChoiceRowProps<T extends string> {
  /** The name of the choice, for screen readers; also a visible caption with `captioned`. */
  readonly label: string;
  readonly captioned?: boolean;
  readonly options: Options<T>;
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  readonly problem?: string | null;
}

/** A choice among a few words on a line, with the pointer under the chosen one. */
export function ChoiceRow<T extends string>({ label, captioned = false, options, value, onChange, problem = null }: ChoiceRowProps<T>) {
  return (
    <RadioGroup
      className="choice-row"
      orientation="horizontal"
      value={value}
      onChange={(picked) => {
        const option = listOf(options).find((o) => o.value === picked);
        if (option !== undefined) onChange(option.value);
      }}
      {...(captioned ? {} : { 'aria-label': label })}
    >
      {captioned && <Label className="caption">{label}</Label>}
      <div className="choice-row-line">
        {listOf(options).map((option) => (
          <Radio key={option.value} value={option.value} isDisabled={option.disabled ?? false} className="choice-row-option">
            {({ isSelected }) => (
              <>
                <span>{option.word}</span>
                {isSelected && (
                  <span className="choice-row-pointer">
                    <Pointer />
                  </span>
                )}
              </>
            )}
          </Radio>
        ))}
      </div>
      <FieldProblem text={problem} />
    </RadioGroup>
  );
}

interface StoodOption {
  readonly id: string;
  readonly word: ReactNode;
  /** Right-aligned: `14 bags here`. */
  readonly right?: ReactNode;
}

interface ChoiceListProps {
  readonly label: string;
  readonly options: readonly StoodOption[];
  readonly value: string | null;
  readonly onChange: (id: string) => void;
}

/** A vertical list to choose from. The chosen row gets the rule and the pointer. */
export function ChoiceList({ label, options, value, onChange }: ChoiceListProps) {
  return (
    <RadioGroup aria-label={label} value={value} onChange={onChange}>
      {options.map((option) => (
        <Radio key={option.id} value={option.id} className="choice-list-option">
          {({ isSelected }) => (
            <>
              <span className="choice-list-word">{option.word}</span>
              {option.right !== undefined && <span className="choice-list-right">{option.right}</span>}
              {isSelected && (
                <span className="choice-list-pointer">
                  <Pointer />
                </span>
              )}
            </>
          )}
        </Radio>
      ))}
    </RadioGroup>
  );
}

interface CheckRowProps {
  readonly label: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
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
