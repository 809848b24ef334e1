/** Customers from elsewhere: rows of a table or cards, matched to the fields of a customer and checked before anything is written. */
import type { Customer } from './customer.ts';

export const CONTACT_FIELDS = ['name', 'phone', 'email', 'line', 'city', 'region', 'zip', 'country', 'notes'] as const;
export type ContactField = (typeof CONTACT_FIELDS)[number];
export type ContactRow = Readonly<Record<ContactField, string>>;
/** Which column holds which field; a field without one stays empty. */
export type ColumnMatch = Readonly<Record<ContactField, number | null>>;

/** What headings are called by programs that keep contacts. */
const HEADINGS: Readonly<Record<ContactField, RegExp>> = {
  name: /^(full |display |customer |client )?name$|^(customer|client|company|contact|kunde)$/i,
  phone: /phone|^tel|mobile|cell/i,
  email: /e-?mail/i,
  line: /street|^address( line)?( 1)?$/i,
  city: /^(town|city)$|city$/i,
  region: /^(state|region|province|county)$|state$/i,
  zip: /zip|postal|postcode/i,
  country: /country/i,
  notes: /note|comment|remark/i,
};
const GIVEN = /^(first|given) name$/i;
const FAMILY = /^(last|family) name$|^surname$/i;

/** Guesses the columns from the headings; each column is taken once, by the first field that fits. */
export function matchColumns(headings: readonly string[]): ColumnMatch {
  const taken = new Set<number>();
  const match = {} as Record<ContactField, number | null>;
  for (const field of CONTACT_FIELDS) {
    const found = headings.findIndex((heading, i) => !taken.has(i) && HEADINGS[field].test(heading.trim()));
    match[field] = found < 0 ? null : found;
    if (found >= 0) taken.add(found);
  }
  // A table that keeps names in two halves: the family name's column stands for both.
  if (match.name === null) {
    const found = headings.findIndex((heading) => FAMILY.test(heading.trim()));
    match.name = found < 0 ? null : found;
  }
  return match;
}

/** Reads rows by their columns; a first name standing in a column of its own goes before the family name. */
export function contactRows(table: readonly (readonly string[])[], headings: readonly string[], match: ColumnMatch): ContactRow[] {
  const given = headings.findIndex((heading) => GIVEN.test(heading.trim()));
  const isFamily = match.name !== null && FAMILY.test((headings[match.name] ?? '').trim());
  return table.map((cells) => {
    const cell = (at: number | null): string => (at === null ? '' : (cells[at] ?? '').trim());
    const row = Object.fromEntries(CONTACT_FIELDS.map((field) => [field, cell(match[field])])) as Record<ContactField, string>;
    return isFamily && given >= 0 ? { ...row, name: `${cell(given)} ${row.name}`.trim() } : row;
  });
}

export type Incoming = {
  readonly row: ContactRow;
  /** `new` comes in; `here` is in the book already; `wrong` cannot come in. */
  readonly state: 'new' | 'here' | 'wrong';
  /** Why not, for `here` and `wrong`. */
  readonly says: string;
};

const plain = (text: string): string => text.toLocaleLowerCase().replace(/\s+/g, ' ').trim();
const digits = (text: string): string => text.replace(/\D/g, '').slice(-9);

const LONGEST: Readonly<Record<ContactField, number>> = {
  name: 120,
  phone: 200,
  email: 200,
  line: 200,
  city: 200,
  region: 200,
  zip: 200,
  country: 200,
  notes: 20_000,
};

/** Looks at every row before it comes in: without a name, too long, in the book already, or twice in the file. */
export function checkContacts(rows: readonly ContactRow[], present: readonly Customer[]): Incoming[] {
  const seen = new Set<string>();
  const keysOf = (name: string, phone: string, email: string): string[] => [
    `${plain(name)}|`,
    ...(email === '' ? [] : [`|${plain(email)}`]),
    ...(digits(phone).length < 7 ? [] : [`#${digits(phone)}`]),
  ];
  const here = new Set(present.filter((c) => c.deletedAt === null).flatMap((c) => keysOf(c.name, c.phone, c.email)));
  return rows.map((row): Incoming => {
    if (row.name === '') return { row, state: 'wrong', says: 'It has no name.' };
    const long = CONTACT_FIELDS.find((field) => row[field].length > LONGEST[field]);
    if (long !== undefined) return { row, state: 'wrong', says: `Its ${long} is longer than ${LONGEST[long]} characters.` };
    const keys = keysOf(row.name, row.phone, row.email);
    if (keys.some((key) => here.has(key))) return { row, state: 'here', says: 'The book has this name, telephone or e-mail already.' };
    if (keys.some((key) => seen.has(key))) return { row, state: 'here', says: 'It stands in the file twice.' };
    for (const key of keys) seen.add(key);
    return { row, state: 'new', says: '' };
  });
}
