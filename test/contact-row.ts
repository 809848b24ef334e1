import type { ContactRow } from '../shared-core/book/contact-rows.ts';

/** A row of an imported list: empty but for what is given. */
export const contactRow = (given: Partial<ContactRow>): ContactRow => ({
  name: '',
  contact: '',
  phone: '',
  email: '',
  line: '',
  city: '',
  region: '',
  zip: '',
  country: '',
  notes: '',
  more: [],
  fileRow: 1,
  ...given,
});
