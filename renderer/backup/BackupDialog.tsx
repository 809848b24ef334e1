import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { useIsEncrypted } from '../book/backup-key.ts';
import { useBusiness } from '../book/use-records.ts';
import { Dialog, Notice } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { ImportDialog } from './ImportDialog.tsx';
import { backupContents, lookIntoBackup, lostPhotos, type OpenedBackup, photosMissingWords, restoreBackup } from './open-backup.ts';

interface BackupDialogProps {
  readonly backup: OpenedBackup;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

/** Shows what a backup has, and opens it read-only, imports from it or restores it. */
export function BackupDialog({ backup, onClose, onSay }: BackupDialogProps) {
  const [step, setStep] = useState<'choose' | 'restore' | 'import'>('choose');
  const [busy, setBusy] = useState(false);
  const business = useBusiness();
  const [, go] = useLocation();
  if (business === undefined) return null;
  const madeText = formatInstant(backup.madeAt, business.timeZone, 'field', business.locale);
  const contents = backupContents(backup, business.locale);
  const look = async (): Promise<void> => {
    setBusy(true);
    const opened = await lookIntoBackup(backup);
    if (opened.ok) return go('/');
    onClose();
    onSay(false, opened.message);
  };
  if (step === 'import') return <ImportDialog backup={backup} madeText={madeText} onClose={onClose} onSay={onSay} />;
  if (step === 'restore') return <RestoreDialog backup={backup} madeText={madeText} contents={contents} onClose={onClose} onSay={onSay} />;
  return (
    <Dialog onClose={onClose} title={`Backup of ${madeText}`} actions={<TextButton onPress={onClose}>Cancel</TextButton>}>
      <p>
        {backup.photosMissing === 0 ? 'This backup is complete.' : 'All records of this backup are complete.'} It has {contents}.
      </p>
      <PhotosMissing backup={backup} />
      <ul className="stack below backup-actions">
        <li>
          <TextButton kind="outlined" disabled={busy} onPress={() => void look()}>
            {busy ? 'Opening…' : 'Open read-only'}
          </TextButton>
          <span className="small">See every screen as it was. You cannot make changes.</span>
        </li>
        <li>
          <TextButton kind="outlined" disabled={busy} onPress={() => setStep('import')}>
            Import from backup…
          </TextButton>
          <span className="small">Add the customers and jobs you choose to your data.</span>
        </li>
        <li>
          <TextButton kind="outlined" disabled={busy} onPress={() => setStep('restore')}>
            Restore this backup…
          </TextButton>
          <span className="small">Replace all of your data. It is backed up first.</span>
        </li>
      </ul>
    </Dialog>
  );
}

function PhotosMissing({ backup }: Pick<BackupDialogProps, 'backup'>) {
  const words = photosMissingWords(backup);
  return words === '' ? null : <Notice kind="failure">{words}</Notice>;
}

interface RestoreDialogProps extends BackupDialogProps {
  readonly madeText: string;
  readonly contents: string;
}

/** Confirms a restore, shows its progress, and cancels it. */
function RestoreDialog({ backup, madeText, contents, onClose, onSay }: RestoreDialogProps) {
  const [share, setShare] = useState<number | null>(null);
  const encrypted = useIsEncrypted();
  const isCanceled = useRef(false);
  const isBusy = share !== null;
  const restore = async (): Promise<void> => {
    setShare(0);
    const outcome = await restoreBackup(backup, { onProgress: setShare, isCanceled: () => isCanceled.current });
    onClose();
    if (!outcome.ok) return onSay(false, outcome.message);
    const sentences = [
      `The backup of ${madeText} was restored.`,
      lostPhotos(outcome.value),
      'Your earlier data is in the list of backups.',
      backup.isEncrypted && encrypted === false ? 'New backups on this computer are not encrypted. Set a passphrase here too.' : '',
    ];
    onSay(true, sentences.filter((sentence) => sentence !== '').join(' '));
  };
  const cancel = (): void => {
    isCanceled.current = true;
    if (!isBusy) onClose();
  };
  return (
    <Dialog
      firm
      onClose={cancel}
      title="Restore this backup?"
      onSave={() => void restore()}
      saveWord={isBusy ? 'Restoring…' : 'Restore'}
      blocked={isBusy}
    >
      <p>
        Backup of {madeText}: {contents}.
      </p>
      <PhotosMissing backup={backup} />
      <p>Your data is backed up first. Undo cannot reverse a restore. To get your earlier data, restore that backup.</p>
      {isBusy && (
        <>
          <progress className="backup-progress" max={1} value={share} aria-label="Restore progress" />
          <p className="small" role="status">
            {share === 0 ? 'Backing up your data…' : `${Math.floor(share * 100)}% restored`}
          </p>
        </>
      )}
    </Dialog>
  );
}
