import { useState } from 'react';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { TextField } from '../../parts/Fields.tsx';

interface ResumeProps {
  readonly initials: string;
  readonly onResume: (correction: { readonly by: string; readonly why: string }) => void;
  readonly onClose: () => void;
}

/** Asks who resumes a finished pour and why, for the log. */
export function ResumeDialog({ initials, onResume, onClose }: ResumeProps) {
  const [by, setBy] = useState(initials);
  const [why, setWhy] = useState('');
  const isReady = by.trim() !== '' && why.trim() !== '';
  return (
    <Dialog
      title="Resume pour"
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <ActionButton
            held={isReady ? null : 'Enter your initials and a reason.'}
            onPress={() => isReady && onResume({ by: by.trim(), why: why.trim() })}
          >
            Resume pour
          </ActionButton>
        </>
      }
    >
      <p className="small">Use this if the pour was finished by mistake. The log keeps both entries.</p>
      <TextField label="Reason" value={why} onChange={setWhy} autoFocus />
      <TextField label="Initials" value={by} onChange={setBy} />
    </Dialog>
  );
}
