/** The lines of a range of a backup: `[`, a record per line with a comma between, `]`. */
import { readRowLine, tableRefusal } from '../../../shared-core/book/backup.ts';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import type { Parsed } from '../../../shared-core/measure/parsed.ts';

export const AFTER = 'The backup is damaged. Choose an older one. Your data was not changed.';
const NEWLINE = 10;
const COMMA = 44;

const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
export const textOf = (bytes: Uint8Array): Parsed<string> => {
  try {
    return { ok: true, value: utf8.decode(bytes) };
  } catch {
    return { ok: false, message: `A part of it is not text. ${AFTER}` };
  }
};

type Line = { readonly from: number; to: number };
/** The place of each record; null in any other form. */
export const linesOf = (bytes: Buffer): readonly Line[] | null => {
  const lines: Line[] = [];
  for (let from = 0; from < bytes.length; ) {
    const end = bytes.indexOf(NEWLINE, from);
    if (end < 0) return null;
    lines.push({ from, to: end });
    from = end + 1;
  }
  const [first, last] = [lines.shift(), lines.pop()];
  if (first === undefined || last === undefined) return null;
  if (bytes.toString('latin1', first.from, first.to) !== '[' || bytes.toString('latin1', last.from, last.to) !== ']') return null;
  for (const [i, line] of lines.entries()) {
    const comma = bytes[line.to - 1] === COMMA;
    if (comma !== i < lines.length - 1) return null;
    if (comma) line.to -= 1;
  }
  return lines;
};

/** The records of a range, each with its id, ids ascending; or a sentence. */
export function readRange(table: string, bytes: Buffer): Parsed<readonly (StoredRow & { readonly id: string })[]> {
  const lines = linesOf(bytes);
  if (lines === null) return tableRefusal(table, 'shape');
  const rows: (StoredRow & { readonly id: string })[] = [];
  for (const { from, to } of lines) {
    const text = textOf(bytes.subarray(from, to));
    if (!text.ok) return text;
    const row = readRowLine(table, text.value);
    if (!row.ok) return row;
    if (!(row.value.id > (rows.at(-1)?.id ?? ''))) return tableRefusal(table, 'order');
    rows.push(row.value);
  }
  return { ok: true, value: rows };
}
