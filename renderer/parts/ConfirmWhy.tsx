import { useState } from 'react';
import { Dialog } from './Dialog.tsx';
import { TextButton } from './TextButton.tsx';
import { TextField } from './TextField.tsx';

interface ConfirmWhyProps {
  readonly open: boolean;
  /** What holds it: `Moisture test missing for the hall`. */
  readonly hold: string;
  /** What the rule is for. */
  readonly because: string;
  readonly source?: string;
  /** The button that overrides it: `Override hold`. */
  readonly goOnWord: string;
  /** Called with the reason, never empty. */
  readonly onGoOn: (why: string) => void;
  readonly onBack: () => void;
}

/** Minimum length of a reason, as in the record. */
const LEAST_LETTERS = 10;

/** Overriding a hold, with a reason that stays on the record. */
export function ConfirmWhy({ open, hold, because, source, goOnWord, onGoOn, onBack }: ConfirmWhyProps) {
  const [why, setWhy] = useState('');
  const [asked, setAsked] = useState(false);
  const reason = why.trim();
  const missing = reason.length < LEAST_LETTERS;
  return (
    <Dialog
      open={open}
      onClose={onBack}
      firm
      title={hold}
      actions={
        <>
          <TextButton
            kind="outlined"
            onPress={() => {
              if (missing) setAsked(true);
              else onGoOn(reason);
            }}
          >
            {goOnWord}
          </TextButton>
          <TextButton onPress={onBack}>Cancel</TextButton>
        </>
      }
    >
      <p>
        {because}
        {source !== undefined && <cite> {source}</cite>}
      </p>
      <TextField
        label="Reason"
        long
        value={why}
        onChange={setWhy}
        hint="Saved with your initials and the time, and printed in the job record."
        problem={!asked || !missing ? null : reason === '' ? 'Enter a reason.' : 'Enter a full sentence.'}
      />
    </Dialog>
  );
}
