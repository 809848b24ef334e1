import type { ReactNode } from 'react';
import { Label, Radio, RadioGroup } from 'react-aria-components';
import { Pointer } from './Pointer.tsx';
import './ChoiceRow.css';

export interface ChoiceOption<T extends string> {
  readonly value: T;
  readonly word: ReactNode;
  readonly disabled?: boolean;
}

interface ChoiceRowProps<T extends string> {
  /** The name of the choice, for screen readers; also a visible caption with `captioned`. */
  readonly label: string;
  readonly captioned?: boolean;
  readonly options: readonly ChoiceOption<T>[];
  /** Null when nothing is chosen. */
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  /** Why the choice is not valid. */
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
        const option = options.find((o) => o.value === picked);
        if (option !== undefined) onChange(option.value);
      }}
      {...(captioned ? {} : { 'aria-label': label })}
    >
      {captioned && <Label className="caption">{label}</Label>}
      <div className="choice-row-line">
        {options.map((option) => (
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
      {problem !== null && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </RadioGroup>
  );
}
