import { useState } from 'react';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { PassphraseField } from './PassphraseField.tsx';

interface PassphraseDialogProps {
  /** What was wrong with the last try. */
  readonly problem: string | null;
  readonly busy: boolean;
  readonly onClose: () => void;
  readonly onType: (passphrase: string) => void;
}

/** Asks for the passphrase a copy was locked with. */
export function PassphraseDialog({ problem, busy, onClose, onType }: PassphraseDialogProps) {
  const [typed, setTyped] = useState('');
  const go = (): void => {
    if (typed !== '' && !busy) onType(typed);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="This copy is locked"
      actions={
        <>
          <TextButton onPress={onClose}>Go back</TextButton>
          <TextButton kind="outlined" disabled={busy || typed === ''} onPress={go}>
            {busy ? 'Opening…' : 'Open it'}
          </TextButton>
        </>
      }
    >
      <PassphraseField label="Its passphrase" value={typed} onChange={setTyped} problem={problem} autoFocus onEnter={go} />
      <p className="small">A copy keeps the passphrase it was made with, also when newer copies have another.</p>
    </Dialog>
  );
}
