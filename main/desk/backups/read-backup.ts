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
  tableRefusal,
} from '../../../shared-core/book/backup.ts';
import { SCHEMA_VERSION, type TableName } from '../../../shared-core/book/tables.ts';
import { type Parsed, refused } from '../../../shared-core/measure/parsed.ts';
import { AFTER, linesOf, readRange, textOf } from './range-lines.ts';
import { type PackedBytes, readZip, ZIP_LIMITS, type ZipLimits, type ZipPart } from './read-zip.ts';
import { sha256Of } from '../files.ts';

/** Maximum size of a manifest, bytes; one with a million photos is smaller. */
const MANIFEST_BYTES = 128 * 1024 * 1024;

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

const proveRange = (range: BackupRange, bytes: Buffer): Parsed<null> => {
  const rows = readRange(range.table, bytes);
  if (!rows.ok) return rows;
  if (rows.value.length !== range.rows) return tableRefusal(range.table, 'count');
  const isThis = rows.value[0]?.id === range.first && rows.value.at(-1)?.id === range.last;
  return isThis ? { ok: true, value: null } : tableRefusal(range.table, 'order');
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

  private rangeBytes({ part }: Placed): Buffer {
    const bytes = part.unpack();
    // The same bytes were verified when the backup was opened.
    if (!bytes.ok) throw new Error('A proven range does not unpack.');
    return bytes.value;
  }

  /** The rows of one range, as stored. */
  rangeRows(table: TableName, index: number): StoredRow[] {
    const placed = this.tables.get(table)?.[index];
    return placed === undefined ? [] : (JSON.parse(this.rangeBytes(placed).toString('utf8')) as StoredRow[]);
  }

  /** The rows of a range from an index on, as text: of this version as they are written, of an older one migrated. */
  private rowsText(table: TableName, placed: Placed, skip: number): Uint8Array {
    const bytes = this.rangeBytes(placed);
    const { schemaVersion } = this.manifest;
    if (schemaVersion === SCHEMA_VERSION) {
      const lines = linesOf(bytes) ?? [];
      return bytes.subarray(lines[skip]?.from, lines.at(-1)?.to);
    }
    const rows = (JSON.parse(bytes.toString('utf8')) as StoredRow[]).slice(skip).map((row) => carryRow(table, row, schemaVersion));
    return Buffer.from(rows.map((row) => JSON.stringify(row)).join(',\n'), 'utf8');
  }

  /**
   * Rows of a table from an index on, in whole ranges (at least one) up to a size, migrated to this program's version.
   * @returns them as a JSON array, and their number
   */
  rows(table: TableName, from: number, budgetBytes: number): { readonly bytes: Buffer<ArrayBuffer>; readonly many: number } {
    const texts: Uint8Array[] = [];
    let [before, many, size] = [0, 0, 0];
    for (const placed of this.tables.get(table) ?? []) {
      const { range } = placed;
      const skip = Math.max(0, from - before);
      before += range.rows;
      if (before <= from) continue;
      if (size >= budgetBytes) break;
      texts.push(Buffer.from(many === 0 ? '[' : ',\n'), this.rowsText(table, placed, skip));
      many += range.rows - skip;
      size += range.bytes;
    }
    return { bytes: Buffer.concat([...texts, Buffer.from(many === 0 ? '[]' : ']')]), many };
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
