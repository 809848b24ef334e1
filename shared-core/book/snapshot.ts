/** The snapshot: the whole book as entries of a zip, with a manifest that says what must be in it. Pure; bytes and hashing belong to the desk. */
import { z } from 'zod';
import type { Parsed } from '../measure/parsed.ts';
import { MIGRATIONS, type Migration, migrateRow, type StoredRow } from './migrations/list.ts';
import { SCHEMA_VERSION, TABLE_NAMES, type TableName } from './tables.ts';

export const SNAPSHOT_FORMAT = 'straightedge-book';
/** The version of the container. Raised only when a reader of the old one could no longer read it. */
export const SNAPSHOT_FORMAT_VERSION = 1;
export const MANIFEST_NAME = 'manifest.json';

/** The whole book: the rows of every table, as stored. */
export type BookRows = Readonly<Record<TableName, readonly StoredRow[]>>;

/** Why a snapshot was made. */
export const snapshotReasonSchema = z.enum(['asked', 'settled', 'closing', 'before-restoring']);
export type SnapshotReason = z.infer<typeof snapshotReasonSchema>;

const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/, 'A checksum has 64 hexadecimal digits.');
const entryNameSchema = z
  .string()
  .regex(/^(tables\/[A-Za-z]{1,40}\.json|photos\/[0-9a-f]{64}\.(jpg|png|webp))$/, 'An entry is a table or a photo, nothing else.');

const manifestSchema = z.strictObject({
  format: z.literal(SNAPSHOT_FORMAT),
  formatVersion: z.literal(SNAPSHOT_FORMAT_VERSION),
  schemaVersion: z.int().min(1),
  madeAt: z.iso.datetime(),
  reason: snapshotReasonSchema,
  /** How many rows each table holds. */
  counts: z.record(z.string().regex(/^[A-Za-z]{1,40}$/), z.int().min(0).max(10_000_000)),
  /** Every other entry of the zip: its name, its size unpacked and its checksum. */
  entries: z.array(z.strictObject({ name: entryNameSchema, bytes: z.int().min(0), sha256: sha256Schema })).max(200_000),
});
export type SnapshotManifest = z.infer<typeof manifestSchema>;

const headSchema = z.looseObject({ format: z.literal(SNAPSHOT_FORMAT), formatVersion: z.int().min(1), schemaVersion: z.int().min(1) });

const refused = (message: string): { readonly ok: false; readonly message: string } => ({ ok: false, message });
const DAMAGED = 'It is damaged: choose an older backup; nothing in the book was changed.';

/** The name of the entry that holds a table. */
export function tableEntryName(table: TableName): string {
  return `tables/${table}.json`;
}

const readJson = (text: string): Parsed<unknown> => {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch {
    return refused(`A part of this backup is not readable text. ${DAMAGED}`);
  }
};

/**
 * Reads a manifest.
 * @param text the entry `manifest.json`
 * @returns the manifest, or a sentence: no backup of ours, of a newer program, or damaged
 */
export function readManifest(text: string): Parsed<SnapshotManifest> {
  const json = readJson(text);
  if (!json.ok) return json;
  const head = headSchema.safeParse(json.value);
  if (!head.success) return refused('This is not a backup of a job book. Choose a file from the Backups folder.');
  const { formatVersion, schemaVersion } = head.data;
  if (formatVersion > SNAPSHOT_FORMAT_VERSION || schemaVersion > SCHEMA_VERSION)
    return refused('This backup was made by a newer version of Straightedge. Update the program, then open it again.');
  const manifest = manifestSchema.safeParse(json.value);
  if (!manifest.success) return refused(`The list of contents of this backup cannot be read. ${DAMAGED}`);
  const { entries, counts } = manifest.data;
  const names = new Set(entries.map((entry) => entry.name));
  if (names.size !== entries.length) return refused(`This backup lists the same part twice. ${DAMAGED}`);
  const known = new Set<string>(TABLE_NAMES.map(tableEntryName));
  for (const name of names)
    if (name.startsWith('tables/') && !known.has(name)) return refused(`This backup holds a table this program does not know. ${DAMAGED}`);
  for (const table of Object.keys(counts))
    if (!names.has(`tables/${table}.json`)) return refused(`This backup counts rows it does not hold. ${DAMAGED}`);
  for (const table of TABLE_NAMES) {
    const there = names.has(tableEntryName(table));
    // A book of an older version may not have had this table yet.
    if (!there && schemaVersion === SCHEMA_VERSION) return refused(`A table is missing from this backup. ${DAMAGED}`);
    if (there && !Object.hasOwn(counts, table)) return refused(`This backup does not count all its rows. ${DAMAGED}`);
  }
  return { ok: true, value: manifest.data };
}

const isRow = (value: unknown): value is StoredRow & { readonly id: string } =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && 'id' in value && typeof value.id === 'string' && value.id !== '';

/**
 * Reads one table's entry and carries its rows to the version this program writes.
 * A row that a migration cannot read stays as it is; the check of the book lists it.
 * @param count the rows the manifest promises
 * @param from the schema version it was written with
 */
export function readTable(
  table: TableName,
  text: string,
  count: number,
  from: number,
  to: number = SCHEMA_VERSION,
  steps: readonly Migration[] = MIGRATIONS,
): Parsed<StoredRow[]> {
  const json = readJson(text);
  if (!json.ok) return json;
  if (!Array.isArray(json.value) || json.value.length !== count)
    return refused(`The table “${table}” does not hold the rows it should. ${DAMAGED}`);
  const seen = new Set<string>();
  const rows: StoredRow[] = [];
  for (const row of json.value as readonly unknown[]) {
    if (!isRow(row)) return refused(`The table “${table}” holds something that is no record. ${DAMAGED}`);
    if (seen.has(row.id)) return refused(`The table “${table}” holds the same record twice. ${DAMAGED}`);
    seen.add(row.id);
    try {
      rows.push(migrateRow(table, row, from, to, steps));
    } catch (error) {
      if (error instanceof RangeError) throw error;
      rows.push(row);
    }
  }
  return { ok: true, value: rows };
}

/** The text of one table's entry: rows by id, one a line, so that two snapshots of the same book are the same bytes. */
export function writeTable(rows: readonly StoredRow[]): string {
  const sorted = [...rows].sort((a, b) => (String(a['id']) < String(b['id']) ? -1 : 1));
  return `[${sorted.map((row) => `\n${JSON.stringify(row)}`).join(',')}\n]\n`;
}

const EXTENSIONS: Readonly<Record<string, string>> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' };

/** The name of a photo's entry by the checksum of its bytes; null for a kind of picture the format does not know. */
export function photoEntryName(mediaType: unknown, sha256: string): string | null {
  const extension = typeof mediaType === 'string' && Object.hasOwn(EXTENSIONS, mediaType) ? EXTENSIONS[mediaType] : undefined;
  return extension === undefined ? null : `photos/${sha256}.${extension}`;
}

/** The entry a stored photo points to instead of holding its picture; null when it holds it itself. */
export function photoPointer(row: StoredRow): string | null {
  const { data } = row as { readonly data?: unknown };
  if (typeof data !== 'object' || data === null || !('entry' in data)) return null;
  return typeof data.entry === 'string' ? data.entry : null;
}
