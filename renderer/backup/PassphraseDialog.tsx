import { useState } from 'react';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { PassphraseField } from './PassphraseField.tsx';

interface PassphraseDialogProps {
  /** The error of the last try. */
  readonly problem: string | null;
  readonly busy: boolean;
  readonly onClose: () => void;
  readonly onEnter: (passphrase: string) => void;
}

export function PassphraseDialog({ problem, busy, onClose, onEnter }: PassphraseDialogProps) {
  const [entered, setEntered] = useState('');
  const open = (): void => {
    if (entered !== '' && !busy) onEnter(entered);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="This backup is encrypted"
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton kind="outlined" disabled={busy || entered === ''} onPress={open}>
            {busy ? 'Opening…' : 'Open backup'}
          </TextButton>
        </>
      }
    >
      <PassphraseField label="Passphrase" value={entered} onChange={setEntered} problem={problem} autoFocus onEnter={open} />
      <p className="small">A backup keeps the passphrase it was made with, even if you changed it since.</p>
    </Dialog>
  );
}
