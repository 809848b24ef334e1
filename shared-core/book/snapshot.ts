/**
 * The snapshot: the whole book as entries of a zip, with a manifest that says what must be in it, and the photos beside it,
 * each stored once by its content. Pure; bytes and hashing belong to the desk.
 */
import { z } from 'zod';
import type { Parsed } from '../measure/parsed.ts';
import { MIGRATIONS, type Migration, migrateRow, type StoredRow } from './migrations/list.ts';
import { SCHEMA_VERSION, TABLE_NAMES, TABLES, type TableName } from './tables.ts';

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
/** A photo's name: the checksum of its bytes and its kind. */
export const pictureNameSchema = z.string().regex(/^photos\/[0-9a-f]{64}\.(jpg|png|webp)$/, 'A photo is named by its content.');
const tableEntrySchema = z.string().regex(/^tables\/[A-Za-z]{1,40}\.json$/, 'An entry is a table or a photo, nothing else.');

export const manifestSchema = z.strictObject({
  format: z.literal(SNAPSHOT_FORMAT),
  formatVersion: z.literal(SNAPSHOT_FORMAT_VERSION),
  schemaVersion: z.int().min(1),
  madeAt: z.iso.datetime(),
  reason: snapshotReasonSchema,
  /** How many rows each table holds. */
  counts: z.record(z.string().regex(/^[A-Za-z]{1,40}$/), z.int().min(0).max(10_000_000)),
  /** Every other entry of the zip: its name, its size unpacked and its checksum. */
  entries: z
    .array(z.strictObject({ name: z.union([tableEntrySchema, pictureNameSchema]), bytes: z.int().min(0), sha256: sha256Schema }))
    .max(60_000),
  /** Photos that lie in the folder `Photos` beside this file, shared with the other snapshots there. */
  beside: z.array(pictureNameSchema).max(1_000_000),
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
  const { entries, beside, counts } = manifest.data;
  const names = new Set([...entries.map((entry) => entry.name), ...beside]);
  if (names.size !== entries.length + beside.length) return refused(`This backup lists the same part twice. ${DAMAGED}`);
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
 * Reads one row of a table's entry as it stands on its line.
 * @returns the row as it was stored, with its id; or a sentence
 */
export function readRowLine(table: TableName, line: string): Parsed<StoredRow & { readonly id: string }> {
  const json = readJson(line);
  if (!json.ok) return json;
  return isRow(json.value)
    ? { ok: true, value: json.value }
    : refused(`The table “${table}” holds something that is no record. ${DAMAGED}`);
}

/**
 * Carries a row of a snapshot to the version this program writes. One that a step cannot read stays as it is; the check of the
 * book lists it.
 * @param from the schema version the snapshot was written with
 */
export function carryRow(
  table: TableName,
  row: StoredRow,
  from: number,
  to: number = SCHEMA_VERSION,
  steps: readonly Migration[] = MIGRATIONS,
): StoredRow {
  try {
    return migrateRow(table, row, from, to, steps);
  } catch (error) {
    if (error instanceof RangeError) throw error;
    return row;
  }
}

/** What a damaged table is answered with. */
export function tableRefusal(table: TableName, what: 'count' | 'order' | 'shape'): { readonly ok: false; readonly message: string } {
  const says = {
    count: 'does not hold the rows it should',
    order: 'holds the same record twice, or its records out of order',
    shape: 'is not written one record a line',
  }[what];
  return refused(`The table “${table}” ${says}. ${DAMAGED}`);
}

const EXTENSIONS: Readonly<Record<string, string>> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' };

/** The name a photo's bytes go by; null for a record that does not say its kind or checksum as the format knows them. */
export function pictureName(row: StoredRow): string | null {
  const { mediaType, sha256 } = row as { readonly mediaType?: unknown; readonly sha256?: unknown };
  if (typeof mediaType !== 'string' || typeof sha256 !== 'string' || !Object.hasOwn(EXTENSIONS, mediaType)) return null;
  const name = `photos/${sha256}.${EXTENSIONS[mediaType] ?? ''}`;
  return pictureNameSchema.safeParse(name).success ? name : null;
}

/** The checksum a photo's name carries. */
export function pictureSha256(name: string): string {
  return name.slice('photos/'.length).split('.')[0] ?? '';
}

/** JSON Schema (draft 2020-12) of the manifest and of every table's rows, generated from the schemas that read them. */
export function snapshotJsonSchemas(): Readonly<Record<string, unknown>> {
  const of = (schema: z.ZodType): unknown => z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any', reused: 'ref' });
  return {
    manifest: of(manifestSchema),
    ...Object.fromEntries(TABLE_NAMES.map((table) => [table, { type: 'array', items: of(TABLES[table].schema) }])),
  };
}
