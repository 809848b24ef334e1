import { useMemo, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { type Column, columnProblems, type ColumnProblem, readColumn, type TypedIn } from '../../shared-core/survey/reading-entry.ts';

/** A column pasted and not taken yet; it waits while something else is looked at. */
export interface PastedColumn {
  readonly text: string;
  readonly onText: (text: string) => void;
  readonly column: Column;
  readonly problems: readonly ColumnProblem[];
  /** The places its values would go to, in the order of the lines. */
  readonly places: readonly Point[];
  /** Lines with and without a unit are right as they stand. */
  readonly onMeant: () => void;
}

/** A column as it is pasted, read against the places still to be walked. */
export function usePastedColumn(left: readonly Point[], typedIn: TypedIn, method: Survey['method'], locale: string): PastedColumn {
  const [text, setText] = useState('');
  const [meant, setMeant] = useState<string | null>(null);
  return useMemo(() => {
    const column = readColumn(text, typedIn, method, locale);
    return {
      text,
      onText: setText,
      column,
      problems: columnProblems(column, typedIn, left, meant === text),
      places: column.lines.flatMap(({ place }) => left[place] ?? []),
      onMeant: () => setMeant(text),
    };
  }, [text, meant, left, typedIn, method, locale]);
}
