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
  /** What is being chosen. Read aloud, and shown as an italic caption with `captioned`. */
  readonly label: string;
  readonly captioned?: boolean;
  readonly options: readonly ChoiceOption<T>[];
  /** Null while nothing is chosen. */
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  /** A sentence under the line: why the choice can't stand. */
  readonly problem?: string | null;
}

/** A choice of a few words on a line; the pointer stands under the one that is set. */
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
                <span className="choice-row-word">{option.word}</span>
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
