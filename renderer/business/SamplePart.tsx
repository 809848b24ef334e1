import { useState } from 'react';
import { newBusiness } from '../../shared-core/book/typical-business.ts';
import { nowInstant } from '../book/moment.ts';
import { addSample, removeSample, useHasSample } from '../book/sample-commands.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

const blank = () => newBusiness(nowInstant(), Intl.DateTimeFormat().resolvedOptions().timeZone, navigator.language);

/** The sample book: put in to look around, taken out without touching anything of one's own. */
export function SamplePart() {
  const has = useHasSample();
  const [asking, setAsking] = useState(false);
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  if (has === undefined) return null;
  const fill = async (): Promise<void> => {
    setBusy(true);
    // The whole sample is computed when it is wanted and not before.
    const { sampleBook } = await import('../../shared-core/sample/sample-book.ts');
    const filled = await addSample(sampleBook(nowInstant()));
    setBusy(false);
    setSaid(filled.ok ? null : filled.message);
  };
  const empty = async (): Promise<void> => {
    setAsking(false);
    setBusy(true);
    const removed = await removeSample(blank());
    setBusy(false);
    if (!removed.ok) setSaid(removed.message);
    else if (removed.value === 0) setSaid('The sample is out. What you entered yourself is all here.');
    else
      setSaid(
        `The sample is out but for ${removed.value === 1 ? 'one record' : `${removed.value} records`} that something of your own hangs on.`,
      );
  };
  return (
    <BlockPart heading="The sample book">
      <p className="small">
        {has
          ? 'Invented people, houses and floors stand among your own. Taking them out leaves yours alone.'
          : 'Invented people, houses and floors in every stage, to look around in. They can be taken out again.'}
      </p>
      <TextButton disabled={busy} onPress={() => (has ? setAsking(true) : void fill())}>
        {busy ? 'One moment…' : has ? 'Take the sample out' : 'Put the sample in'}
      </TextButton>
      {said !== null && (
        <p className="small" role="status">
          {said}
        </p>
      )}
      <Dialog
        open={asking}
        firm
        onClose={() => setAsking(false)}
        title="Take the sample book out?"
        actions={
          <>
            <TextButton onPress={() => setAsking(false)}>Keep it</TextButton>
            <TextButton kind="outlined" onPress={() => void empty()}>
              Take it out
            </TextButton>
          </>
        }
      >
        <p>
          Every invented customer, house and job goes, with what was changed in them. This cannot be undone; the sample can be put in anew.
        </p>
      </Dialog>
    </BlockPart>
  );
}
