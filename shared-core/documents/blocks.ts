/** Builders for document blocks. */
import type { Block, DocumentField, Run } from './tree.ts';

export const textCell = (text: string, more: Partial<Run> = {}): Run[] => [{ text, ...more }];
export const headingBlock = (level: 1 | 2 | 3, text: string): Block => ({ kind: 'heading', level, text });
export const textBlock = (text: string, more: Partial<Run> = {}): Block => ({ kind: 'paragraph', runs: [{ text, ...more }] });
export const noteBlock = (text: string): Block => ({ kind: 'paragraph', small: true, runs: [{ text, italic: true }] });
export const listBlock = (items: readonly string[], marker: 'none' | 'number' | 'box' = 'none'): Block => ({
  kind: 'list',
  marker,
  items: items.map((item) => textCell(item)),
});

/** A column: its title, and its share of the width; null takes the rest. */
export type Column = readonly [title: string, share: number | null, align?: 'start' | 'end'];

/** A table of plain text; empty without rows. */
export function tableBlocks(caption: string, columns: readonly Column[], rows: readonly (readonly (string | Run[])[])[]): Block[] {
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      caption,
      columns: columns.map(([title, share, align = 'start']) => ({ title, share, align })),
      rows: rows.map((row) => ({ cells: row.map((cell) => (typeof cell === 'string' ? textCell(cell) : cell)) })),
      pointedColumn: null,
      pointedNote: '',
    },
  ];
}

/** A row of fields to fill in; `value` is printed in its field. */
export const fieldsBlock = (...fields: readonly DocumentField[]): Block => ({ kind: 'fields', fields: [...fields] });

/** A signature line: signature, printed name, date. */
export const signatureBlock = (label: string, name: string): Block =>
  fieldsBlock(
    { label: `${label}, signature`, share: 0.42 },
    { label: 'Printed name', share: 0.36, ...(name === '' ? {} : { value: name }) },
    { label: 'Date', share: 0.22 },
  );
