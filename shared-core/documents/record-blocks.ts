/** The blocks of a job record: tables of plain text, headings, lines. */
import type { Block, Run } from './tree.ts';

/** A column's title with its share of the width; null takes what is left. */
export type RecordColumn = readonly [title: string, share: number | null];

export const textCell = (text: string): Run[] => [{ text }];

/** A table of text under its heading; nothing where there are no rows. */
export function recordTable(caption: string, columns: readonly RecordColumn[], rows: readonly (readonly string[])[]): Block[] {
  if (rows.length === 0) return [];
  return [
    recordHeading(caption),
    {
      kind: 'table',
      caption,
      columns: columns.map(([title, share]) => ({ title, align: 'start', share })),
      rows: rows.map((row) => ({ cells: row.map(textCell) })),
      pointedColumn: null,
      pointedNote: '',
    },
  ];
}

/** A heading within a part of the record. */
export const recordHeading = (text: string): Block => ({ kind: 'heading', level: 3, text });

/** The heading of a part of the record. */
export const recordPart = (text: string): Block => ({ kind: 'heading', level: 2, text });

export const recordWords = (text: string): Block => ({ kind: 'paragraph', runs: [{ text }] });

/** Parts joined by a comma, empty ones left out. */
export const joined = (parts: readonly string[]): string => parts.filter((part) => part !== '').join(', ');
