/**
 * A pour and its log. The log only grows: a correction is a new entry that names the entry it corrects. One entry is one row, so that
 * each is on disk before the screen shows it.
 */
import { z } from 'zod';
import { pourPlanSchema } from './job.ts';
import {
  count,
  finite,
  idSchema,
  instantSchema,
  longText,
  notNegative,
  pointSchema,
  positive,
  share,
  shortText,
  stamps,
} from './fields.ts';
import { pouredPlanSchema } from './poured-plan.ts';

export const pourSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  roomIds: z.array(idSchema).min(1).max(20),
  /** The highest lift of its rooms, from 1. The lift of each room is in `asPoured`. */
  lift: count.min(1),
  materialId: idSchema,
  startedAt: instantSchema.nullable(),
  /** When the last batch of a finished pour was placed, by its log; null while it runs. */
  finishedAt: instantSchema.nullable(),
  /** Bags on site before the first batch. */
  bagsOnSite: notNegative,
  bagsPlanned: notNegative,
  /** Each room's pour plan when the pour started; absent in older records. */
  plans: z
    .array(z.strictObject({ roomId: idSchema, plan: pourPlanSchema }))
    .max(20)
    .optional(),
  /** Floor, layout and product when the pour started: a pour is read by them, whatever changes later. */
  asPoured: pouredPlanSchema,
  /** Entered from a handwritten log afterwards: times are estimates. */
  fromPaper: z.boolean(),
  notes: longText,
});
export type Pour = z.infer<typeof pourSchema>;

const eventStamps = {
  id: idSchema,
  pourId: idSchema,
  /** Serial within the pour, from 1. */
  seq: count.min(1),
  /** Time of the event, by this computer's clock. */
  instant: instantSchema,
  estimated: z.boolean(),
};

/** Initials and reason of an entry that corrects a pour; the reason may be empty while the pour runs. */
const correctionFields = { by: z.string().trim().max(60), why: shortText };

export const incidentKindSchema = z.enum([
  'blocked-outlet',
  'spill',
  'dry-spot',
  'leak',
  'wrong-water',
  'lumps',
  'old-batch',
  'power-lost',
  'water-lost',
  'crew-lost',
  'mixer-down',
  'short-of-bags',
  'cold-edge',
  'other',
]);
export type IncidentKind = z.infer<typeof incidentKindSchema>;

/** State of a marked area of the floor. `placed` clears an earlier mark after it was checked or repaired. */
export const markedStateSchema = z.enum(['placed', 'suspect', 'not-placed', 'taken-out']);
export type MarkedState = z.infer<typeof markedStateSchema>;

/** Defect of a marked area that needs a patch. */
export const defectSchema = z.enum(['pinholes', 'ridge', 'hollow', 'low-spot']);
export type Defect = z.infer<typeof defectSchema>;

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
    /** Emptied from one cart with the batch before it; absent else. */
    sameCart: z.literal(true).optional(),
  }),
  z.strictObject({ ...eventStamps, kind: z.literal('lane-finished'), roomId: idSchema, lane: count }),
  z.strictObject({
    ...eventStamps,
    kind: z.literal('incident'),
    what: incidentKindSchema,
    /** The batch it concerns; absent or null when it concerns none. */
    batch: count.min(1).nullable().optional(),
    note: longText,
  }),
  /** A discarded batch: thrown out before it was placed, or scraped out after. */
  z.strictObject({ ...eventStamps, kind: z.literal('discarded'), batch: count.min(1), ...correctionFields }),
  /** Corrects the time, the bags or the water of an earlier `mixed` or `placed` entry; null leaves a figure as it was. */
  z.strictObject({
    ...eventStamps,
    kind: z.literal('corrected'),
    eventId: idSchema,
    toAt: instantSchema.nullable(),
    toBags: positive.nullable(),
    ...correctionFields,
  }),
  /** The stack was counted: bags on site now. */
  z.strictObject({ ...eventStamps, kind: z.literal('counted'), bags: notNegative, ...correctionFields }),
  /** An area of the floor marked on the plan, during the pour or after it. Corners in order, meters on the room's axes. */
  z.strictObject({
    ...eventStamps,
    kind: z.literal('marked'),
    roomId: idSchema,
    state: markedStateSchema,
    outline: z.array(pointSchema).min(3, 'An area needs at least three corners.').max(400),
    /** Of suspect floor: what is wrong with it; absent where only a check is asked for. */
    defect: defectSchema.optional(),
    ...correctionFields,
  }),
  /** A dam or joint set where the pour stopped, wall to wall. */
  z.strictObject({ ...eventStamps, kind: z.literal('joint'), roomId: idSchema, from: pointSchema, to: pointSchema, note: shortText }),
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
      .min(1, 'Enter the lot number as printed.')
      .max(60, 'A lot number has at most 60 characters. Add a photo of the bag instead.'),
    /** Photos of the bag; absent where it was typed. */
    photoIds: z.array(idSchema).max(40).optional(),
  }),
  z.strictObject({ ...eventStamps, kind: z.literal('bags-added'), bags: positive }),
  z.strictObject({ ...eventStamps, kind: z.literal('note'), text: longText, photoIds: z.array(idSchema).max(40) }),
  /** Voids an entry; voiding an `undone` entry restores what it voided. */
  z.strictObject({
    ...eventStamps,
    kind: z.literal('undone'),
    eventId: idSchema,
    /** Of an entry voided after the pour; absent for Undo while it runs. */
    by: correctionFields.by.optional(),
    why: correctionFields.why.optional(),
  }),
  z.strictObject({
    ...eventStamps,
    kind: z.literal('finished'),
    bagsLeft: notNegative.nullable(),
    /** What was placed, as entered; null or absent when not asked, and the log decides. */
    floor: z.enum(['whole', 'partly']).nullable().optional(),
  }),
  /** Resumes a pour that was finished by mistake. */
  z.strictObject({ ...eventStamps, kind: z.literal('resumed'), ...correctionFields }),
]);
export type PourEvent = z.infer<typeof pourEventSchema>;
