/** Reading a snapshot: every checksum, count and row proven before anything is handed out, then handed out piece by piece. */
import type { StoredRow } from '../../../shared-core/book/migrations/list.ts';
import {
  carryRow,
  MANIFEST_NAME,
  pictureSha256,
  readManifest,
  readRowLine,
  type SnapshotManifest,
  tableEntryName,
  tableRefusal,
} from '../../../shared-core/book/snapshot.ts';
import { TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import type { Parsed } from '../../../shared-core/measure/parsed.ts';
import { readZip, ZIP_LIMITS, type ZipLimits } from './read-zip.ts';
import { sha256Of } from './whole-file.ts';

const refused = (message: string): { readonly ok: false; readonly message: string } => ({ ok: false, message });
const AFTER = 'The backup is damaged: choose an older one; nothing in the book was changed.';
const NEWLINE = 10;
const COMMA = 44;

const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const textOf = (bytes: Uint8Array): Parsed<string> => {
  try {
    return { ok: true, value: utf8.decode(bytes) };
  } catch {
    return refused(`A part of it is not text. ${AFTER}`);
  }
};

const checkParts = (manifest: SnapshotManifest, parts: ReadonlyMap<string, Buffer>): Parsed<null> => {
  if (parts.size !== manifest.entries.length + 1)
    return refused(`It holds parts that its list of contents does not name, or lacks some. ${AFTER}`);
  for (const { name, bytes, sha256 } of manifest.entries) {
    const data = parts.get(name);
    if (data === undefined) return refused(`A part is missing: ${name}. ${AFTER}`);
    if (data.length !== bytes || sha256Of(data) !== sha256) return refused(`A part was changed after it was written: ${name}. ${AFTER}`);
    if (name.startsWith('photos/') && pictureSha256(name) !== sha256) return refused(`A photo is not the one its name says. ${AFTER}`);
  }
  return { ok: true, value: null };
};

/** The lines of a table's entry: `[`, a record a line with a comma between, `]`. Null when it is not written so. */
const linesOf = (bytes: Buffer): { readonly from: number; readonly to: number }[] | null => {
  const lines: { from: number; to: number }[] = [];
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

type Table = { readonly bytes: Buffer; readonly lines: readonly { readonly from: number; readonly to: number }[] };

/** A snapshot opened and proven. */
export class OpenedBook {
  readonly manifest: SnapshotManifest;
  private readonly tables: ReadonlyMap<TableName, Table>;
  private readonly inside: ReadonlyMap<string, Buffer>;

  constructor(manifest: SnapshotManifest, tables: ReadonlyMap<TableName, Table>, inside: ReadonlyMap<string, Buffer>) {
    this.manifest = manifest;
    this.tables = tables;
    this.inside = inside;
  }

  /** How many rows a table holds. */
  count(table: TableName): number {
    return this.tables.get(table)?.lines.length ?? 0;
  }

  /** Rows of a table from one on, as many as stay under a size (one at least), in this program's version. */
  rows(table: TableName, from: number, budgetBytes: number): StoredRow[] {
    const found = this.tables.get(table);
    const rows: StoredRow[] = [];
    let size = 0;
    for (let i = from; found !== undefined && i < found.lines.length && size < budgetBytes; i += 1) {
      const line = found.lines[i];
      if (line === undefined) break;
      const row = readRowLine(table, utf8.decode(found.bytes.subarray(line.from, line.to)));
      if (row.ok) rows.push(carryRow(table, row.value, this.manifest.schemaVersion));
      size += line.to - line.from;
    }
    return rows;
  }

  /** The names of all its photos. */
  pictures(): string[] {
    return [...this.inside.keys(), ...this.manifest.beside];
  }

  /** A photo that is in the file itself; null for one that lies beside. */
  picture(name: string): Buffer | null {
    return this.inside.get(name) ?? null;
  }
}

const readTable = (table: TableName, bytes: Buffer, count: number): Parsed<Table> => {
  const lines = linesOf(bytes);
  if (lines === null) return tableRefusal(table, 'shape');
  if (lines.length !== count) return tableRefusal(table, 'count');
  let last = '';
  for (const { from, to } of lines) {
    const text = textOf(bytes.subarray(from, to));
    if (!text.ok) return text;
    const row = readRowLine(table, text.value);
    if (!row.ok) return row;
    if (!(row.value.id > last)) return tableRefusal(table, 'order');
    last = row.value.id;
  }
  return { ok: true, value: { bytes, lines } };
};

/** Reads a snapshot whole: every checksum, count and row proven; or says why not. */
export function openBookBytes(bytes: Uint8Array, limits: ZipLimits = ZIP_LIMITS): Parsed<OpenedBook> {
  const zip = readZip(bytes, limits);
  if (!zip.ok) return zip;
  const listed = zip.value.get(MANIFEST_NAME);
  if (listed === undefined) return refused('This is not a backup of a job book. Choose a file from the Backups folder.');
  const text = textOf(listed);
  if (!text.ok) return text;
  const manifest = readManifest(text.value);
  if (!manifest.ok) return manifest;
  const parts = checkParts(manifest.value, zip.value);
  if (!parts.ok) return parts;
  const tables = new Map<TableName, Table>();
  for (const table of TABLE_NAMES) {
    const part = zip.value.get(tableEntryName(table));
    // A book of an older version may not have had this table yet.
    if (part === undefined) continue;
    const read = readTable(table, part, manifest.value.counts[table] ?? -1);
    if (!read.ok) return read;
    tables.set(table, read.value);
  }
  const inside = new Map([...zip.value].filter(([name]) => name.startsWith('photos/')));
  return { ok: true, value: new OpenedBook(manifest.value, tables, inside) };
}
