import { useState } from 'react';
import { Dialog } from './Dialog.tsx';
import { TextButton } from './TextButton.tsx';
import { TextField } from './TextField.tsx';

interface ConfirmWhyProps {
  readonly open: boolean;
  /** What holds it: `Moisture test missing for the hall`. */
  readonly hold: string;
  /** What the rule is for and where it stands. */
  readonly because: string;
  readonly source?: string;
  /** The word of the button that goes past it: `Pour all the same`. */
  readonly goOnWord: string;
  /** The reason as written, never empty. */
  readonly onGoOn: (why: string) => void;
  readonly onBack: () => void;
}

/** A reason shorter than this tells nobody anything; the record refuses it too. */
const LEAST_LETTERS = 10;

/** Going on past a hold: one writes why, and it stays with the record. */
export function ConfirmWhy({ open, hold, because, source, goOnWord, onGoOn, onBack }: ConfirmWhyProps) {
  const [why, setWhy] = useState('');
  const [asked, setAsked] = useState(false);
  const said = why.trim();
  const missing = said.length < LEAST_LETTERS;
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
              else onGoOn(said);
            }}
          >
            {goOnWord}
          </TextButton>
          <TextButton onPress={onBack}>Go back</TextButton>
        </>
      }
    >
      <p>
        {because}
        {source !== undefined && <cite> {source}</cite>}
      </p>
      <TextField
        label="Why go on"
        long
        value={why}
        onChange={setWhy}
        hint="It is kept with your name and the time, and stands in the job’s papers."
        problem={
          !asked || !missing ? null : said === '' ? 'Write why: one sentence is enough.' : 'Write a whole sentence: it is read long after.'
        }
      />
    </Dialog>
  );
}
