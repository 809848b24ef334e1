/** Saved documents, photos, and the entries last sent to calendar programs. */
import { z } from 'zod';
import { count, idSchema, instantSchema, longText, nameText, shortText, stamps } from './fields.ts';

/** Every kind of document a job can have. */
export const documentKindSchema = z.enum([
  'ballpark',
  'quote',
  'change-order',
  'signed-copy',
  'preparation-letter',
  'prep-sheet',
  'shopping-list',
  'pour-day-sheet',
  'floor-notice',
  'handover',
  'installer-page',
  'moisture-report',
  'completion-certificate',
  'warranty-certificate',
  'before-and-after',
  'lien-waiver',
  'job-record',
  'invoice',
  'receipt',
  'statement',
  'overdue-notice',
  'calendar',
]);
export type DocumentKind = z.infer<typeof documentKindSchema>;

/** How, when and to which recipient a document was sent. */
export const sentSchema = z.strictObject({ instant: instantSchema, by: z.enum(['email', 'text', 'print', 'in-person']), to: shortText });
export type Sent = z.infer<typeof sentSchema>;

/** A signature: on the screen as a picture, or on paper with a photo of it. */
export const signatureSchema = z.strictObject({
  role: z.enum(['customer', 'second-owner', 'contractor']),
  name: nameText,
  instant: instantSchema,
  optionId: idSchema.nullable(),
  /** SHA-256 of the PDF that was signed. */
  signedSha256: z.string().regex(/^[0-9a-f]{64}$/),
  /** The drawn signature as a PNG data address; null for one on paper. */
  picture: z
    .string()
    .regex(/^data:image\/png;base64,[A-Za-z0-9+/=]+$/)
    .max(400_000)
    .nullable(),
  /** Photo of the signed paper; null for one drawn on the screen. */
  photoId: idSchema.nullable(),
});
export type Signature = z.infer<typeof signatureSchema>;

/** A saved document with its content, so that it can be printed again without recalculation. */
export const madeDocumentSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  kind: documentKindSchema,
  /** 1 for the first of its kind in the job. */
  revision: count.min(1),
  title: nameText,
  madeAt: instantSchema,
  /** What changed since the revision before. */
  changes: z.array(shortText).max(60),
  /** The document tree as JSON. Photos stand in it by their SHA-256. */
  content: z.string().max(8_000_000),
  quoteId: idSchema.nullable(),
  /** The invoice or payment of the ledger that it is for; null for other kinds. */
  entryId: idSchema.nullable(),
  /** SHA-256 of the PDF; null until it was saved once. */
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .nullable(),
  /** The program version that saved the PDF; empty before. */
  programVersion: shortText,
  sent: z.array(sentSchema).max(60),
  /** Of a signed copy: who signed, when, and the hash of the PDF they signed. */
  signatures: z.array(signatureSchema).max(6),
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

/** An entry as last sent to calendar programs, so that a change raises its SEQUENCE and a removal is sent as canceled. */
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
