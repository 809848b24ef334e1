import type { ReactNode } from 'react';
import { TextButton } from './Buttons.tsx';

interface ArchivedListProps<Row> {
  readonly rows: readonly Row[];
  readonly label?: string;
  /** How a row is shown; by default by its name. */
  readonly words?: (row: Row) => ReactNode;
  readonly onUnarchive: (row: Row) => unknown;
}

/** Archived records, each with the command that brings it back. */
export function ArchivedList<Row extends { readonly id: string; readonly name: string }>(props: ArchivedListProps<Row>) {
  const { rows, label, words, onUnarchive } = props;
  return (
    <ul className="ends" aria-label={label}>
      {rows.map((row) => (
        <li key={row.id}>
          <span>{words === undefined ? row.name : words(row)}</span>
          <TextButton kind="plain" label={`Unarchive ${row.name}`} onPress={() => onUnarchive(row)}>
            Unarchive
          </TextButton>
        </li>
      ))}
    </ul>
  );
}
