/**
 * Reads a backup. Checksums, counts and order are verified before any row is returned. It stays packed in memory, with one range unpacked
 * at a time.
 */
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import {
  type BackupManifest,
  type BackupRange,
  carryRow,
  MANIFEST_NAME,
  pictureSha256,
  readManifest,
  readRowLine,
  tableRefusal,
} from '../../../shared-core/book/backup.ts';
import type { TableName } from '../../../shared-core/book/tables.ts';
import type { Parsed } from '../../../shared-core/measure/parsed.ts';
import { type PackedBytes, readZip, ZIP_LIMITS, type ZipLimits, type ZipPart } from './read-zip.ts';
import { sha256Of } from './whole-file.ts';

const refused = (message: string): { readonly ok: false; readonly message: string } => ({ ok: false, message });
const AFTER = 'The backup is damaged. Choose an older one. Your data was not changed.';
const NEWLINE = 10;
const COMMA = 44;
/** Maximum size of a manifest, bytes; one with a million photos is smaller. */
const MANIFEST_BYTES = 128 * 1024 * 1024;

const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const textOf = (bytes: Uint8Array): Parsed<string> => {
  try {
    return { ok: true, value: utf8.decode(bytes) };
  } catch {
    return refused(`A part of it is not text. ${AFTER}`);
  }
};

const checkNames = ({ ranges, photos }: BackupManifest, parts: ReadonlyMap<string, ZipPart>): Parsed<null> => {
  const listed = [...ranges, ...photos];
  if (parts.size !== listed.length + 1) return refused(`It has parts that its list of contents does not name, or lacks some. ${AFTER}`);
  const missing = listed.find(({ name }) => !parts.has(name));
  return missing === undefined ? { ok: true, value: null } : refused(`A part is missing: ${missing.name}. ${AFTER}`);
};

type Listed = { readonly name: string; readonly bytes: number; readonly sha256: string };
/** Unpacks a part and compares it with the manifest. */
const provenPart = ({ name, bytes, sha256 }: Listed, part: ZipPart): Parsed<Buffer> => {
  const data = part.unpack();
  if (!data.ok) return data;
  if (data.value.length !== bytes || sha256Of(data.value) !== sha256)
    return refused(`A part was changed after it was written: ${name}. ${AFTER}`);
  if (name.startsWith('photos/') && pictureSha256(name) !== sha256) return refused(`A photo is not the one its name says. ${AFTER}`);
  return data;
};

type Line = { readonly from: number; to: number };
/** The lines of a range: `[`, a record per line with a comma between, `]`. Null in any other form. */
const linesOf = (bytes: Buffer): readonly Line[] | null => {
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

const proveRange = (range: BackupRange, bytes: Buffer): Parsed<null> => {
  const lines = linesOf(bytes);
  if (lines === null) return tableRefusal(range.table, 'shape');
  if (lines.length !== range.rows) return tableRefusal(range.table, 'count');
  let last = '';
  for (const [i, { from, to }] of lines.entries()) {
    const text = textOf(bytes.subarray(from, to));
    if (!text.ok) return text;
    const row = readRowLine(range.table, text.value);
    if (!row.ok) return row;
    const { id } = row.value;
    if (!(id > last) || (i === 0 && id !== range.first)) return tableRefusal(range.table, 'order');
    last = id;
  }
  return last === range.last ? { ok: true, value: null } : tableRefusal(range.table, 'order');
};

const provenRange = (range: BackupRange, part: ZipPart): Parsed<null> => {
  const data = provenPart(range, part);
  return data.ok ? proveRange(range, data.value) : data;
};

const packedProven = ({ name, packedSha256 }: BackupRange, part: ZipPart): Parsed<null> =>
  sha256Of(part.packed.bytes) === packedSha256
    ? { ok: true, value: null }
    : refused(`A part was changed after it was written: ${name}. ${AFTER}`);

type Placed = { readonly range: BackupRange; readonly part: ZipPart };

/** A verified backup. */
export class OpenedBackup {
  readonly manifest: BackupManifest;
  private readonly tables = new Map<string, Placed[]>();
  private readonly inside: ReadonlyMap<string, ZipPart>;
  /** The range read last, because ranges are read in order. */
  private unpacked: { readonly name: string; readonly bytes: Buffer; readonly lines: readonly Line[] } | null = null;

  constructor(manifest: BackupManifest, parts: ReadonlyMap<string, ZipPart>) {
    this.manifest = manifest;
    for (const range of manifest.ranges) {
      const part = parts.get(range.name);
      if (part !== undefined) this.tables.set(range.table, [...(this.tables.get(range.table) ?? []), { range, part }]);
    }
    this.inside = new Map([...parts].filter(([name]) => name.startsWith('photos/')));
  }

  ranges(table: TableName): readonly BackupRange[] {
    return (this.tables.get(table) ?? []).map(({ range }) => range);
  }

  count(table: TableName): number {
    return this.ranges(table).reduce((sum, { rows }) => sum + rows, 0);
  }

  /** The packed bytes of a range; null when they were changed. */
  packed(table: TableName, index: number): { readonly range: BackupRange; readonly packed: PackedBytes } | null {
    const placed = this.tables.get(table)?.[index];
    if (placed === undefined) return null;
    const { range, part } = placed;
    return sha256Of(part.packed.bytes) === range.packedSha256 ? { range, packed: part.packed } : null;
  }

  /** The rows of one range, as stored. */
  rangeRows(table: TableName, index: number): StoredRow[] {
    const placed = this.tables.get(table)?.[index];
    if (placed === undefined) return [];
    if (this.unpacked?.name !== placed.range.name) {
      const bytes = placed.part.unpack();
      const lines = bytes.ok ? linesOf(bytes.value) : null;
      // The same bytes were verified when the backup was opened.
      if (!bytes.ok || lines === null) throw new Error('A proven range does not unpack.');
      this.unpacked = { name: placed.range.name, bytes: bytes.value, lines };
    }
    const { bytes, lines } = this.unpacked;
    return lines.flatMap(({ from, to }) => {
      const row = readRowLine(table, utf8.decode(bytes.subarray(from, to)));
      return row.ok ? [row.value] : [];
    });
  }

  /** Rows of a table from an index on, in whole ranges (at least one) up to a size, migrated to this program's version. */
  rows(table: TableName, from: number, budgetBytes: number): StoredRow[] {
    const rows: StoredRow[] = [];
    let before = 0;
    let size = 0;
    for (const [index, range] of this.ranges(table).entries()) {
      const skip = from - before;
      before += range.rows;
      if (before <= from) continue;
      if (size >= budgetBytes) break;
      for (const row of this.rangeRows(table, index).slice(Math.max(0, skip))) rows.push(carryRow(table, row, this.manifest.schemaVersion));
      size += range.bytes;
    }
    return rows;
  }

  /** Names of all its photos. */
  pictures(): string[] {
    return [...this.inside.keys(), ...this.manifest.beside];
  }

  /** A photo inside the file; null for one beside it. */
  picture(name: string): Buffer | null {
    const data = this.inside.get(name)?.unpack();
    return data?.ok === true ? data.value : null;
  }
}

/**
 * Reads a backup.
 * @param prove `all`: verifies every checksum, count and row, before a person opens it; `packed`: verifies the checksums of the packed
 * bytes, for a file of this computer that was verified when it was written
 * @returns the backup, or a sentence why it cannot be opened
 */
export function openBackupBytes(bytes: Uint8Array, prove: 'all' | 'packed' = 'all', limits: ZipLimits = ZIP_LIMITS): Parsed<OpenedBackup> {
  const zip = readZip(bytes, limits);
  if (!zip.ok) return zip;
  const listed = zip.value.get(MANIFEST_NAME);
  if (listed === undefined) return refused('This is not a Straightedge backup. Choose a file from the Backups folder.');
  if (listed.packed.size > MANIFEST_BYTES) return refused(`Its list of contents is larger than any backup has. ${AFTER}`);
  const unpacked = listed.unpack();
  if (!unpacked.ok) return unpacked;
  const text = textOf(unpacked.value);
  if (!text.ok) return text;
  const manifest = readManifest(text.value);
  if (!manifest.ok) return manifest;
  const names = checkNames(manifest.value, zip.value);
  if (!names.ok) return names;
  const { ranges, photos } = manifest.value;
  for (const range of ranges) {
    const part = zip.value.get(range.name);
    if (part === undefined) continue;
    const proven = prove === 'all' ? provenRange(range, part) : packedProven(range, part);
    if (!proven.ok) return proven;
  }
  for (const photo of prove === 'all' ? photos : []) {
    const part = zip.value.get(photo.name);
    const proven = part === undefined ? null : provenPart(photo, part);
    if (proven?.ok === false) return proven;
  }
  return { ok: true, value: new OpenedBackup(manifest.value, zip.value) };
}
