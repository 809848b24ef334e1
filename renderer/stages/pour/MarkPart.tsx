import { useState } from 'react';
import type { Point } from '../../../shared-core/book/fields.ts';
import { type Defect, defectSchema, type MarkedState } from '../../../shared-core/book/pour-record.ts';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { ReasonFields } from './ReasonFields.tsx';

type Choice = MarkedState | Defect;

const CHOICES: Readonly<Record<Choice, string>> = {
  suspect: 'suspect',
  pinholes: 'pinholes',
  ridge: 'ridge',
  hollow: 'hollow spot',
  'low-spot': 'low spot',
  'not-placed': 'not placed',
  'taken-out': 'removed',
  placed: 'placed or repaired',
};

const isDefect = (choice: Choice): choice is Defect => defectSchema.safeParse(choice).success;

export interface MarkDraft {
  readonly state: MarkedState;
  readonly defect?: Defect;
  readonly by: string;
  readonly why: string;
}

interface MarkProps {
  /** Corners tapped so far; null while no area is being marked. */
  readonly corners: readonly Point[] | null;
  readonly onBegin: () => void;
  readonly onCancel: () => void;
  readonly onSave: (draft: MarkDraft) => void;
  /** The initials used last. */
  readonly initials: string;
}

/** Marks an area of the placed floor: corners tapped on the plan, with a reason and initials. */
export function MarkPart({ corners, onBegin, onCancel, onSave, initials }: MarkProps) {
  const [state, setState] = useState<Choice>('suspect');
  const [why, setWhy] = useState('');
  const [by, setBy] = useState(initials);
  const [problem, setProblem] = useState<string | null>(null);
  if (corners === null)
    return (
      <BlockPart heading="Correct the floor">
        <TextButton kind="plain" onPress={onBegin}>
          Mark an area
        </TextButton>
      </BlockPart>
    );
  const save = (): void => {
    if (corners.length < 3) return setProblem('Tap at least three corners on the plan.');
    if (by.trim() === '') return setProblem('Enter your initials.');
    if (why.trim() === '') return setProblem('Enter a reason.');
    setProblem(null);
    setWhy('');
    const reason = { by: by.trim(), why: why.trim() };
    return onSave(isDefect(state) ? { state: 'suspect', defect: state, ...reason } : { state, ...reason });
  };
  return (
    <BlockPart heading="Correct the floor">
      <p className="small">
        {corners.length === 0
          ? 'Tap the corners of the area on the plan.'
          : corners.length === 1
            ? '1 corner set.'
            : `${corners.length} corners set.`}
      </p>
      <SelectField label="Condition" value={state} options={CHOICES} onChange={setState} />
      <ReasonFields why={why} onWhy={setWhy} by={by} onBy={setBy} problem={problem} />
      <p className="words">
        <TextButton kind="outlined" onPress={save}>
          Save
        </TextButton>
        <TextButton kind="plain" onPress={onCancel}>
          Cancel
        </TextButton>
      </p>
    </BlockPart>
  );
}
