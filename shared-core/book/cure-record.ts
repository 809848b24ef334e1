/** Readings while a floor cures, promised dates, and return visits. */
import { z } from 'zod';
import { flooringSchema } from './flooring.ts';
import { count, finite, idSchema, instantSchema, longText, nameText, notNegative, share, shortText, stamps } from './fields.ts';
import { milestoneKindSchema } from './material.ts';

export const cureReadingSchema = z.strictObject({
  instant: instantSchema,
  tempC: finite.min(-60).max(90),
  relativeHumidity: share.nullable(),
});
export type CureReading = z.infer<typeof cureReadingSchema>;

/** Readings of one room's air, one record an entry or an import. */
export const cureLogSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  roomId: idSchema,
  source: z.enum(['by-hand', 'pasted', 'imported']),
  name: shortText,
  readings: z.array(cureReadingSchema).min(1).max(500_000),
});
export type CureLog = z.infer<typeof cureLogSchema>;

/** A date promised to the customer. It never changes: a new promise is a new record. */
export const promiseSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  roomId: idSchema,
  milestone: milestoneKindSchema,
  flooring: flooringSchema.nullable(),
  promisedFor: instantSchema,
  madeAt: instantSchema,
  /** The document that states it; null for a verbal promise. */
  documentId: idSchema.nullable(),
  to: shortText,
});
export type Promised = z.infer<typeof promiseSchema>;

export const clearanceTestSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  roomId: idSchema,
  flooring: flooringSchema,
  method: z.enum([
    'slab-humidity',
    'without-holes',
    'vapor-emission',
    'meter',
    'wood-moisture',
    'humidity-hood',
    'carbide',
    'manufacturer-method',
  ]),
  value: notNegative,
  unit: z.enum(['share', 'lb', 'cm-percent']),
  takenAt: instantSchema,
  by: nameText,
  note: shortText,
});
export type ClearanceTest = z.infer<typeof clearanceTestSchema>;

export const visitSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  roomIds: z.array(idSchema).max(60),
  kind: z.enum(['prep', 'day-after', 'before-flooring', 'thirty-days', 'defects-end', 'callback', 'own']),
  title: nameText,
  instant: instantSchema,
  minutes: count.min(5).max(24 * 60),
  doneAt: instantSchema.nullable(),
  /** For a callback. */
  cause: longText,
  fix: longText,
  notes: longText,
  photoIds: z.array(idSchema).max(200),
  /** Raised at each change, for the calendar. */
  sequence: count,
  cancelledAt: instantSchema.nullable(),
});
export type Visit = z.infer<typeof visitSchema>;
