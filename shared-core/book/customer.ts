/** A customer: a person, a couple, a company. */
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
  /** Further phone numbers, emails and addresses, each with its label: `work`, `fax`. */
  more: z.array(z.strictObject({ kind: z.enum(['phone', 'email', 'address']), label: shortText, text: shortText })).max(20),
  /** Billing address, when it is not the property's. */
  address: addressSchema.nullable(),
  contacts: z.array(contactSchema).max(20),
  notes: longText,
});
export type Customer = z.infer<typeof customerSchema>;
