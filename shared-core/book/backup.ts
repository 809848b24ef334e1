/**
 * The backup: all data as entries of a zip, with a manifest of its contents. A table is a number of ranges of its rows, each
 * an entry of its own, so that the next backup copies those that did not change. Photos are beside it, each stored once by its content.
 * Pure; bytes and hashing belong to the desk.
 */
import { z } from 'zod';
import { type Parsed, refused } from '../measure/parsed.ts';
import { backupReasonSchema, datasetSchema } from './backup-names.ts';
import { MIGRATIONS, type Migration, migrateRow, type StoredRow } from './migrations/all-steps.ts';
import { SCHEMA_VERSION, TABLE_NAMES, TABLES, type TableName } from './tables.ts';

export const BACKUP_FORMAT = 'straightedge-backup';
/** The version of the container, raised only for a change that older readers cannot read. */
export const BACKUP_FORMAT_VERSION = 1;
export const MANIFEST_NAME = 'manifest.json';

/** All data: the rows of every table, as stored. */
export type BookRows = Readonly<Record<TableName, readonly StoredRow[]>>;

const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/, 'A checksum has 64 hexadecimal digits.');
/** A photo's name: the checksum of its bytes and its kind. */
export const pictureNameSchema = z.string().regex(/^photos\/[0-9a-f]{64}\.(jpg|png|webp)$/, 'A photo is named by its content.');
const tableNameSchema = z.string().regex(/^[A-Za-z]{1,40}$/);
const rangeEntrySchema = z.string().regex(/^tables\/[A-Za-z]{1,40}\/\d{5}\.json$/, 'An entry is a range of a table.');
const MOST_ROWS = 10_000_000;

/** Rows of one table from an id through another, ids ascending: one entry. */
export const rangeSchema = z.strictObject({
  table: tableNameSchema,
  name: rangeEntrySchema,
  rows: z.int().min(1).max(MOST_ROWS),
  first: z.string().min(1).max(80),
  last: z.string().min(1).max(80),
  /** Size and checksum unpacked, and the checksum of the packed bytes as they are in the zip. */
  bytes: z.int().min(0),
  sha256: sha256Schema,
  packedSha256: sha256Schema,
});
export type BackupRange = z.infer<typeof rangeSchema>;

export const manifestSchema = z.strictObject({
  format: z.literal(BACKUP_FORMAT),
  formatVersion: z.literal(BACKUP_FORMAT_VERSION),
  schemaVersion: z.int().min(1),
  /** The data set, because two may share a folder. */
  dataset: datasetSchema,
  madeAt: z.iso.datetime(),
  reason: backupReasonSchema,
  /** In the order of the tables and of their rows. */
  ranges: z.array(rangeSchema).max(50_000),
  /** Photos inside the file: a portable backup has all of them. */
  photos: z.array(z.strictObject({ name: pictureNameSchema, bytes: z.int().min(0), sha256: sha256Schema })).max(60_000),
  /** Photos in the folder `Photos` beside this file, shared with the other backups there. */
  beside: z.array(pictureNameSchema).max(1_000_000),
});
export type BackupManifest = z.infer<typeof manifestSchema>;

const headSchema = z.looseObject({ format: z.literal(BACKUP_FORMAT), formatVersion: z.int().min(1), schemaVersion: z.int().min(1) });

const DAMAGED = 'The backup is damaged. Choose an older one. Your data was not changed.';

/** The name of the entry that holds a range of a table, counted from 0. */
export function rangeEntryName(table: TableName, index: number): string {
  return `tables/${table}/${String(index).padStart(5, '0')}.json`;
}

/** A range as it is written: the rows as JSON, one per line. */
export const rangeText = (rows: readonly string[]): string => `[\n${rows.join(',\n')}\n]\n`;

const readJson = (text: string): Parsed<unknown> => {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch {
    return refused(`A part of this backup is not readable text. ${DAMAGED}`);
  }
};

/** A manifest nests four levels; deeper ones are refused before parsing. */
const MOST_DEPTH = 8;
const isTooDeep = (text: string): boolean => {
  let depth = 0;
  for (let i = 0; i < text.length; i += 1) {
    const code = text.charCodeAt(i);
    if (code === 91 || code === 123) depth += 1;
    else if (code === 93 || code === 125) depth -= 1;
    if (depth > MOST_DEPTH) return true;
  }
  return false;
};

const checkRanges = ({ ranges, photos, beside }: BackupManifest): Parsed<null> => {
  const names = new Set<string>([...ranges, ...photos].map(({ name }) => name));
  for (const name of beside) names.add(name);
  if (names.size !== ranges.length + photos.length + beside.length) return refused(`This backup lists the same part twice. ${DAMAGED}`);
  let offset = 0;
  let last = '';
  for (const range of ranges) {
    const table = TABLE_NAMES.findIndex((name) => name === range.table);
    if (table < 0) return refused(`This backup has a table that this version does not know. ${DAMAGED}`);
    const isNext = table > offset || (table === offset && range.first > last);
    if (!isNext || range.first > range.last || !range.name.startsWith(`tables/${range.table}/`))
      return refused(`The tables of this backup are out of order. ${DAMAGED}`);
    offset = table;
    ({ last } = range);
  }
  return { ok: true, value: null };
};

/**
 * Reads a manifest.
 * @param text the entry `manifest.json`
 * @returns the manifest, or a sentence: no backup of ours, of a newer version, or damaged
 */
export function readManifest(text: string): Parsed<BackupManifest> {
  if (isTooDeep(text)) return refused(`The list of contents of this backup cannot be read. ${DAMAGED}`);
  const json = readJson(text);
  if (!json.ok) return json;
  const head = headSchema.safeParse(json.value);
  if (!head.success) return refused('This is not a Straightedge backup. Choose a file from the Backups folder.');
  const { formatVersion, schemaVersion } = head.data;
  if (formatVersion > BACKUP_FORMAT_VERSION || schemaVersion > SCHEMA_VERSION)
    return refused('This backup was made by a newer version of Straightedge. Update the program, then open it again.');
  const manifest = manifestSchema.safeParse(json.value);
  if (!manifest.success) return refused(`The list of contents of this backup cannot be read. ${DAMAGED}`);
  const checked = checkRanges(manifest.data);
  return checked.ok ? { ok: true, value: manifest.data } : checked;
}

const isRow = (value: unknown): value is StoredRow & { readonly id: string } =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && 'id' in value && typeof value.id === 'string' && value.id !== '';

/**
 * Reads one row of a range as it is on its line.
 * @returns the row as it was stored, with its id; or a sentence
 */
export function readRowLine(table: string, line: string): Parsed<StoredRow & { readonly id: string }> {
  const json = readJson(line);
  if (!json.ok) return json;
  return isRow(json.value)
    ? { ok: true, value: json.value }
    : refused(`The table “${table}” has something that is not a record. ${DAMAGED}`);
}

/**
 * Migrates a row of a backup to the current version. A row that a step cannot read is left unchanged and listed by the data check.
 * @param from the schema version the backup was written with
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

/** The message for a damaged table. */
export function tableRefusal(table: string, damage: 'count' | 'order' | 'shape'): { readonly ok: false; readonly message: string } {
  const problem = {
    count: 'does not have the records it should',
    order: 'has the same record twice, or records out of order',
    shape: 'is not written one record per line',
  }[damage];
  return refused(`The table “${table}” ${problem}. ${DAMAGED}`);
}

const EXTENSIONS: Readonly<Record<string, string>> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' };

/** The file name of a photo; null for a record without a valid kind and checksum. */
export function pictureName(row: StoredRow): string | null {
  const { mediaType, sha256 } = row as { readonly mediaType?: unknown; readonly sha256?: unknown };
  if (typeof mediaType !== 'string' || typeof sha256 !== 'string' || !Object.hasOwn(EXTENSIONS, mediaType)) return null;
  const name = `photos/${sha256}.${EXTENSIONS[mediaType] ?? ''}`;
  return pictureNameSchema.safeParse(name).success ? name : null;
}

/** The checksum in a photo's name. */
export function pictureSha256(name: string): string {
  return name.slice('photos/'.length).split('.')[0] ?? '';
}

/**
 * JSON Schema (draft 2020-12) of the manifest and of every table's rows, generated from the schemas that read them. Each stands alone:
 * its `$ref`s point into its own `$defs`.
 */
export function backupJsonSchemas(): Readonly<Record<string, unknown>> {
  const jsonSchema = (schema: z.ZodType): unknown => z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any', reused: 'ref' });
  return {
    manifest: jsonSchema(manifestSchema),
    ...Object.fromEntries(TABLE_NAMES.map((table) => [table, jsonSchema(z.array(TABLES[table].schema))])),
  };
}
