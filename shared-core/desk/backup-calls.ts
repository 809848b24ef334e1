/**
 * The calls that back up, read backups and choose where they go. Data crosses in pieces: neither side ever holds one call's worth
 * of all of it.
 */
import { z } from 'zod';
import { backupNameSchema, datasetSchema } from '../book/backup-names.ts';
import { backupReasonSchema } from '../book/backup-names.ts';
import { pictureNameSchema } from '../book/backup.ts';
import { TABLE_NAMES } from '../book/tables.ts';
import { call } from './call.ts';

const idSchema = z.string().regex(/^[0-9a-f]{24}$/, 'This was interrupted. Start it again.');
const base64 = z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/, 'Bytes are sent as base64.');
const bytes = z.instanceof(Uint8Array);
/** How many photos one call carries at most; large ones are fewer, by their bytes. */
export const PHOTOS_PER_CALL = 200;
const pictures = z.array(z.strictObject({ name: pictureNameSchema, base64: base64.max(12_000_000) })).max(PHOTOS_PER_CALL);

/** The key made from a passphrase, stored so that backups are encrypted without asking each time. */
export const keySchema = z.strictObject({ salt: base64.length(24), key: base64.length(88) });
/** Shorter passphrases can be guessed. */
export const passphraseSchema = z
  .string()
  .min(10, 'Enter at least 10 characters. Four unrelated words are better than one word with symbols.')
  .max(200, 'Enter at most 200 characters.');

const saved = z.strictObject({ name: z.string(), folder: z.string(), bytes: z.int(), sha256: z.string() });

/** The storage limits to choose from. */
export const LIMITS_BYTES = [500_000_000, 2_000_000_000, 10_000_000_000, 50_000_000_000] as const;

export const BACKUP_CALLS = {
  /** The backups, newest first, with their size and the free space. */
  'backup.list': call(
    z.strictObject({ dataset: datasetSchema }),
    z.strictObject({
      folder: z.string(),
      /** Whether the user chose it. */
      chosen: z.boolean(),
      /** Whether this host can ask for another. */
      canChoose: z.boolean(),
      limitBytes: z.int(),
      /** Why the folder cannot be read: what it holds and the free space are unknown then. */
      problem: z.string().nullable(),
      photosBytes: z.int(),
      freeBytes: z.int().nullable(),
      backups: z.array(
        z.strictObject({
          name: backupNameSchema,
          madeAt: z.iso.datetime(),
          bytes: z.int(),
          reason: backupReasonSchema,
          /** Made from this data, not from another set in the same folder. */
          isOwn: z.boolean(),
          isEncrypted: z.boolean(),
        }),
      ),
    }),
  ),
  /** Deletes one backup. */
  'backup.delete': call(z.strictObject({ name: backupNameSchema }), z.strictObject({ deleted: z.boolean() })),
  /** Lets the user choose a folder in the system's own dialog, or returns to the default one. No path is ever sent here. */
  'backup.folder': call(
    z.strictObject({ choose: z.enum(['other', 'default']) }),
    z.strictObject({ folder: z.string(), changed: z.boolean() }),
  ),
  /** Sets the storage limit of the automatic backups. */
  'backup.limit': call(z.strictObject({ limitBytes: z.literal(LIMITS_BYTES) }), z.strictObject({ limitBytes: z.int() })),
  /** Makes a key from a passphrase. */
  'backup.make-key': call(z.strictObject({ passphrase: passphraseSchema }), keySchema),
  /**
   * Begins a backup.
   * `base` is the backup before: where it can be read, its ranges are given, and those that did not change are copied by `backup.copy`.
   */
  'backup.begin': call(
    z.strictObject({
      dataset: datasetSchema,
      madeAt: z.iso.datetime(),
      reason: backupReasonSchema,
      key: keySchema.nullable(),
      base: backupNameSchema.nullable(),
    }),
    z.strictObject({
      id: idSchema,
      ranges: z.array(z.strictObject({ table: z.enum(TABLE_NAMES), first: z.string(), last: z.string() })).nullable(),
    }),
  ),
  /** Adds rows as one range in the form of a backup: tables in the order of their list, ids ascending. A row that no schema can read is added too. */
  'backup.add-rows': call(z.strictObject({ id: idSchema, table: z.enum(TABLE_NAMES), bytes }), z.strictObject({ taken: z.int() })),
  /** Copies ranges of a table from the backup before, counted from 0. */
  'backup.copy': call(
    z.strictObject({ id: idSchema, table: z.enum(TABLE_NAMES), from: z.int().min(0), count: z.int().min(1).max(50_000) }),
    z.strictObject({ copied: z.int() }),
  ),
  /** Which photos that the rows show the folder does not have yet. */
  'backup.missing-photos': call(z.strictObject({ id: idSchema }), z.strictObject({ names: z.array(pictureNameSchema) })),
  /** Saves photos in the folder, each once. One whose bytes are not those its name says is damaged, and left out. */
  'backup.add-photos': call(
    z.strictObject({ photos: pictures, encrypted: z.boolean() }),
    z.strictObject({ saved: z.int(), damaged: z.array(pictureNameSchema) }),
  ),
  /** Finishes it: flushed, renamed, read back and proven; then older ones are thinned out. */
  'backup.finish': call(
    z.strictObject({ id: idSchema, withoutPhotos: z.array(pictureNameSchema).max(1_000_000) }),
    z.strictObject({ ...saved.shape, removed: z.array(z.string()) }),
  ),
  /** Writes a backup with its photos inside, one file for another computer, into the documents folder. */
  'backup.save-portable': call(z.strictObject({ name: backupNameSchema, key: keySchema.nullable() }), saved),
  /** Takes the bytes of a file the user chose, piece by piece; the first without an id. */
  'backup.upload': call(
    z.strictObject({ id: idSchema.nullable(), base64: base64.max(24_000_000) }),
    z.strictObject({ id: idSchema, bytes: z.int() }),
  ),
  /**
   * Takes the backup that the system handed to the program, if one waits; it is then opened like an uploaded one. No path is ever
   * sent here.
   */
  'backup.handed': call(z.strictObject({}), z.strictObject({ name: z.string().nullable(), uploaded: idSchema.nullable() })),
  /** Opens a backup: every checksum, count and record proven before anything is given. */
  'backup.open': call(
    z.strictObject({
      from: z.union([z.strictObject({ name: backupNameSchema }), z.strictObject({ uploaded: idSchema })]),
      key: keySchema.nullable(),
      passphrase: z.string().max(200).nullable(),
    }),
    z.strictObject({
      id: idSchema,
      dataset: datasetSchema,
      madeAt: z.iso.datetime(),
      reason: backupReasonSchema,
      schemaVersion: z.int().min(1),
      counts: z.record(z.enum(TABLE_NAMES), z.int()),
      photos: z.array(pictureNameSchema),
      /** How many of them are neither in its file nor in the Photos folder here. */
      photosMissing: z.int(),
      isEncrypted: z.boolean(),
    }),
  ),
  /** Rows of the open backup as a JSON array, in this program's version; `next` is where the following ones begin, null after the last. */
  'backup.rows': call(
    z.strictObject({ id: idSchema, table: z.enum(TABLE_NAMES), from: z.int().min(0) }),
    z.strictObject({ bytes, next: z.int().nullable() }),
  ),
  /**
   * What of the open backup differs from another one of the folder, made of the present data: per span of a table, the ids it lies between
   * (null for an end of the table), and its rows from an index on. Null when the two cannot be compared. `counts` are those of the other.
   */
  'backup.differences': call(
    z.strictObject({ id: idSchema, name: backupNameSchema, key: keySchema.nullable() }),
    z.strictObject({
      spans: z
        .array(
          z.strictObject({
            table: z.enum(TABLE_NAMES),
            after: z.string().nullable(),
            before: z.string().nullable(),
            from: z.int(),
            rows: z.int(),
          }),
        )
        .nullable(),
      counts: z.partialRecord(z.enum(TABLE_NAMES), z.int()),
    }),
  ),
  /** Photos of the open backup; those it has lost are left out, and an answer may stop early when its photos are large. */
  'backup.photos': call(
    z.strictObject({ id: idSchema, names: z.array(pictureNameSchema).max(PHOTOS_PER_CALL) }),
    z.strictObject({ photos: pictures }),
  ),
  /** Closes the open backup. */
  'backup.close': call(z.strictObject({ id: idSchema }), z.strictObject({ closed: z.boolean() })),
} as const;
