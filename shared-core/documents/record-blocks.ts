/** The blocks of a job record: tables of plain text, headings, lines. */
import { tableBlocks } from './blocks.ts';
import { type PaperPhoto, photosBlock } from './paper-photos.ts';
import type { Block } from './tree.ts';

/** A column's title with its share of the width; null takes what is left. */
export type RecordColumn = readonly [title: string, share: number | null];

/** A table of text; a column with nothing in it is left out. */
export function filledTable(caption: string, columns: readonly RecordColumn[], rows: readonly (readonly string[])[]): Block[] {
  const isFilled = (i: number): boolean => rows.some((row) => (row[i] ?? '') !== '');
  const filled = columns.filter((_, i) => isFilled(i));
  // The last column takes what the others leave.
  const widths = filled.some(([, share]) => share === null)
    ? filled
    : [...filled.slice(0, -1), ...filled.slice(-1).map(([title]) => [title, null] as const)];
  return tableBlocks(
    caption,
    widths,
    rows.map((row) => row.filter((_, i) => isFilled(i))),
  );
}

/** The same under its heading; nothing where there are no rows. */
export function recordTable(caption: string, columns: readonly RecordColumn[], rows: readonly (readonly string[])[]): Block[] {
  return rows.length === 0 ? [] : [recordHeading(caption), ...filledTable(caption, columns, rows)];
}

/** A heading within a part of the record. */
export const recordHeading = (text: string): Block => ({ kind: 'heading', level: 3, text });

/** The heading of a part of the record. */
export const recordPart = (text: string): Block => ({ kind: 'heading', level: 2, text });

export const recordWords = (text: string): Block => ({ kind: 'paragraph', runs: [{ text }] });

/** Photos of one part under their heading, each with its caption and day; nothing where there are none. */
export function recordPhotos(
  heading: string,
  photos: readonly PaperPhoto[] | undefined,
  place: { readonly zone: string; readonly locale: string },
): Block[] {
  return photos === undefined || photos.length === 0 ? [] : [recordHeading(heading), photosBlock(photos, place, () => '')];
}

/** Parts joined by a comma, empty ones left out. */
export const joined = (parts: readonly string[]): string => parts.filter((part) => part !== '').join(', ');
