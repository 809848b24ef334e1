/** The calls that copy the book, read copies and choose where they go. Books cross in pieces: neither side ever holds one call's worth of a whole one. */
import { z } from 'zod';
import { snapshotNameSchema } from '../book/snapshot-names.ts';
import { pictureNameSchema, snapshotReasonSchema } from '../book/snapshot.ts';
import { TABLE_NAMES } from '../book/tables.ts';
import { call } from './call.ts';

const nothing = z.strictObject({});
const idSchema = z.string().regex(/^[0-9a-f]{24}$/, 'That is not under way any more. Begin again.');
const base64 = z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/, 'Bytes are sent as base64.');
const rows = z.array(z.looseObject({ id: z.string().min(1) }));
/** How many photos one call carries at most: to the folder of copies, and out of a copy. */
export const PICTURES_KEPT_A_CALL = 100;
export const PICTURES_GIVEN_A_CALL = 40;
const pictures = z.array(z.strictObject({ name: pictureNameSchema, base64: base64.max(12_000_000) })).max(PICTURES_KEPT_A_CALL);

/** What a passphrase became; kept by the screens so that copies are locked without asking each time. */
export const lockSchema = z.strictObject({ salt: base64.length(24), key: base64.length(88) });
/** Short ones can be tried out one by one. */
export const passphraseSchema = z
  .string()
  .min(10, 'A passphrase has at least 10 characters: four words that do not belong together are better than one with odd signs.')
  .max(200, 'A passphrase has at most 200 characters.');

const kept = z.strictObject({ name: z.string(), folder: z.string(), bytes: z.int(), sha256: z.string() });

/** The sizes the copies can be kept within. */
export const LIMITS_BYTES = [500_000_000, 2_000_000_000, 10_000_000_000, 50_000_000_000] as const;

export const SNAPSHOT_CALLS = {
  /** Where the copies of the book are, newest first, what they take and what room is left. */
  'snapshot.list': call(
    nothing,
    z.strictObject({
      folder: z.string(),
      /** Whether the person chose it. */
      chosen: z.boolean(),
      /** Whether this host can ask for another. */
      canChoose: z.boolean(),
      limitBytes: z.int(),
      photosBytes: z.int(),
      leftBytes: z.int().nullable(),
      snapshots: z.array(z.strictObject({ name: snapshotNameSchema, madeAt: z.iso.datetime(), bytes: z.int() })),
    }),
  ),
  /** Lets the person choose a folder in the system's own dialog, or goes back to the usual one. No path is ever sent here. */
  'snapshot.folder': call(
    z.strictObject({ choose: z.enum(['other', 'usual']) }),
    z.strictObject({ folder: z.string(), changed: z.boolean() }),
  ),
  /** Sets the size the copies are kept within. */
  'snapshot.limit': call(z.strictObject({ limitBytes: z.literal(LIMITS_BYTES) }), z.strictObject({ limitBytes: z.int() })),
  /** Makes a lock from a passphrase. */
  'snapshot.lock': call(z.strictObject({ passphrase: passphraseSchema }), lockSchema),
  /** Which photos the folder of copies does not hold yet. */
  'picture.wanted': call(
    z.strictObject({ names: z.array(pictureNameSchema).max(1_000_000), locked: z.boolean() }),
    z.strictObject({ wanted: z.array(pictureNameSchema) }),
  ),
  /** Keeps photos in the folder of copies, each once. One whose bytes are not those its name says is spoilt, and left out. */
  'picture.keep': call(
    z.strictObject({ pictures, locked: z.boolean() }),
    z.strictObject({ kept: z.int(), spoilt: z.array(pictureNameSchema) }),
  ),
  /** Begins a copy. */
  'snapshot.begin': call(
    z.strictObject({ madeAt: z.iso.datetime(), reason: snapshotReasonSchema, lock: lockSchema.nullable() }),
    z.strictObject({ id: idSchema }),
  ),
  /** Adds rows to it: tables in the order of their list, ids ascending. A row that no schema can read is kept too: a copy leaves nothing out. */
  'snapshot.add': call(z.strictObject({ id: idSchema, table: z.enum(TABLE_NAMES), rows }), z.strictObject({ taken: z.int() })),
  /** Finishes it: flushed, renamed, read back and proven; then older ones are thinned out. */
  'snapshot.finish': call(
    z.strictObject({ id: idSchema, pictures: z.array(pictureNameSchema).max(1_000_000) }),
    z.strictObject({ ...kept.shape, removed: z.array(z.string()) }),
  ),
  /** Writes a copy with its photos inside, one file to carry to another machine, into the papers folder. */
  'snapshot.carry': call(z.strictObject({ name: snapshotNameSchema, lock: lockSchema.nullable() }), kept),
  /** Takes the bytes of a file the person chose, piece by piece; the first without an id. */
  'snapshot.arrive': call(
    z.strictObject({ id: idSchema.nullable(), base64: base64.max(24_000_000) }),
    z.strictObject({ id: idSchema, bytes: z.int() }),
  ),
  /** Takes the copy that the system handed to the program, if one waits; it is then opened like one that arrived. No path is ever sent here. */
  'snapshot.handed': call(z.strictObject({}), z.strictObject({ name: z.string().nullable(), arrived: idSchema.nullable() })),
  /** Opens a copy to look: every checksum, count and record proven before anything is given. */
  'snapshot.look': call(
    z.strictObject({
      from: z.union([z.strictObject({ name: snapshotNameSchema }), z.strictObject({ arrived: idSchema })]),
      lock: lockSchema.nullable(),
      passphrase: z.string().max(200).nullable(),
    }),
    z.strictObject({
      id: idSchema,
      madeAt: z.iso.datetime(),
      reason: snapshotReasonSchema,
      schemaVersion: z.int().min(1),
      counts: z.record(z.enum(TABLE_NAMES), z.int()),
      pictures: z.array(pictureNameSchema),
    }),
  ),
  /** Rows of the copy being looked into, in this program's version; `next` is where the following ones begin, null after the last. */
  'snapshot.rows': call(
    z.strictObject({ id: idSchema, table: z.enum(TABLE_NAMES), from: z.int().min(0) }),
    z.strictObject({ rows, next: z.int().nullable() }),
  ),
  /** Photos of the copy being looked into; one that is damaged or gone is left out. */
  'snapshot.pictures': call(
    z.strictObject({ id: idSchema, names: z.array(pictureNameSchema).max(PICTURES_GIVEN_A_CALL) }),
    z.strictObject({ pictures }),
  ),
  /** Ends looking. */
  'snapshot.close': call(z.strictObject({ id: idSchema }), z.strictObject({ closed: z.boolean() })),
} as const;
