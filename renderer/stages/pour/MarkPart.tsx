import { useState } from 'react';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { MarkedState } from '../../../shared-core/book/pour-record.ts';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';

const STATES: readonly { readonly value: MarkedState; readonly word: string }[] = [
  { value: 'suspect', word: 'suspect' },
  { value: 'not-placed', word: 'not placed' },
  { value: 'taken-out', word: 'removed' },
  { value: 'placed', word: 'placed or repaired' },
];

export interface MarkDraft {
  readonly state: MarkedState;
  readonly by: string;
  readonly why: string;
}

interface MarkProps {
  /** Corners pointed on the plan so far; null while no area is being marked. */
  readonly corners: readonly Point[] | null;
  readonly onBegin: () => void;
  readonly onCancel: () => void;
  readonly onSave: (draft: MarkDraft) => void;
  /** Initials used last. */
  readonly initials: string;
}

/** Marks an area of the poured floor: its corners are tapped on the plan, with who says so and why. */
export function MarkPart({ corners, onBegin, onCancel, onSave, initials }: MarkProps) {
  const [state, setState] = useState<MarkedState>('suspect');
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
    return onSave({ state, by: by.trim(), why: why.trim() });
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
      <SelectField label="Area is" value={state} options={STATES} onChange={(to) => to !== null && setState(to)} />
      <TextField label="Reason" value={why} onChange={setWhy} />
      <TextField label="Initials" value={by} onChange={setBy} />
      {problem !== null && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
      <p className="pour-joint-words">
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
