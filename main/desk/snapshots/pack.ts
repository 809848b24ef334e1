/** The book into a snapshot's bytes and back. */
import { createHash } from 'node:crypto';
import { zipSync, type Zippable } from 'fflate';
import type { StoredRow } from '../../../shared-core/book/migrations/list.ts';
import {
  type BookRows,
  MANIFEST_NAME,
  photoEntryName,
  photoPointer,
  readManifest,
  readTable,
  SNAPSHOT_FORMAT,
  SNAPSHOT_FORMAT_VERSION,
  type SnapshotManifest,
  type SnapshotReason,
  tableEntryName,
  writeTable,
} from '../../../shared-core/book/snapshot.ts';
import { SCHEMA_VERSION, TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import type { Parsed } from '../../../shared-core/measure/parsed.ts';
import { readZip, ZIP_LIMITS, type ZipLimits } from './read-zip.ts';

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Tables are small next to what deflating them hardest would cost; pictures are packed already. */
const TABLE_LEVEL = 6;

const takeOutPhoto = (row: StoredRow, photos: Map<string, Uint8Array>): StoredRow => {
  const { data, mediaType } = row as { readonly data?: unknown; readonly mediaType?: unknown };
  if (typeof data !== 'string' || data === '') return row;
  const bytes = Buffer.from(data, 'base64');
  // Text that is not plain base64 would not come back letter by letter: it stays in the row.
  if (bytes.toString('base64') !== data) return row;
  const name = photoEntryName(mediaType, sha256Of(bytes));
  if (name === null) return row;
  photos.set(name, bytes);
  return { ...row, data: { entry: name } };
};

/** Packs the book. The same rows and moment give the same bytes. */
export function packBook(rows: BookRows, madeAt: string, reason: SnapshotReason): Uint8Array {
  const photos = new Map<string, Uint8Array>();
  const tables = TABLE_NAMES.map((table) => {
    const written = table === 'photos' ? rows.photos.map((row) => takeOutPhoto(row, photos)) : rows[table];
    return [tableEntryName(table), Buffer.from(writeTable(written), 'utf8')] as const;
  });
  const parts = [...tables, ...[...photos].sort(([a], [b]) => (a < b ? -1 : 1))];
  const manifest: SnapshotManifest = {
    format: SNAPSHOT_FORMAT,
    formatVersion: SNAPSHOT_FORMAT_VERSION,
    schemaVersion: SCHEMA_VERSION,
    madeAt,
    reason,
    counts: Object.fromEntries(TABLE_NAMES.map((table) => [table, rows[table].length])),
    entries: parts.map(([name, bytes]) => ({ name, bytes: bytes.length, sha256: sha256Of(bytes) })),
  };
  const mtime = madeAt;
  const zip: Zippable = {
    [MANIFEST_NAME]: [Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`, 'utf8'), { mtime, level: TABLE_LEVEL }],
  };
  for (const [name, bytes] of parts) zip[name] = [bytes, { mtime, level: name.startsWith('photos/') ? 0 : TABLE_LEVEL }];
  return zipSync(zip);
}

export type UnpackedBook = { readonly manifest: SnapshotManifest; readonly rows: BookRows };

const refused = (message: string): { readonly ok: false; readonly message: string } => ({ ok: false, message });
const AFTER = 'The backup is damaged: choose an older one; nothing in the book was changed.';

const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const textOf = (bytes: Buffer): Parsed<string> => {
  try {
    return { ok: true, value: utf8.decode(bytes) };
  } catch {
    return refused(`A part of it is not text. ${AFTER}`);
  }
};

const putInPhoto = (row: StoredRow, parts: ReadonlyMap<string, Buffer>, used: Set<string>): Parsed<StoredRow> => {
  const name = photoPointer(row);
  if (name === null) return { ok: true, value: row };
  const bytes = name.startsWith('photos/') ? parts.get(name) : undefined;
  if (bytes === undefined) return refused(`A photo is missing from it. ${AFTER}`);
  used.add(name);
  return { ok: true, value: { ...row, data: bytes.toString('base64') } };
};

const checkParts = (manifest: SnapshotManifest, parts: ReadonlyMap<string, Buffer>): Parsed<null> => {
  if (parts.size !== manifest.entries.length + 1)
    return refused(`It holds parts that its list of contents does not name, or lacks some. ${AFTER}`);
  for (const { name, bytes, sha256 } of manifest.entries) {
    const data = parts.get(name);
    if (data === undefined) return refused(`A part is missing: ${name}. ${AFTER}`);
    if (data.length !== bytes || sha256Of(data) !== sha256) return refused(`A part was changed after it was written: ${name}. ${AFTER}`);
    if (name.startsWith('photos/') && name.slice('photos/'.length, -'.jpg'.length).split('.')[0] !== sha256)
      return refused(`A photo is not the one its name says. ${AFTER}`);
  }
  return { ok: true, value: null };
};

const readTables = (manifest: SnapshotManifest, parts: ReadonlyMap<string, Buffer>): Parsed<BookRows> => {
  const rows: Partial<Record<TableName, readonly StoredRow[]>> = {};
  const used = new Set<string>();
  for (const table of TABLE_NAMES) {
    const part = parts.get(tableEntryName(table));
    if (part === undefined) {
      rows[table] = [];
      continue;
    }
    const text = textOf(part);
    if (!text.ok) return text;
    const read = readTable(table, text.value, manifest.counts[table] ?? -1, manifest.schemaVersion);
    if (!read.ok) return read;
    if (table !== 'photos') {
      rows[table] = read.value;
      continue;
    }
    const photos: StoredRow[] = [];
    for (const row of read.value) {
      const photo = putInPhoto(row, parts, used);
      if (!photo.ok) return photo;
      photos.push(photo.value);
    }
    rows.photos = photos;
  }
  if ([...parts.keys()].some((name) => name.startsWith('photos/') && !used.has(name)))
    return refused(`It holds a photo no record knows. ${AFTER}`);
  // Every table was given its rows by the walk above.
  return { ok: true, value: rows as BookRows };
};

/** Reads a snapshot whole, every checksum and count proven, rows carried to this program's version; or says why not. */
export function unpackBook(bytes: Uint8Array, limits: ZipLimits = ZIP_LIMITS): Parsed<UnpackedBook> {
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
  const rows = readTables(manifest.value, zip.value);
  return rows.ok ? { ok: true, value: { manifest: manifest.value, rows: rows.value } } : rows;
}
