import { useState } from 'react';
import { newBusiness } from '../../shared-core/book/typical-business.ts';
import { nowInstant } from '../book/command.ts';
import { openSampleData, removeSample, useHasSample } from '../book/sample-commands.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

const blank = () => newBusiness(nowInstant(), Intl.DateTimeFormat().resolvedOptions().timeZone, navigator.language);

/** Opens and removes the sample data without changing the user's own data. */
export function SamplePart() {
  const has = useHasSample();
  const [asking, setAsking] = useState(false);
  const [busy, setBusy] = useState(false);
  const [message, setMessage] = useState<string | null>(null);
  if (has === undefined) return null;
  const fill = async (): Promise<void> => {
    setBusy(true);
    const filled = await openSampleData(nowInstant());
    setBusy(false);
    setMessage(filled.ok ? null : filled.message);
  };
  const empty = async (): Promise<void> => {
    setAsking(false);
    setBusy(true);
    const removed = await removeSample(blank());
    setBusy(false);
    if (!removed.ok) setMessage(removed.message);
    else if (removed.value === 0) setMessage('Sample data removed. Your own data was not changed.');
    else setMessage(`Sample data removed, except ${countWords(removed.value, 'record', 'en-US')} used by your own data.`);
  };
  return (
    <BlockPart heading="Sample data">
      <p className="small">
        {has
          ? 'Invented customers, properties, and floors are listed with your own. Removing them leaves your own data unchanged.'
          : 'Invented customers, properties, and floors at every stage. You can remove them at any time.'}
      </p>
      <TextButton disabled={busy} onPress={() => (has ? setAsking(true) : void fill())}>
        {busy ? 'Loading…' : has ? 'Remove sample data' : 'Open sample data'}
      </TextButton>
      {message !== null && (
        <p className="small" role="status">
          {message}
        </p>
      )}
      {asking && (
        <Dialog
          firm
          onClose={() => setAsking(false)}
          title="Remove sample data?"
          actions={
            <>
              <TextButton onPress={() => setAsking(false)}>Cancel</TextButton>
              <TextButton kind="delete" onPress={() => void empty()}>
                Remove
              </TextButton>
            </>
          }
        >
          <p>
            All invented customers, properties, and jobs are deleted with your changes to them. This cannot be undone. You can open the
            sample data again.
          </p>
        </Dialog>
      )}
    </BlockPart>
  );
}
