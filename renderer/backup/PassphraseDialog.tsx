import { useState } from 'react';
import { Dialog } from '../parts/Dialog.tsx';
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
      onClose={onClose}
      title="This backup is encrypted"
      onSave={open}
      saveWord={busy ? 'Opening…' : 'Open backup'}
      blocked={busy || entered === ''}
    >
      <PassphraseField label="Passphrase" value={entered} onChange={setEntered} problem={problem} autoFocus onEnter={open} />
      <p className="small">A backup keeps the passphrase it was made with, even if you changed it since.</p>
    </Dialog>
  );
}
