import { useState } from 'react';
import type { QuoteAnswer } from '../../../shared-core/price/quote-state.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';

interface AnswerDialogProps {
  readonly options: readonly { readonly value: string; readonly word: string }[];
  readonly suggested: string;
  readonly by: string;
  /** Gives why it cannot be kept, or null. */
  readonly onKeep: (answer: Omit<QuoteAnswer, 'at'>) => Promise<string | null>;
  readonly onClose: () => void;
}

const ANSWERS = [
  { value: 'accepted', word: 'Accepted' },
  { value: 'declined', word: 'Declined' },
] as const;

/** What the customer answered, who and which way. */
export function AnswerDialog({ options, suggested, by: first, onKeep, onClose }: AnswerDialogProps) {
  const [state, setState] = useState<'accepted' | 'declined'>('accepted');
  const [option, setOption] = useState(suggested);
  const [by, setBy] = useState(first);
  const [note, setNote] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  return (
    <Dialog
      open
      onClose={onClose}
      title="The customer’s answer"
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton
            kind="outlined"
            onPress={() => void onKeep({ state, by, note, optionId: state === 'accepted' ? option : null }).then(setProblem)}
          >
            Keep the answer
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <ChoiceRow label="The answer" options={ANSWERS} value={state} onChange={setState} />
      {state === 'accepted' && options.length > 1 && (
        <ChoiceRow label="Which way" captioned options={options} value={option} onChange={setOption} />
      )}
      <TextField label="Who" value={by} onChange={setBy} />
      <TextField label="Note" value={note} onChange={setNote} />
    </Dialog>
  );
}
