import { useState } from 'react';
import { passphraseSchema } from '../../shared-core/desk/backup-calls.ts';
import { saveBackupKey } from '../book/backup-key.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { askDesk } from '../desk/desk-client.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { PassphraseField } from './PassphraseField.tsx';

interface EncryptionPartProps {
  readonly encrypted: boolean;
  readonly onSay: (good: boolean, words: string) => void;
}

export function EncryptionPart({ encrypted, onSay }: EncryptionPartProps) {
  const [choosing, setChoosing] = useState(false);
  const stop = async (): Promise<void> => {
    const saved = await saveBackupKey(null);
    if (saved.ok) onSay(true, 'New backups are not encrypted. Earlier encrypted backups still need their passphrase.');
    else onSay(false, saved.message);
  };
  return (
    <BlockPart heading="Encryption">
      <div className="stack">
        <p className="backup-state">
          <StateShape state={encrypted ? 'done' : 'waiting'} sizePx={14} />
          {encrypted ? 'New backups are encrypted with your passphrase.' : 'Anyone with access to the folder can read the backups.'}
        </p>
        <p className="words">
          <TextButton onPress={() => setChoosing(true)}>{encrypted ? 'Change passphrase…' : 'Encrypt with a passphrase…'}</TextButton>
          {encrypted && (
            <TextButton kind="plain" onPress={() => void stop()}>
              Stop encrypting
            </TextButton>
          )}
        </p>
      </div>
      {choosing && <EncryptDialog onClose={() => setChoosing(false)} onSay={onSay} />}
    </BlockPart>
  );
}

function EncryptDialog({ onClose, onSay }: { readonly onClose: () => void; readonly onSay: EncryptionPartProps['onSay'] }) {
  const [entered, setEntered] = useState('');
  const [repeated, setRepeated] = useState('');
  const [isWritten, setWritten] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const encrypt = async (): Promise<void> => {
    const read = passphraseSchema.safeParse(entered);
    if (!read.success) return setProblem(read.error.issues[0]?.message ?? null);
    if (entered !== repeated) return setProblem('The passphrases do not match. Enter the same passphrase twice.');
    setBusy(true);
    const answer = await askDesk('backup.make-key', { passphrase: entered });
    setBusy(false);
    if (!answer.ok) return setProblem(answer.error.message);
    const saved = await saveBackupKey(answer.value);
    if (!saved.ok) return setProblem(saved.message);
    onSay(true, 'New backups will be encrypted. Earlier backups stay as they are. Back up now to make an encrypted one.');
    onClose();
  };
  return (
    <Dialog
      firm
      onClose={onClose}
      title="Encrypt backups with a passphrase"
      onSave={() => void encrypt()}
      saveWord={busy ? 'Encrypting…' : 'Encrypt backups'}
      blocked={busy || !isWritten || entered === ''}
    >
      <p>If you forget the passphrase, these backups cannot be opened. Write it down and keep it away from this computer.</p>
      <PassphraseField
        label="Passphrase"
        isNew
        value={entered}
        onChange={setEntered}
        problem={problem}
        hint="At least 10 characters. Four unrelated words work well."
        autoFocus
      />
      <PassphraseField label="Repeat passphrase" isNew value={repeated} onChange={setRepeated} />
      <CheckRow label="I have written it down" checked={isWritten} onChange={setWritten} />
      <p className="small">This computer stores the key so that it can back up by itself. Protect the computer with its own password.</p>
    </Dialog>
  );
}
