/** A quote as it was issued: a frozen revision holding everything it was computed from. Never changed, only answered. */
import { z } from 'zod';
import { businessSchema } from './business.ts';
import { customerSchema } from './customer.ts';
import { count, daySchema, idSchema, instantSchema, shortText, stamps } from './fields.ts';
import { jobSchema } from './job.ts';
import { materialSchema } from './material.ts';
import { propertySchema } from './property.ts';
import { roomSchema } from './room.ts';

export const quoteStateSchema = z.enum(['issued', 'accepted', 'declined', 'lapsed', 'superseded']);
export type QuoteState = z.infer<typeof quoteStateSchema>;

/** Everything a quote is computed from, as it was on the day. */
export const frozenSchema = z.strictObject({
  /** The version of the records within. They stay as issued, whatever the records of today look like. */
  version: z.int().min(1),
  business: businessSchema,
  customer: customerSchema,
  property: propertySchema,
  rooms: z.array(roomSchema),
  job: jobSchema,
  materials: z.array(materialSchema),
});
export type Frozen = z.infer<typeof frozenSchema>;

const storedRecord = z.looseObject({ id: idSchema });
/**
 * The same as stored: only that the records are there is checked, so that a quote issued under another version stays readable.
 * `current-parts.ts` reads them by the schemas of their own version.
 */
const storedFrozenSchema = z.looseObject({
  version: z.int().min(1),
  business: storedRecord,
  customer: storedRecord,
  property: storedRecord,
  rooms: z.array(storedRecord),
  job: storedRecord,
  materials: z.array(storedRecord),
}) as unknown as z.ZodType<Frozen, Frozen>;

export const quoteSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  revision: count.min(1),
  issuedAt: instantSchema,
  validUntil: daySchema,
  state: quoteStateSchema,
  /** Each change of state, oldest first. */
  history: z.array(z.strictObject({ state: quoteStateSchema, at: instantSchema, by: shortText, note: shortText })).max(50),
  acceptedOptionId: idSchema.nullable(),
  totalMinor: z.int(),
  currency: z.string().length(3),
  frozen: storedFrozenSchema,
});
export type Quote = z.infer<typeof quoteSchema>;
