import { useState } from 'react';
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import { voidEntry } from '../book/ledger-commands.ts';
import { TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

export function VoidDialog({ entry, onClose }: { readonly entry: LedgerEntry; readonly onClose: () => void }) {
  const [reason, setReason] = useState('');
  const save = async () => (reason.trim() === '' ? 'Enter the reason. It stays with the entry.' : await voidEntry(entry, reason.trim()));
  return (
    <SaveDialog
      firm
      title={entry.kind === 'invoice' ? `Void invoice ${entry.number}` : 'Void this entry'}
      saveWord="Void"
      save={save}
      onClose={onClose}
    >
      <p>It stays on the record and no longer counts. An invoice keeps its number.</p>
      <TextField label="Reason" value={reason} onChange={setReason} autoFocus />
    </SaveDialog>
  );
}
