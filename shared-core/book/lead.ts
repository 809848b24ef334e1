/** A lead: an inquiry. It is open until it is won or lost; its job has its own record. */
import { z } from 'zod';
import { clockSchema, daySchema, idSchema, instantSchema, longText, shortText, stamps } from './fields.ts';

/** The next step of a lead. */
export const leadStepSchema = z.enum(['call-back', 'visit', 'quote-by']);
export type LeadStep = z.infer<typeof leadStepSchema>;

export const leadNextSchema = z.strictObject({
  step: leadStepSchema,
  /** Day and wall-clock time in the property's time zone, or the business's while no property is known. */
  day: daySchema,
  clock: clockSchema.nullable(),
});
export type LeadNext = z.infer<typeof leadNextSchema>;

export const leadSchema = z.strictObject({
  ...stamps,
  customerId: idSchema,
  propertyId: idSchema.nullable(),
  /** The rooms it is about; empty while none is known. */
  roomIds: z.array(idSchema).max(60),
  /** The job it became; null before there is one. */
  jobId: idSchema.nullable(),
  /** Where the customer heard of the business: `referral`, `website`. */
  source: shortText,
  next: leadNextSchema.nullable(),
  state: z.enum(['open', 'won', 'lost']),
  /** When it was won or lost; null while open. */
  closedAt: instantSchema.nullable(),
  /** Why it was won or lost. */
  reason: shortText,
  notes: longText,
});
export type Lead = z.infer<typeof leadSchema>;
