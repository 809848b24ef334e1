import { useMemo, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { type Column, columnProblems, type ColumnProblem, readColumn, type TypedIn } from '../../shared-core/survey/reading-entry.ts';

/** A pasted column that is not saved yet. */
export interface PastedColumn {
  readonly text: string;
  readonly onText: (text: string) => void;
  readonly column: Column;
  readonly problems: readonly ColumnProblem[];
  /** The places its values would go to, in the order of the lines. */
  readonly places: readonly Point[];
  /** Number of lines with and without a unit that can be read. */
  readonly onMeant: () => void;
}

/** Matches a pasted column to the places without a reading. */
export function usePastedColumn(unread: readonly Point[], typedIn: TypedIn, method: Survey['method'], locale: string): PastedColumn {
  const [text, setText] = useState('');
  const [meant, setMeant] = useState<string | null>(null);
  return useMemo(() => {
    const column = readColumn(text, typedIn, method, locale);
    return {
      text,
      onText: setText,
      column,
      problems: columnProblems(column, typedIn, unread, meant === text),
      places: column.lines.flatMap(({ place }) => unread[place] ?? []),
      onMeant: () => setMeant(text),
    };
  }, [text, meant, unread, typedIn, method, locale]);
}
