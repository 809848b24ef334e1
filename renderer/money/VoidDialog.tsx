import { useState } from 'react';
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import { voidEntry } from '../book/ledger-commands.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { Notice } from '../parts/Notice.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';

/** Voids an entry with a reason. */
export function VoidDialog({ entry, onClose }: { readonly entry: LedgerEntry; readonly onClose: () => void }) {
  const [reason, setReason] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const save = async (): Promise<void> => {
    if (reason.trim() === '') return setProblem('Enter the reason. It stays with the entry.');
    const voided = await voidEntry(entry, reason.trim());
    if (voided.ok) onClose();
    else setProblem(voided.message);
  };
  return (
    <Dialog
      open
      firm
      onClose={onClose}
      title={entry.kind === 'invoice' ? `Void invoice ${entry.number}` : 'Void this entry'}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton kind="outlined" onPress={() => void save()}>
            Void
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <p>It stays on the record and no longer counts. An invoice keeps its number.</p>
      <TextField label="Reason" value={reason} onChange={setReason} autoFocus />
    </Dialog>
  );
}
