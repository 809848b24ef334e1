/** A customer: a person, a couple, a small firm. */
import { z } from 'zod';
import { addressSchema } from './business.ts';
import { longText, nameText, shortText, stamps } from './fields.ts';

export const contactSchema = z.strictObject({ name: nameText, role: shortText, phone: shortText, email: shortText });
export type Contact = z.infer<typeof contactSchema>;

export const customerSchema = z.strictObject({
  ...stamps,
  name: nameText,
  phone: shortText,
  email: shortText,
  /** Where the bills go, when that is not the house itself. */
  address: addressSchema.nullable(),
  contacts: z.array(contactSchema).max(20),
  notes: longText,
});
export type Customer = z.infer<typeof customerSchema>;
