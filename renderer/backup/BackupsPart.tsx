import { useState } from 'react';
import type { BackupReason } from '../../shared-core/book/backup-names.ts';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import { readBackupKey } from '../book/backup-key.ts';
import { askDesk } from '../desk/desk-client.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { EmptySheet } from '../parts/Sheet.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface BackupsPartProps {
  readonly listed: Gives<'backup.list'> | null;
  readonly when: (instant: string) => string;
  readonly onOpen: (name: string) => void;
  readonly onSay: (good: boolean, words: string) => void;
}
type Row = Gives<'backup.list'>['backups'][number];

const REASONS: Readonly<Record<BackupReason, string>> = {
  manual: 'Manual',
  automatic: 'Automatic',
  closing: 'Automatic',
  'before-restore': 'Before a restore',
  'before-import': 'Before an import',
};

const kindOf = ({ reason, isOwn, isEncrypted }: Row): string =>
  [REASONS[reason], isEncrypted ? 'encrypted' : '', isOwn ? '' : 'other data'].filter((word) => word !== '').join(', ');

export function BackupsPart({ listed, when, onOpen, onSay }: BackupsPartProps) {
  const { locale } = useMeasure();
  const [deleting, setDeleting] = useState<Row | null>(null);
  if (listed === null) return <p className="caption">Loading…</p>;
  // The screen says why.
  if (listed.problem !== null) return null;
  if (listed.backups.length === 0)
    return <EmptySheet drawing="backup" heading="No backups yet." hint="The first backup is made a few minutes after your first change." />;
  const savePortable = async (name: string): Promise<void> => {
    const saved = await askDesk('backup.save-portable', { name, key: await readBackupKey() });
    if (saved.ok)
      onSay(
        true,
        `${saved.value.name} was saved to ${saved.value.folder}, photos included. Copy it to the other computer and open it there.`,
      );
    else onSay(false, saved.error.message);
  };
  const remove = async (name: string): Promise<void> => {
    setDeleting(null);
    const deleted = await askDesk('backup.delete', { name });
    onSay(deleted.ok, deleted.ok ? `${name} was deleted.` : deleted.error.message);
  };
  return (
    <>
      <Table
        label="Backups, newest first"
        rows={listed.backups}
        rowKey={(r) => r.name}
        columns={[
          { caption: 'Made', cell: (r) => when(r.madeAt), heads: true },
          { caption: 'Kind', cell: kindOf, wideOnly: true },
          { caption: 'Size', cell: (r) => formatDataSize(r.bytes, locale), align: 'right', wideOnly: true },
          {
            key: 'open',
            caption: '',
            cell: (r) => (
              <TextButton label={`Open the backup of ${when(r.madeAt)}`} onPress={() => onOpen(r.name)}>
                Open…
              </TextButton>
            ),
          },
          {
            key: 'portable',
            caption: '',
            cell: (r) => (
              <TextButton kind="plain" label={`Save a portable backup of ${when(r.madeAt)}`} onPress={() => void savePortable(r.name)}>
                Save portable backup…
              </TextButton>
            ),
          },
          {
            key: 'delete',
            caption: '',
            wideOnly: true,
            cell: (r) => (
              <TextButton kind="plain" label={`Delete the backup of ${when(r.madeAt)}`} onPress={() => setDeleting(r)}>
                Delete…
              </TextButton>
            ),
          },
        ]}
      />
      {deleting !== null && (
        <Dialog
          firm
          onClose={() => setDeleting(null)}
          title="Delete this backup?"
          onSave={() => void remove(deleting.name)}
          saveWord="Delete backup"
        >
          <p>The backup of {when(deleting.madeAt)} is deleted from the Backups folder. You cannot undo this.</p>
        </Dialog>
      )}
    </>
  );
}
