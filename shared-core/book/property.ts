/** A property: the building with the rooms. Its time zone applies to every date at the property. */
import { z } from 'zod';
import { addressSchema } from './business.ts';
import { finite, idSchema, longText, nameText, shortText, stamps, zoneSchema } from './fields.ts';

const yearSchema = z
  .int('Enter a year of four digits.')
  .min(1500, 'Enter a year from 1500 on.')
  .max(2200, 'Enter a year that is not in the future.');

export const accessNoteSchema = z.strictObject({
  /** Its letter on the plan: K for the key, W water, P power; empty for a note that stands nowhere. */
  letter: z.string().max(2),
  text: shortText,
  point: z.strictObject({ xM: finite, yM: finite }).nullable(),
});

export const propertySchema = z.strictObject({
  ...stamps,
  customerId: idSchema,
  /** A second owner, who signs the contract too; null for none. */
  secondOwner: z.strictObject({ name: nameText, phone: shortText, email: shortText }).nullable(),
  address: addressSchema,
  /** Null is "not known", which counts as old wherever age matters. */
  yearBuilt: yearSchema.nullable(),
  yearExtended: yearSchema.nullable(),
  timeZone: zoneSchema,
  access: z.array(accessNoteSchema).max(30),
  travelKm: finite.min(0).max(5000).nullable(),
  notes: longText,
});
export type Property = z.infer<typeof propertySchema>;
