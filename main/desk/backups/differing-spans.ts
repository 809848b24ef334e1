/** What a restore has to replace: ranges of equal content are in your data already. */
import type { BackupRange } from '../../../shared-core/book/backup.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import type { Gives } from '../../../shared-core/desk/calls.ts';
import type { OpenedBackup } from './read-backup.ts';

type Span = NonNullable<Gives<'backup.differences'>['spans']>[number];

const contentOf = ({ sha256, first, last, rows }: BackupRange): string => [sha256, first, last, rows].join(' ');

function tableSpans(table: Span['table'], wanted: readonly BackupRange[], present: readonly BackupRange[]): Span[] {
  const known = new Set(present.map(contentOf));
  const both = new Set(wanted.map(contentOf).filter((content) => known.has(content)));
  const others = present.filter((range) => !both.has(contentOf(range)));
  const spans: Span[] = [];
  let open: Omit<Span, 'before'> = { table, after: null, from: 0, rows: 0 };
  const close = (before: string | null): void => {
    const { after } = open;
    // Ranges of both are in the same order, so that all others are between two of them.
    const isElse = others.some(({ first }) => (after === null || first > after) && (before === null || first < before));
    if (open.rows > 0 || isElse) spans.push({ ...open, before });
  };
  for (const range of wanted) {
    if (both.has(contentOf(range))) {
      close(range.first);
      open = { table, after: range.last, from: open.from + open.rows + range.rows, rows: 0 };
    } else open = { ...open, rows: open.rows + range.rows };
  }
  close(null);
  return spans;
}

/**
 * The parts of each table that differ.
 * @param wanted the backup to restore
 * @param present a backup of the data as it is now
 */
export function differingSpans(wanted: OpenedBackup, present: OpenedBackup): Span[] {
  return TABLE_NAMES.flatMap((table) => tableSpans(table, wanted.ranges(table), present.ranges(table)));
}
