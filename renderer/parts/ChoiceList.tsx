import type { ReactNode } from 'react';
import { Radio, RadioGroup } from 'react-aria-components';
import { Pointer } from './Pointer.tsx';
import './ChoiceList.css';

export interface StoodOption {
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
