import { useEffect, useEffectEvent, useState } from 'react';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { useIsEncrypted } from '../book/backup-key.ts';
import { useBackupState } from '../book/backup-commands.ts';
import { useDataProblems } from '../book/use-data-problems.ts';
import { useBusiness } from '../book/use-records.ts';
import { ActionButton } from '../parts/Buttons.tsx';
import { askDesk } from '../desk/desk-client.ts';
import { named } from '../desk/working.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { Notice, ResultNotice, Dialog } from '../parts/Dialog.tsx';
import { Sheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { BackupsPart } from './BackupsPart.tsx';
import { BackupDialog } from './BackupDialog.tsx';
import { FolderPart } from './FolderPart.tsx';
import { makeBackup } from './make-backup.ts';
import { EncryptionPart } from './EncryptionPart.tsx';
import { ExportPart } from './ExportPart.tsx';
import { ProblemsPart } from './ProblemsPart.tsx';
import { type BackupSource, listBackups, openBackupFrom, type OpenedBackup, uploadFile } from './open-backup.ts';
import { PassphraseField } from './PassphraseField.tsx';
import './backup.css';

type Message = { readonly ok: boolean; readonly text: string };
/** The backup that waits for its passphrase. */
type Asking = { readonly from: BackupSource; readonly file: string | null; readonly problem: string | null };

export function BackupScreen() {
  const business = useBusiness();
  const state = useBackupState();
  const encrypted = useIsEncrypted();
  const [changes, setChanges] = useState(0);
  const [listed, setListed] = useState<Gives<'backup.list'> | null>(null);
  const [opened, setOpened] = useState<OpenedBackup | null>(null);
  const [asking, setAsking] = useState<Asking | null>(null);
  const [busy, setBusy] = useState(false);
  const [message, setMessage] = useState<Message | null>(null);
  const moment = state?.instant ?? null;
  const problems = useDataProblems(`${moment} ${changes}`, 0);
  useEffect(() => {
    let isUnmounted = false;
    void listBackups().then((answer) => {
      if (isUnmounted) return;
      if (answer.ok) setListed(answer.value);
      else setMessage({ ok: false, text: answer.error.message });
    });
    return () => {
      isUnmounted = true;
    };
  }, [moment, changes]);
  const say = (ok: boolean, text: string): void => {
    setMessage({ ok, text });
    setChanges((n) => n + 1);
  };
  const working = async <T,>(work: () => Promise<T>): Promise<T> => {
    setBusy(true);
    try {
      return await work();
    } finally {
      setBusy(false);
    }
  };
  const backUp = async (): Promise<void> => {
    const saved = await working(() => makeBackup('manual'));
    if (saved.ok) say(true, saved.value);
    else say(false, saved.message);
  };
  /** @param file the name of a chosen file, for a refusal */
  const open = async (from: BackupSource, passphrase: string | null, file: string | null = null): Promise<void> => {
    setMessage(null);
    const answer = await working(() => openBackupFrom(from, passphrase));
    if (answer.ok) {
      setAsking(null);
      setOpened(answer.value);
    } else if (answer.error.code === 'encrypted' || answer.error.code === 'wrong-passphrase')
      setAsking({ from, file, problem: answer.error.code === 'encrypted' ? null : answer.error.message });
    else {
      setAsking(null);
      say(false, file === null ? answer.error.message : `${file} was not opened. ${answer.error.message}`);
    }
  };
  const openFile = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    try {
      const sent = await working(() => named(`Reading ${file.name}…`, uploadFile(file)));
      if (sent.ok) await open(sent.value, null, file.name);
      else say(false, sent.error.message);
    } catch {
      say(false, `${file.name} could not be read. Copy it to this computer first, then open it again.`);
    }
  };
  const takeHanded = useEffectEvent(async (): Promise<void> => {
    const handed = await askDesk('backup.handed', {});
    if (!handed.ok) say(false, handed.error.message);
    else if (handed.value.uploaded !== null) await open({ uploaded: handed.value.uploaded }, null);
  });
  const isRead = business !== undefined && state !== undefined && encrypted !== undefined;
  useEffect(() => {
    if (!isRead) return undefined;
    const take = (): void => void takeHanded();
    take();
    window.addEventListener('straightedge-handed', take);
    return () => window.removeEventListener('straightedge-handed', take);
  }, [isRead]);
  if (business === undefined || state === undefined || encrypted === undefined) return <p className="app-opening caption">Loading…</p>;
  const { timeZone, locale } = business;
  // What is wrong with the folder is also why the last backup failed.
  const trouble = listed?.problem ?? state.failed;
  const when = (instant: string): string => formatInstant(instant, timeZone, 'field', locale);
  return (
    <Sheet
      page={null}
      who={{ name: business.name === '' ? 'Your company' : business.name, where: business.address.city }}
      block={
        <>
          <FolderPart listed={listed} onSay={say} />
          <EncryptionPart encrypted={encrypted} onSay={say} />
          <BlockPart heading="Open a backup file">
            <DropZone
              label="Backup file"
              chooseWord="Choose file…"
              accept={['.zip', '.encrypted']}
              onFiles={(files) => void openFile(files[0])}
              refuse={(name) => `${name} is not a backup. Backup files end in .zip or .encrypted.`}
              hint="Your data does not change until you restore or import."
            />
          </BlockPart>
        </>
      }
      foot={<p className="speech">{moment === null ? 'No backup yet.' : `Last backup: ${when(moment)}`}</p>}
      action={
        <ActionButton busy={busy} onPress={() => void backUp()}>
          Back up now
        </ActionButton>
      }
    >
      <SheetHeading under="Your data is only on this computer. Keep a backup on another disk.">Backup</SheetHeading>
      {trouble !== null && <Notice kind="failure">{state.failed === null ? trouble : `The last backup failed. ${trouble}`}</Notice>}
      {message !== null && message.text !== state.failed && message.text !== trouble && (
        <ResultNotice message={message} onClose={setMessage} />
      )}
      <BackupsPart listed={listed} when={when} onOpen={(name) => void open({ name }, null)} onSay={say} />
      <ExportPart onSay={say} />
      <ProblemsPart problems={problems} onSay={say} />
      {asking !== null && (
        <PassphraseDialog
          problem={asking.problem}
          busy={busy}
          onClose={() => setAsking(null)}
          onEnter={(passphrase) => void open(asking.from, passphrase, asking.file)}
        />
      )}
      {opened !== null && <BackupDialog backup={opened} onClose={() => setOpened(null)} onSay={say} />}
    </Sheet>
  );
}

interface PassphraseDialogProps {
  /** The error of the last try. */
  readonly problem: string | null;
  readonly busy: boolean;
  readonly onClose: () => void;
  readonly onEnter: (passphrase: string) => void;
}

function PassphraseDialog({ problem, busy, onClose, onEnter }: PassphraseDialogProps) {
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
