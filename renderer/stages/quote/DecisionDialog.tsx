import { useState } from 'react';
import type { QuoteAnswer } from '../../../shared-core/price/quote-state.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import type { Outcome } from '../../book/command.ts';
import { SaveDialog } from '../../parts/Dialog.tsx';
import { TextField } from '../../parts/Fields.tsx';

interface DecisionDialogProps {
  readonly options: readonly { readonly value: string; readonly word: string }[];
  readonly suggested: string;
  /** The quote was accepted and is being canceled. */
  readonly isCanceling: boolean;
  readonly by: string;
  readonly onSave: (answer: Omit<QuoteAnswer, 'instant'>) => Promise<Outcome>;
  readonly onClose: () => void;
}

const DECISIONS = { accepted: 'Accepted', declined: 'Declined' };

/** Records the customer's decision, who made it, and the chosen option. */
export function DecisionDialog({ options, suggested, isCanceling, by: first, onSave, onClose }: DecisionDialogProps) {
  const [state, setState] = useState<'accepted' | 'declined'>(isCanceling ? 'declined' : 'accepted');
  const [option, setOption] = useState(suggested);
  const [by, setBy] = useState(first);
  const [note, setNote] = useState('');
  return (
    <SaveDialog
      onClose={onClose}
      title={isCanceling ? 'Contract canceled' : 'Customer decision'}
      save={() => onSave({ state, by, note, optionId: state === 'accepted' ? option : null })}
    >
      {!isCanceling && <ChoiceRow label="Decision" options={DECISIONS} value={state} onChange={setState} />}
      {state === 'accepted' && options.length > 1 && (
        <ChoiceRow label="Option" captioned options={options} value={option} onChange={setOption} />
      )}
      <TextField label="Decided by" value={by} onChange={setBy} />
      <TextField label={state === 'declined' ? 'Reason' : 'Note'} value={note} onChange={setNote} />
    </SaveDialog>
  );
}
