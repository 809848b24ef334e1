/**
 * A pour and its log. The log only grows: a correction is a new event that names the one it corrects, and the
 * first stays. One event is one row, so that each is on disk before the screen says so.
 */
import { z } from 'zod';
import { pourPlanSchema } from './job.ts';
import { count, finite, idSchema, instantSchema, longText, notNegative, positive, share, shortText, stamps } from './fields.ts';

export const pourSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  roomIds: z.array(idSchema).min(1).max(20),
  /** 1 for the first lift in these rooms. */
  lift: count.min(1),
  materialId: idSchema,
  startedAt: instantSchema.nullable(),
  finishedAt: instantSchema.nullable(),
  /** Bags carried to the site before the first batch. */
  bagsOnSite: notNegative,
  bagsPlanned: notNegative,
  /** The plan of each room as it stood when the pour was opened: the log is read against it whatever is planned later; absent before. */
  plans: z
    .array(z.strictObject({ roomId: idSchema, plan: pourPlanSchema }))
    .max(20)
    .optional(),
  /** Entered from paper afterwards: times are estimates. */
  fromPaper: z.boolean(),
  weather: shortText,
  notes: longText,
});
export type Pour = z.infer<typeof pourSchema>;

const eventStamps = {
  id: idSchema,
  pourId: idSchema,
  /** Order within the pour, from 1, given when it is written. */
  seq: count.min(1),
  /** When it happened, by this machine's clock. */
  at: instantSchema,
  estimated: z.boolean(),
};

export const pourEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...eventStamps, kind: z.literal('started') }),
  z.strictObject({ ...eventStamps, kind: z.literal('mixed'), batch: count.min(1), bags: positive, waterL: notNegative.nullable() }),
  z.strictObject({
    ...eventStamps,
    kind: z.literal('placed'),
    batch: count.min(1),
    roomId: idSchema.nullable(),
    lane: count.nullable(),
    bags: positive,
  }),
  z.strictObject({ ...eventStamps, kind: z.literal('lane-finished'), roomId: idSchema, lane: count }),
  z.strictObject({
    ...eventStamps,
    kind: z.literal('incident'),
    what: z.enum(['blocked-outlet', 'spill', 'dry-spot', 'wrong-water', 'power-lost', 'other']),
    note: longText,
  }),
  z.strictObject({
    ...eventStamps,
    kind: z.literal('reading'),
    airTempC: finite.nullable(),
    surfaceTempC: finite.nullable(),
    waterTempC: finite.nullable(),
    powderTempC: finite.nullable(),
    relativeHumidity: share.nullable(),
    spreadM: notNegative.nullable(),
  }),
  z.strictObject({
    ...eventStamps,
    kind: z.literal('lot'),
    lot: z
      .string()
      .trim()
      .min(1, 'Type the lot number as printed.')
      .max(60, 'A lot number is at most 60 characters: photograph the bag instead.'),
    /** Photos of the bag; absent where it was typed. */
    photoIds: z.array(idSchema).max(40).optional(),
  }),
  z.strictObject({ ...eventStamps, kind: z.literal('bags-added'), bags: positive }),
  z.strictObject({ ...eventStamps, kind: z.literal('note'), text: longText, photoIds: z.array(idSchema).max(40) }),
  z.strictObject({ ...eventStamps, kind: z.literal('undone'), eventId: idSchema }),
  z.strictObject({ ...eventStamps, kind: z.literal('finished'), bagsLeft: notNegative.nullable() }),
]);
export type PourEvent = z.infer<typeof pourEventSchema>;
export type PourEventKind = PourEvent['kind'];
