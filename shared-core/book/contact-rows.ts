/** Customers from another program: rows of a table or cards, matched to the fields of a customer and checked before they are saved. */
import { countWords } from '../measure/count-words.ts';
import type { Customer } from './customer.ts';

export const CONTACT_FIELDS = [
  'name',
  'first',
  'last',
  'company',
  'phone',
  'phone2',
  'email',
  'email2',
  'line',
  'city',
  'region',
  'zip',
  'country',
  'notes',
] as const;
export type ContactField = (typeof CONTACT_FIELDS)[number];
/** Which column holds which field; null for none. */
export type ColumnMatch = Readonly<Record<ContactField, number | null>>;

/** A phone number, email or address beside the main one, with its label: `work`, `mobile`. */
export type MoreReach = Customer['more'][number];

/** One contact, ready to become a customer. */
export type ContactRow = Readonly<Record<Exclude<ContactField, 'first' | 'last' | 'company' | 'phone2' | 'email2'>, string>> & {
  readonly more: readonly MoreReach[];
  /** Its row in the file, or its place among the cards, from 1. */
  readonly fileRow: number;
};

/** A row of a table with its number in the file, from 1. */
export type TableRow = { readonly row: number; readonly cells: readonly string[] };

/** Headings of phonetic names and of labels for the next column. */
const NOT_A_VALUE = /phonetic|yomi|pronunciation|furigana|\b(?:label|type)$/i;

/** Column headings of contact programs, in the order they are matched. */
const HEADINGS: Readonly<Record<ContactField, readonly RegExp[]>> = {
  first: [/^(?:first|given) name$|^first$|^given$/i],
  last: [/^(?:last|family) name$|^surname$|^last$/i],
  name: [/^(?:full |display |customer |client |contact )?name$/i, /^(?:customer|client|contact)$/i],
  company: [/^(?:company|organi[sz]ation|business)(?: name)?$|^(?:company|organi[sz]ation)\b(?!.*(?:title|department))/i],
  phone: [/mobile|cell/i, /^(?:primary |main |home )?(?:phone|tel)/i, /phone|\btel\b|telephone/i],
  phone2: [/phone|\btel\b|telephone|mobile|cell/i],
  email: [/e-?mail/i],
  email2: [/e-?mail/i],
  line: [/street|^address(?: line)?(?: 1)?$/i, /\baddress\b(?!.*(?:e-?mail|2|3|po box|extended))/i],
  city: [/^(?:town|city)$|city$|locality/i],
  region: [/^(?:state|region|province|county)$|(?:state|region|province)$/i],
  zip: [/zip|postal|postcode/i],
  country: [/country/i],
  notes: [/note|comment|remark/i],
};
const FAX = /fax|pager/i;
const ORDER: readonly ContactField[] = [
  'first',
  'last',
  'name',
  'company',
  'email',
  'email2',
  'line',
  'city',
  'region',
  'zip',
  'country',
  'phone',
  'phone2',
  'notes',
];

/** Matches columns to fields by their headings. Each column is used once; columns of labels, phonetic names and faxes are not used. */
export function matchColumns(headings: readonly string[]): ColumnMatch {
  const taken = new Set<number>();
  const match = Object.fromEntries(CONTACT_FIELDS.map((field) => [field, null])) as Record<ContactField, number | null>;
  const isFree = (heading: string, i: number): boolean => !taken.has(i) && !NOT_A_VALUE.test(heading) && !FAX.test(heading);
  for (const field of ORDER)
    for (const pattern of HEADINGS[field]) {
      if (match[field] !== null) break;
      const column = headings.findIndex((heading, i) => isFree(heading.trim(), i) && pattern.test(heading.trim()));
      if (column < 0) continue;
      match[field] = column;
      taken.add(column);
    }
  return match;
}

/** Reads rows by their columns. The name is the full name, else first and last name, else the company. */
export function contactRows(table: readonly TableRow[], match: ColumnMatch): ContactRow[] {
  return table.map(({ cells, row }) => {
    const cell = (field: ContactField): string => {
      const column = match[field];
      return column === null ? '' : (cells[column] ?? '').trim();
    };
    const name = cell('name') || [cell('first'), cell('last')].filter((part) => part !== '').join(' ') || cell('company');
    const company = cell('company') === name ? '' : cell('company');
    // Removes the apostrophe that spreadsheets put before a number stored as text.
    const phones = [cell('phone'), cell('phone2')].map((phone) => phone.replace(/^'/, '')).filter((phone) => phone !== '');
    const emails = [cell('email'), cell('email2')].filter((email) => email !== '');
    return {
      fileRow: row,
      name,
      phone: phones[0] ?? '',
      email: emails[0] ?? '',
      line: cell('line'),
      city: cell('city'),
      region: cell('region'),
      zip: cell('zip'),
      country: cell('country'),
      notes: [cell('notes'), company === '' ? '' : `Company: ${company}`].filter((part) => part !== '').join('\n'),
      more: [
        ...phones.slice(1).map((text) => ({ kind: 'phone' as const, label: '', text })),
        ...emails.slice(1).map((text) => ({ kind: 'email' as const, label: '', text })),
      ],
    };
  });
}

export type Incoming = {
  readonly row: ContactRow;
  /** `new`; `duplicate` may be the same person as a customer or an earlier row; `wrong` cannot be imported. */
  readonly state: 'new' | 'duplicate' | 'wrong';
  /** The customer it may be; null for an earlier row of the file. */
  readonly like: Customer | null;
  /** Why, for `duplicate` and `wrong`. */
  readonly text: string;
};

const plain = (text: string): string => text.toLocaleLowerCase().replace(/\s+/g, ' ').trim();
const digits = (text: string): string => text.replace(/\D/g, '').slice(-9);

const LONGEST = { name: 120, phone: 200, email: 200, line: 200, city: 200, region: 200, zip: 200, country: 200, notes: 20_000 } as const;
const LONG_WORDS: Readonly<Record<keyof typeof LONGEST, string>> = {
  name: 'name',
  phone: 'phone number',
  email: 'email',
  line: 'street address',
  city: 'city',
  region: 'state',
  zip: 'ZIP code',
  country: 'country',
  notes: 'notes',
};

type Keyed = { readonly name: string; readonly phone: string; readonly email: string; readonly more: readonly MoreReach[] };

/** Fields compared for duplicates: name, phone numbers, emails. */
const keysOf = (person: Keyed): { readonly key: string; readonly field: string }[] => [
  ...[person.phone, ...person.more.filter((m) => m.kind === 'phone').map((m) => m.text)]
    .filter((phone) => digits(phone).length >= 7)
    .map((phone) => ({ key: `#${digits(phone)}`, field: 'phone number' })),
  ...[person.email, ...person.more.filter((m) => m.kind === 'email').map((m) => m.text)]
    .filter((email) => email !== '')
    .map((email) => ({ key: `@${plain(email)}`, field: 'email' })),
  { key: `=${plain(person.name)}`, field: 'name' },
];

/** Checks every row before it is imported: without a name, too long, or perhaps a customer or an earlier row. */
export function checkContacts(rows: readonly ContactRow[], present: readonly Customer[]): Incoming[] {
  const known = new Map<string, Customer | null>();
  for (const customer of present)
    if (customer.deletedAt === null) for (const { key } of keysOf(customer)) if (!known.has(key)) known.set(key, customer);
  return rows.map((row): Incoming => {
    const wrong = (text: string): Incoming => ({ row, state: 'wrong', like: null, text });
    if (row.name === '') return wrong('No name');
    if ([row.phone, ...row.more.map((m) => m.text)].some((text) => /^\d(?:[.,]\d+)?E\+\d+$/i.test(text)))
      return wrong('A spreadsheet has rounded the phone number. Export the contacts again');
    const long = (Object.keys(LONGEST) as (keyof typeof LONGEST)[]).find((field) => row[field].length > LONGEST[field]);
    if (long !== undefined) return wrong(`The ${LONG_WORDS[long]} is longer than ${LONGEST[long]} characters`);
    const keys = keysOf(row);
    const shared = keys.find(({ key }) => known.has(key));
    const duplicate = shared === undefined ? null : (known.get(shared.key) ?? null);
    for (const { key } of keys) if (!known.has(key)) known.set(key, null);
    if (shared === undefined) return { row, state: 'new', like: null, text: '' };
    const original = duplicate === null ? 'an earlier row' : duplicate.name;
    return { row, state: 'duplicate', like: duplicate, text: `Same ${shared.field} as ${original}` };
  });
}

/**
 * The sum before an import: `4 contacts in the file: 2 new, 1 possible duplicate, and 1 left out.`
 * @param unread left out before the check: a row with too many cells, a card that could not be read
 */
export function incomingWords(incoming: readonly Incoming[], unread: number, locale: string): string {
  const count = (state: Incoming['state']): number => incoming.filter((one) => one.state === state).length;
  const parts = [
    { n: count('new'), words: `${count('new')} new` },
    { n: count('duplicate'), words: countWords(count('duplicate'), 'possible duplicate', locale) },
    { n: count('wrong') + unread, words: `${count('wrong') + unread} left out` },
  ].filter(({ n }) => n > 0);
  const list = new Intl.ListFormat(locale).format(parts.map(({ words }) => words));
  return `${countWords(incoming.length + unread, 'contact', locale)} in the file: ${list}.`;
}
