import { useState } from 'react';
import { passphraseSchema } from '../../shared-core/desk/snapshot-calls.ts';
import { keepLock } from '../book/copy-lock.ts';
import { CheckRow } from '../parts/CheckRow.tsx';
import { askDesk } from '../parts/desk-client.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';
import { PassphraseField } from './PassphraseField.tsx';

interface LockPartProps {
  readonly locked: boolean;
  readonly onSay: (good: boolean, words: string) => void;
}

/** Whether new copies are locked with a passphrase. */
export function LockPart({ locked, onSay }: LockPartProps) {
  const [choosing, setChoosing] = useState(false);
  return (
    <BlockPart heading="Who can read them">
      <div className="backup-part">
        <p className="backup-state">
          <StateShape state={locked ? 'done' : 'waiting'} sizePx={14} />
          {locked ? 'New copies open with your passphrase alone.' : 'Whoever has the folder can read the copies.'}
        </p>
        <p className="backup-words">
          <TextButton onPress={() => setChoosing(true)}>{locked ? 'Another passphrase' : 'Lock them with a passphrase'}</TextButton>
          {locked && (
            <TextButton
              kind="plain"
              onPress={() =>
                void keepLock(null).then(() => onSay(true, 'New copies are open. Those locked before still need their passphrase.'))
              }
            >
              Leave new copies open
            </TextButton>
          )}
        </p>
      </div>
      {choosing && <LockDialog onClose={() => setChoosing(false)} onSay={onSay} />}
    </BlockPart>
  );
}

function LockDialog({ onClose, onSay }: { readonly onClose: () => void; readonly onSay: LockPartProps['onSay'] }) {
  const [typed, setTyped] = useState('');
  const [again, setAgain] = useState('');
  const [known, setKnown] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const lock = async (): Promise<void> => {
    const read = passphraseSchema.safeParse(typed);
    if (!read.success) return setProblem(read.error.issues[0]?.message ?? null);
    if (typed !== again) return setProblem('The two are not the same. Type the passphrase again in both.');
    setBusy(true);
    const made = await askDesk('snapshot.lock', { passphrase: typed });
    setBusy(false);
    if (!made.ok) return setProblem(made.error.message);
    await keepLock(made.value);
    onSay(true, 'Copies are locked from the next one on. Those made before stay as they are; copy the book now to have a locked one.');
    onClose();
  };
  return (
    <Dialog
      open
      firm
      onClose={onClose}
      title="Lock copies with a passphrase"
      actions={
        <>
          <TextButton onPress={onClose}>Go back</TextButton>
          <TextButton kind="outlined" disabled={busy || !known || typed === ''} onPress={() => void lock()}>
            {busy ? 'Making the lock…' : 'Lock them'}
          </TextButton>
        </>
      }
    >
      <p>
        A forgotten passphrase is gone: nobody can open the copies without it, and neither can this program. Write it down and keep it away
        from this computer.
      </p>
      <PassphraseField
        label="Passphrase"
        isNew
        value={typed}
        onChange={setTyped}
        problem={problem}
        hint="10 characters or more; four words that do not belong together are good."
        autoFocus
      />
      <PassphraseField label="The same again" isNew value={again} onChange={setAgain} />
      <CheckRow label="I have written it down" checked={known} onChange={setKnown} />
      <p className="small">This computer keeps what it needs to lock by itself, so its own disk should be locked by its own password.</p>
    </Dialog>
  );
}
