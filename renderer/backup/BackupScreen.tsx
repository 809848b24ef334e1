import { useEffect, useEffectEvent, useState } from 'react';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { useIsLocked } from '../book/copy-lock.ts';
import { useCopyState } from '../book/snapshot-commands.ts';
import { useOddities } from '../book/use-oddities.ts';
import { useBusiness } from '../book/use-records.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { askDesk } from '../parts/desk-client.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { CopiesPart } from './CopiesPart.tsx';
import { CopyDialog } from './CopyDialog.tsx';
import { FolderPart } from './FolderPart.tsx';
import { keepCopy } from './keep-copy.ts';
import { LockPart } from './LockPart.tsx';
import { OutPart } from './OutPart.tsx';
import { OddPart } from './OddPart.tsx';
import { type CopySource, lookInto, type OpenedCopy, sendFile } from './open-copy.ts';
import { PassphraseDialog } from './PassphraseDialog.tsx';
import './backup.css';

type Said = { readonly good: boolean; readonly words: string };
/** A copy that asks for its passphrase. */
type Asking = { readonly from: CopySource; readonly problem: string | null };

/** The copies of the book: where they are, who can read them, looking into one and taking it back; and what is odd in the book. */
export function BackupScreen() {
  const business = useBusiness();
  const state = useCopyState();
  const locked = useIsLocked();
  const [told, setTold] = useState(0);
  const [listed, setListed] = useState<Gives<'snapshot.list'> | null>(null);
  const [copy, setCopy] = useState<OpenedCopy | null>(null);
  const [asking, setAsking] = useState<Asking | null>(null);
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<Said | null>(null);
  const at = state?.at ?? null;
  const odd = useOddities(`${at} ${told}`, 0);
  useEffect(() => {
    let gone = false;
    void askDesk('snapshot.list', {}).then((answer) => {
      if (gone) return;
      if (answer.ok) setListed(answer.value);
      else setSaid({ good: false, words: answer.error.message });
    });
    return () => {
      gone = true;
    };
  }, [at, told]);
  const say = (good: boolean, words: string): void => {
    setSaid({ good, words });
    setTold((n) => n + 1);
  };
  const working = async <T,>(work: () => Promise<T>): Promise<T> => {
    setBusy(true);
    try {
      return await work();
    } finally {
      setBusy(false);
    }
  };
  const copyNow = async (): Promise<void> => {
    const kept = await working(() => keepCopy('asked'));
    if (kept.ok) say(true, kept.value);
    else say(false, kept.message);
  };
  const look = async (from: CopySource, passphrase: string | null): Promise<void> => {
    const answer = await working(() => lookInto(from, passphrase));
    if (answer.ok) {
      setAsking(null);
      setCopy(answer.value);
    } else if (answer.error.code === 'locked' || answer.error.code === 'wrong-passphrase')
      setAsking({ from, problem: answer.error.code === 'locked' ? null : answer.error.message });
    else {
      setAsking(null);
      say(false, answer.error.message);
    }
  };
  const openFile = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    try {
      const sent = await working(() => sendFile(file));
      if (sent.ok) await look(sent.value, null);
      else say(false, sent.error.message);
    } catch {
      say(false, `${file.name} cannot be read from the disk. Copy it to this computer first, then open it again.`);
    }
  };
  const takeHanded = useEffectEvent(async (): Promise<void> => {
    const handed = await askDesk('snapshot.handed', {});
    if (!handed.ok) say(false, handed.error.message);
    else if (handed.value.arrived !== null) await look({ arrived: handed.value.arrived }, null);
  });
  const isRead = business !== undefined && state !== undefined && locked !== undefined;
  useEffect(() => {
    if (!isRead) return undefined;
    const take = (): void => void takeHanded();
    take();
    window.addEventListener('straightedge-handed', take);
    return () => window.removeEventListener('straightedge-handed', take);
  }, [isRead]);
  if (business === undefined || state === undefined || locked === undefined)
    return <p className="app-opening caption">Reading the book…</p>;
  const { timeZone, locale } = business;
  const when = (instant: string): string => formatInstant(instant, timeZone, 'weekday', locale);
  return (
    <Sheet
      page={null}
      who={{ name: business.name === '' ? 'Your business' : business.name, where: business.address.city }}
      block={
        <>
          <FolderPart listed={listed} onSay={say} />
          <LockPart locked={locked} onSay={say} />
          <BlockPart heading="From a file">
            <DropZone
              label="A copy of the book"
              chooseWord="Choose a copy"
              accept={['.zip', '.locked']}
              onFiles={(files) => void openFile(files[0])}
              refuse={(name) => `${name} is not a copy of the book: those end in .zip or .locked.`}
              hint="Nothing changes before you say so."
            />
          </BlockPart>
        </>
      }
      foot={<p className="speech">{at === null ? 'The book has not been copied yet.' : `Last copied ${when(at)}.`}</p>}
      action={
        <ActionButton busy={busy} onPress={() => void copyNow()}>
          Copy the book now
        </ActionButton>
      }
    >
      <SheetHeading under="The book stands on this computer alone until a copy of it stands elsewhere.">Copies of the book</SheetHeading>
      {state.failed !== null && <Notice kind="failure">The last copy failed. {state.failed}</Notice>}
      {said !== null && said.words !== state.failed && (
        <Notice kind={said.good ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.words}
        </Notice>
      )}
      <CopiesPart listed={listed} when={when} locked={locked} onLook={(name) => void look({ name }, null)} onSay={say} />
      <OutPart onSay={say} />
      <OddPart odd={odd} onSay={say} />
      {asking !== null && (
        <PassphraseDialog
          problem={asking.problem}
          busy={busy}
          onClose={() => setAsking(null)}
          onType={(passphrase) => void look(asking.from, passphrase)}
        />
      )}
      {copy !== null && <CopyDialog copy={copy} onClose={() => setCopy(null)} onSay={say} />}
    </Sheet>
  );
}
