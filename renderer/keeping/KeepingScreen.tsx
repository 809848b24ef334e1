import { useEffect, useState } from 'react';
import type { Oddity } from '../../shared-core/book/snapshot-check.ts';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { oddRows, useCopyState } from '../book/snapshot-commands.ts';
import { useBusiness } from '../book/use-records.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { askDesk } from '../parts/desk-client.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { DropZone } from '../parts/DropZone.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { copyHolds, keepCopy, type OpenedCopy, restoreCopy } from './keep-copy.ts';

const base64Of = (file: File): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve((typeof reader.result === 'string' ? reader.result : '').replace(/^[^,]*,/, ''));
    reader.onerror = () => reject(reader.error ?? new Error('unread'));
    reader.readAsDataURL(file);
  });

/** The copies of the book, restoring one, and what is odd in the book. */
export function KeepingScreen() {
  const business = useBusiness();
  const state = useCopyState();
  const [listed, setListed] = useState<Gives<'snapshot.list'> | null>(null);
  const [odd, setOdd] = useState<readonly Oddity[] | null>(null);
  const [copy, setCopy] = useState<OpenedCopy | null>(null);
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<{ readonly good: boolean; readonly words: string } | null>(null);
  const at = state?.at ?? null;
  const fail = (words: string): void => setSaid({ good: false, words });
  useEffect(() => {
    let gone = false;
    void askDesk('snapshot.list', {}).then((answer) => {
      if (gone) return;
      if (answer.ok) setListed(answer.value);
      else setSaid({ good: false, words: answer.error.message });
    });
    void oddRows().then((found) => {
      if (!gone) setOdd(found);
    });
    return () => {
      gone = true;
    };
  }, [at]);
  if (business === undefined || state === undefined) return <p className="app-opening caption">Reading the book…</p>;
  const when = (instant: string): string => formatInstant(instant, business.timeZone, 'weekday', business.locale);
  const copyNow = async (): Promise<void> => {
    setBusy(true);
    const kept = await keepCopy('asked');
    setBusy(false);
    setSaid(kept.ok ? { good: true, words: `${kept.value} was written and checked.` } : { good: false, words: kept.message });
  };
  const look = async (asked: ReturnType<typeof askDesk<'snapshot.read'>>): Promise<void> => {
    const answer = await asked;
    if (answer.ok) setCopy(answer.value);
    else fail(answer.error.message);
  };
  const openFile = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    try {
      await look(askDesk('snapshot.open', { base64: await base64Of(file) }));
    } catch {
      fail(`${file.name} cannot be read from the disk. Copy it to this computer first, then open it again.`);
    }
  };
  const restore = async (): Promise<void> => {
    if (copy === null) return;
    setBusy(true);
    const outcome = await restoreCopy(copy);
    setBusy(false);
    setCopy(null);
    if (outcome.ok) setSaid({ good: true, words: `The book of ${when(copy.madeAt)} is back. The one before it stands among the copies.` });
    else fail(outcome.message);
  };
  return (
    <Sheet
      page={null}
      who={{ name: business.name === '' ? 'Your business' : business.name, where: business.address.town }}
      block={
        <>
          <BlockPart heading="Where the copies are">
            <p>{listed === null ? 'Looking…' : listed.folder}</p>
            <p className="small">
              A copy is made a few minutes after you stop changing things. Put this folder on another disk from time to time.
            </p>
          </BlockPart>
          <BlockPart heading="From a file">
            <DropZone
              label="A copy of the book"
              chooseWord="Choose a copy"
              accept={['.zip']}
              onFiles={(files) => void openFile(files[0])}
              refuse={(name) => `${name} is not a copy of the book: those end in .zip.`}
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
      <SheetHeading>Copies of the book</SheetHeading>
      {state.failed !== null && <Notice kind="failure">The last copy failed. {state.failed}</Notice>}
      {said !== null && said.words !== state.failed && (
        <Notice kind={said.good ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.words}
        </Notice>
      )}
      {listed !== null && listed.snapshots.length === 0 ? (
        <EmptySheet what="Copies of the book go here." how="The first is made by itself after your first changes, or now." />
      ) : (
        <Table
          label="Copies, newest first"
          rows={listed?.snapshots ?? []}
          rowKey={(r) => r.name}
          columns={[
            { key: 'when', caption: 'Made', cell: (r) => when(r.madeAt), heads: true },
            { key: 'size', caption: 'Size', cell: (r) => `${Math.ceil(r.bytes / 1000)} kB`, align: 'right' },
            {
              key: 'open',
              caption: '',
              cell: (r) => (
                <TextButton
                  label={`Look into the copy of ${when(r.madeAt)}`}
                  onPress={() => void look(askDesk('snapshot.read', { name: r.name }))}
                >
                  Look into it
                </TextButton>
              ),
            },
          ]}
        />
      )}
      <section>
        <h2 className="speech">What is odd in the book</h2>
        {odd === null && <p className="caption">Checking…</p>}
        {odd?.length === 0 && <p>Nothing: every record can be read and has what it belongs to.</p>}
        {odd !== null && odd.length > 0 && (
          <ul>
            {odd.slice(0, 100).map((o, i) => (
              <li key={`${o.table}/${o.id}/${i}`}>{o.says}</li>
            ))}
          </ul>
        )}
        {odd !== null && odd.length > 100 && <p className="small">And {odd.length - 100} more.</p>}
      </section>
      <Dialog
        open={copy !== null}
        onClose={() => setCopy(null)}
        title="Put this copy in place of the book?"
        firm
        actions={
          <>
            <TextButton onPress={() => setCopy(null)}>Go back</TextButton>
            <TextButton kind="outlined" disabled={busy} onPress={() => void restore()}>
              Restore it
            </TextButton>
          </>
        }
      >
        {copy !== null && (
          <>
            <p>
              Made {when(copy.madeAt)}: {copyHolds(copy)}.
            </p>
            <p>The present book is copied first. Undo does not reach back past a restore; that copy does.</p>
          </>
        )}
      </Dialog>
    </Sheet>
  );
}
