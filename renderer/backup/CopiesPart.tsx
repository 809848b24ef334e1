import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import { readLock } from '../book/copy-lock.ts';
import { askDesk } from '../parts/desk-client.ts';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface CopiesPartProps {
  readonly listed: Gives<'snapshot.list'> | null;
  readonly when: (instant: string) => string;
  readonly locked: boolean;
  readonly onLook: (name: string) => void;
  readonly onSay: (good: boolean, words: string) => void;
}

/** The copies, newest first, each to be looked into or carried away. */
export function CopiesPart({ listed, when, onLook, onSay }: CopiesPartProps) {
  const { locale } = useMeasure();
  if (listed === null) return <p className="caption">Looking for copies…</p>;
  if (listed.snapshots.length === 0)
    return <EmptySheet what="Copies of the book go here." how="The first is made by itself after your first changes, or now." />;
  const carry = async (name: string): Promise<void> => {
    const made = await askDesk('snapshot.carry', { name, lock: await readLock() });
    if (made.ok)
      onSay(true, `${made.value.name} is in ${made.value.folder}, photos and all. Carry it to the other machine and open it there.`);
    else onSay(false, made.error.message);
  };
  return (
    <Table
      label="Copies, newest first"
      rows={listed.snapshots}
      rowKey={(r) => r.name}
      columns={[
        { key: 'when', caption: 'Made', cell: (r) => when(r.madeAt), heads: true },
        {
          key: 'what',
          caption: '',
          cell: (r) =>
            [r.name.includes('before restoring') ? 'before another took its place' : '', r.name.endsWith('.locked') ? 'locked' : '']
              .filter((w) => w !== '')
              .join(', '),
          italic: true,
          wideOnly: true,
        },
        { key: 'size', caption: 'Size', cell: (r) => formatDataSize(r.bytes, locale), align: 'right', wideOnly: true },
        {
          key: 'open',
          caption: '',
          cell: (r) => (
            <TextButton label={`Look into the copy of ${when(r.madeAt)}`} onPress={() => onLook(r.name)}>
              Look into it
            </TextButton>
          ),
        },
        {
          key: 'carry',
          caption: '',
          cell: (r) => (
            <TextButton kind="plain" label={`Carry the copy of ${when(r.madeAt)} away`} onPress={() => void carry(r.name)}>
              Carry it away
            </TextButton>
          ),
        },
      ]}
    />
  );
}
