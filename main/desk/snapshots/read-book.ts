/**
 * Reading a snapshot: every checksum, count and row proven before anything is handed out, then handed out piece by piece. It
 * stays packed in memory; one table at a time is unpacked.
 */
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
import { readZip, ZIP_LIMITS, type ZipLimits, type ZipPart } from './read-zip.ts';
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

const checkNames = (manifest: SnapshotManifest, parts: ReadonlyMap<string, ZipPart>): Parsed<null> => {
  if (parts.size !== manifest.entries.length + 1)
    return refused(`It holds parts that its list of contents does not name, or lacks some. ${AFTER}`);
  const missing = manifest.entries.find(({ name }) => !parts.has(name));
  return missing === undefined ? { ok: true, value: null } : refused(`A part is missing: ${missing.name}. ${AFTER}`);
};

/** Unpacks a part and holds it against the list of contents. */
const provenPart = ({ name, bytes, sha256 }: SnapshotManifest['entries'][number], part: ZipPart): Parsed<Buffer> => {
  const data = part.unpack();
  if (!data.ok) return data;
  if (data.value.length !== bytes || sha256Of(data.value) !== sha256)
    return refused(`A part was changed after it was written: ${name}. ${AFTER}`);
  if (name.startsWith('photos/') && pictureSha256(name) !== sha256) return refused(`A photo is not the one its name says. ${AFTER}`);
  return data;
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

/** A table unpacked. */
type Table = { readonly bytes: Buffer; readonly lines: readonly { readonly from: number; readonly to: number }[] };
/** A table as it lies in the file. */
type PackedTable = { readonly part: ZipPart; readonly count: number };

const unpackTable = ({ part }: PackedTable): Table => {
  const bytes = part.unpack();
  const lines = bytes.ok ? linesOf(bytes.value) : null;
  // The same bytes in memory were unpacked and proven when the snapshot was opened.
  if (!bytes.ok || lines === null) throw new Error('A proven table does not unpack.');
  return { bytes: bytes.value, lines };
};

/** A snapshot opened and proven. */
export class OpenedBook {
  readonly manifest: SnapshotManifest;
  private readonly tables: ReadonlyMap<TableName, PackedTable>;
  private readonly inside: ReadonlyMap<string, ZipPart>;
  /** The table read last; tables are read one after another. */
  private unpacked: { readonly name: TableName; readonly table: Table } | null = null;

  constructor(manifest: SnapshotManifest, tables: ReadonlyMap<TableName, PackedTable>, inside: ReadonlyMap<string, ZipPart>) {
    this.manifest = manifest;
    this.tables = tables;
    this.inside = inside;
  }

  /** How many rows a table holds. */
  count(table: TableName): number {
    return this.tables.get(table)?.count ?? 0;
  }

  private table(name: TableName): Table | null {
    const packed = this.tables.get(name);
    if (packed === undefined || packed.count === 0) return null;
    if (this.unpacked?.name !== name) this.unpacked = { name, table: unpackTable(packed) };
    return this.unpacked.table;
  }

  /** Rows of a table from one on, as many as stay under a size (one at least), in this program's version. */
  rows(name: TableName, from: number, budgetBytes: number): StoredRow[] {
    const found = this.table(name);
    const rows: StoredRow[] = [];
    let size = 0;
    for (let i = from; found !== null && i < found.lines.length && size < budgetBytes; i += 1) {
      const line = found.lines[i];
      if (line === undefined) break;
      const row = readRowLine(name, utf8.decode(found.bytes.subarray(line.from, line.to)));
      if (row.ok) rows.push(carryRow(name, row.value, this.manifest.schemaVersion));
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
    const data = this.inside.get(name)?.unpack();
    return data?.ok === true ? data.value : null;
  }
}

const proveTable = (table: TableName, bytes: Buffer, count: number): Parsed<null> => {
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
  return { ok: true, value: null };
};

/** Reads a snapshot whole: every checksum, count and row proven; or says why not. */
export function openBookBytes(bytes: Uint8Array, limits: ZipLimits = ZIP_LIMITS): Parsed<OpenedBook> {
  const zip = readZip(bytes, limits);
  if (!zip.ok) return zip;
  const listed = zip.value.get(MANIFEST_NAME)?.unpack();
  if (listed === undefined) return refused('This is not a backup of a job book. Choose a file from the Backups folder.');
  if (!listed.ok) return listed;
  const text = textOf(listed.value);
  if (!text.ok) return text;
  const manifest = readManifest(text.value);
  if (!manifest.ok) return manifest;
  const names = checkNames(manifest.value, zip.value);
  if (!names.ok) return names;
  const tableOf = new Map(TABLE_NAMES.map((table) => [tableEntryName(table), table]));
  const tables = new Map<TableName, PackedTable>();
  const inside = new Map<string, ZipPart>();
  for (const entry of manifest.value.entries) {
    const part = zip.value.get(entry.name);
    if (part === undefined) continue;
    const data = provenPart(entry, part);
    if (!data.ok) return data;
    const table = tableOf.get(entry.name);
    // A book of an older version may not have had every table yet.
    if (table !== undefined) {
      const count = manifest.value.counts[table] ?? -1;
      const proven = proveTable(table, data.value, count);
      if (!proven.ok) return proven;
      tables.set(table, { part, count });
    } else if (entry.name.startsWith('photos/')) inside.set(entry.name, part);
  }
  return { ok: true, value: new OpenedBook(manifest.value, tables, inside) };
}
