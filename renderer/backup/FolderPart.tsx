import { useState } from 'react';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { LIMITS_BYTES } from '../../shared-core/desk/snapshot-calls.ts';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import { askDesk } from '../parts/desk-client.ts';
import { SelectField } from '../parts/SelectField.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface FolderPartProps {
  readonly listed: Gives<'snapshot.list'> | null;
  readonly onSay: (good: boolean, words: string) => void;
}

/** Less than this on the disk of the copies is said. */
const LITTLE_BYTES = 1_000_000_000;

/** Where the copies go, how much room they may take, and how much is left. */
export function FolderPart({ listed, onSay }: FolderPartProps) {
  const { locale } = useMeasure();
  const [waiting, setWaiting] = useState(false);
  if (listed === null) return <BlockPart heading="Where the copies are">Looking…</BlockPart>;
  const size = (bytes: number): string => formatDataSize(bytes, locale);
  const used = listed.photosBytes + listed.snapshots.reduce((sum, { bytes }) => sum + bytes, 0);
  const choose = async (which: 'other' | 'usual'): Promise<void> => {
    setWaiting(true);
    const answer = await askDesk('snapshot.folder', { choose: which });
    setWaiting(false);
    if (!answer.ok) onSay(false, answer.error.message);
    else if (answer.value.changed)
      onSay(true, `Copies go to ${answer.value.folder} from now on. Those made before stay where they are; make one here now.`);
  };
  const limit = async (value: string | null): Promise<void> => {
    const found = LIMITS_BYTES.find((l) => String(l) === value);
    if (found === undefined) return;
    const answer = await askDesk('snapshot.limit', { limitBytes: found });
    onSay(answer.ok, answer.ok ? `Copies are kept within ${size(found)}, the oldest given up first.` : answer.error.message);
  };
  const open = async (): Promise<void> => {
    const answer = await askDesk('folder.open', { which: 'copies' });
    if (!answer.ok) onSay(false, answer.error.message);
  };
  return (
    <BlockPart heading="Where the copies are">
      <div className="backup-part">
        <p className="backup-folder">{listed.folder}</p>
        <p className="small">
          A copy is made a few minutes after you stop changing things. Put this folder on another disk, or carry a copy there from time to
          time.
        </p>
        <p className="backup-words">
          {listed.canChoose && (
            <TextButton disabled={waiting} onPress={() => void choose('other')}>
              {waiting ? 'Choose it in the window that opened' : 'Choose another folder'}
            </TextButton>
          )}
          {listed.chosen && (
            <TextButton disabled={waiting} onPress={() => void choose('usual')}>
              Back to the usual folder
            </TextButton>
          )}
          <TextButton onPress={() => void open()}>Open the folder</TextButton>
        </p>
        <SelectField
          label="Kept within"
          value={String(listed.limitBytes)}
          options={LIMITS_BYTES.map((bytes) => ({ value: String(bytes), word: size(bytes) }))}
          onChange={(value) => void limit(value)}
          hint="One an hour, a day, a week and a month are kept; photos once for all of them."
        />
        <p className="small">
          They take {size(used)}
          {listed.leftBytes === null ? '.' : `; ${size(listed.leftBytes)} is left on that disk.`}
        </p>
        {listed.leftBytes !== null && listed.leftBytes < LITTLE_BYTES && (
          <p className="field-problem" role="alert">
            The disk of the copies is nearly full. Make room, or choose a folder on another disk.
          </p>
        )}
      </div>
    </BlockPart>
  );
}
