/** Documents made, photos kept, and the book's own record of what was done and can be undone. */
import { z } from 'zod';
import { count, idSchema, instantSchema, longText, nameText, shortText, stamps } from './fields.ts';

export const documentKindSchema = z.enum(['quote', 'handover', 'prep-sheet', 'pour-day-sheet', 'shopping-list', 'job-record', 'calendar']);
export type DocumentKind = z.infer<typeof documentKindSchema>;

/** A paper that was made: which, when, and the content it held, so that the same one can be made again. */
export const madeDocumentSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  kind: documentKindSchema,
  /** 1 for the first sheet of its kind in the job. */
  revision: count.min(1),
  title: nameText,
  madeAt: instantSchema,
  /** What changed since the revision before, in words. */
  changes: z.array(shortText).max(60),
  /** The document tree that was inked, as JSON text. */
  content: z.string().max(8_000_000),
  quoteId: idSchema.nullable(),
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .nullable(),
});
export type MadeDocument = z.infer<typeof madeDocumentSchema>;

export const photoSchema = z.strictObject({
  ...stamps,
  jobId: idSchema.nullable(),
  roomId: idSchema.nullable(),
  caption: shortText,
  takenAt: instantSchema.nullable(),
  mediaType: z.enum(['image/jpeg', 'image/png', 'image/webp']),
  widthPx: count,
  heightPx: count,
  /** Of the picture's bytes, which stand beside the records under this name, scaled down and without location data. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});
export type Photo = z.infer<typeof photoSchema>;

/** What was last given to calendar programs about one entry, so that a change raises its SEQUENCE and a removal is sent as cancelled. */
export const calendarEntrySchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  uid: z.string().min(3).max(200),
  sequence: count,
  fingerprint: z.string().max(2000),
  cancelled: z.boolean(),
  lastSentAt: instantSchema,
  note: longText,
});
export type CalendarEntry = z.infer<typeof calendarEntrySchema>;
