import { useState } from 'react';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { LIMITS_BYTES } from '../../shared-core/desk/backup-calls.ts';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import { askDesk } from '../desk/desk-client.ts';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface FolderPartProps {
  readonly listed: Gives<'backup.list'> | null;
  readonly onSay: (good: boolean, words: string) => void;
}

/** Warns below this free space on the backup disk, in bytes. */
const LOW_BYTES = 1_000_000_000;

const spaceSentence = (used: string, free: string | null): string =>
  free === null ? `Backups use ${used}.` : `Backups use ${used}. ${free} free on this disk.`;

export function FolderPart({ listed, onSay }: FolderPartProps) {
  const { locale } = useMeasure();
  const [waiting, setWaiting] = useState(false);
  if (listed === null) return <BlockPart heading="Backups folder">Loading…</BlockPart>;
  const size = (bytes: number): string => formatDataSize(bytes, locale);
  const used = listed.photosBytes + listed.backups.reduce((sum, { bytes }) => sum + bytes, 0);
  const choose = async (which: 'other' | 'default'): Promise<void> => {
    setWaiting(true);
    const answer = await askDesk('backup.folder', { choose: which });
    setWaiting(false);
    if (!answer.ok) onSay(false, answer.error.message);
    else if (answer.value.changed)
      onSay(true, `New backups go to ${answer.value.folder}. Earlier backups stay where they are. Back up now.`);
  };
  const limit = async (value: string | null): Promise<void> => {
    const found = LIMITS_BYTES.find((l) => String(l) === value);
    if (found === undefined) return;
    const answer = await askDesk('backup.limit', { limitBytes: found });
    onSay(answer.ok, answer.ok ? `Storage limit: ${size(found)}. The oldest automatic backups are deleted first.` : answer.error.message);
  };
  const open = async (): Promise<void> => {
    const answer = await askDesk('folder.open', { which: 'backups' });
    if (!answer.ok) onSay(false, answer.error.message);
  };
  return (
    <BlockPart heading="Backups folder">
      <div className="stack">
        <p className="backup-folder">{listed.folder}</p>
        <p className="small">
          Backups are made automatically a few minutes after you stop making changes, and every 10 minutes while you work. Keep a backup on
          another disk too.
        </p>
        <p className="words">
          {listed.canChoose && (
            <TextButton disabled={waiting} onPress={() => void choose('other')}>
              {waiting ? 'Waiting for your choice…' : 'Change folder…'}
            </TextButton>
          )}
          {listed.chosen && (
            <TextButton disabled={waiting} onPress={() => void choose('default')}>
              Use default folder
            </TextButton>
          )}
          <TextButton onPress={() => void open()}>Open folder</TextButton>
        </p>
        <SelectField
          label="Storage limit"
          value={String(listed.limitBytes)}
          options={LIMITS_BYTES.map((bytes) => ({ value: String(bytes), word: size(bytes) }))}
          onChange={(value) => void limit(value)}
          hint="For automatic backups, photos not counted. Keeps 1 per hour, day, week, and month. Manual backups are kept for 90 days."
        />
        {listed.problem === null && (
          <p className="small">{spaceSentence(size(used), listed.freeBytes === null ? null : size(listed.freeBytes))}</p>
        )}
        {listed.freeBytes !== null && listed.freeBytes < LOW_BYTES && (
          <p className="field-problem" role="alert">
            The disk of the Backups folder is almost full. Free up space or choose a folder on another disk.
          </p>
        )}
      </div>
    </BlockPart>
  );
}
