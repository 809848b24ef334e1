import { useState } from 'react';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { copyHolds, type OpenedCopy, restoreCopy } from './open-copy.ts';

interface CopyDialogProps {
  readonly copy: OpenedCopy;
  /** When it was made, in words. */
  readonly made: string;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

/** What a copy holds, and what can be done with it. */
export function CopyDialog({ copy, made, onClose, onSay }: CopyDialogProps) {
  const [busy, setBusy] = useState(false);
  const restore = async (): Promise<void> => {
    setBusy(true);
    const outcome = await restoreCopy(copy);
    onClose();
    if (!outcome.ok) onSay(false, outcome.message);
    else {
      const lost = outcome.value === 0 ? '' : ` ${outcome.value === 1 ? 'One photo' : `${outcome.value} photos`} of it could not be read.`;
      onSay(true, `The book of ${made} is back.${lost} The one before it stands among the copies.`);
    }
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="Put this copy in place of the book?"
      firm
      actions={
        <>
          <TextButton disabled={busy} onPress={onClose}>
            Go back
          </TextButton>
          <TextButton kind="outlined" disabled={busy} onPress={() => void restore()}>
            {busy ? 'Restoring…' : 'Restore it'}
          </TextButton>
        </>
      }
    >
      <p>
        Made {made}: {copyHolds(copy)}.
      </p>
      <p>The present book is copied first. Undo does not reach back past a restore; that copy does.</p>
    </Dialog>
  );
}
