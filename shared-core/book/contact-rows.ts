/** Customers from another program: rows of a table or cards, matched to the fields of a customer and checked before they are saved. */
import { countWords } from '../measure/count-words.ts';
import { emailsIn, phoneParts, phonesIn } from '../measure/phone-email.ts';
import type { ColumnMatch, ContactField } from './contact-columns.ts';
import type { Customer } from './customer.ts';

/** A phone number, email or address beside the main one, with its label: `work`, `mobile`. */
export type MoreReach = Customer['more'][number];

/** One contact, ready to become a customer. */
export type ContactRow = Readonly<Record<Exclude<ContactField, 'first' | 'last' | 'company' | 'line2' | 'box'>, string>> & {
  readonly more: readonly MoreReach[];
  /** Its row in the file, or its place among the cards, from 1. */
  readonly fileRow: number;
};

/** A row of a table with its number in the file, from 1. */
export type TableRow = { readonly row: number; readonly cells: readonly string[] };

type PlaceParts = Readonly<Record<'line' | 'city' | 'region' | 'zip' | 'country', string>>;

/** The street line of an address: street, apartment or suite, post office box. Lines become parts with commas. */
export function addressLine(street: string, extended: string, box: string): string {
  return [street, extended, /^\d+$/.test(box) ? `PO Box ${box}` : box]
    .flatMap((part) => part.split(/[\r\n]+/))
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .join(', ');
}

/** An address in one line. */
export const addressWords = ({ line, city, region, zip, country }: PlaceParts): string =>
  [line, city, region, zip, country].filter((part) => part !== '').join(', ');

/** Notes of a contact, with its company where that is not its name. */
export const contactNotes = (notes: string, company: string, name: string): string =>
  [notes, company === '' || company === name ? '' : `Company: ${company}`].filter((part) => part !== '').join('\n');

/** What a customer holds of the further phone numbers, emails and addresses. */
export const keptReach = (more: readonly MoreReach[]): MoreReach[] =>
  more
    .filter(({ text }) => text !== '')
    .map((m) => ({ ...m, label: m.label.slice(0, 200), text: m.text.slice(0, 200) }))
    .slice(0, 20);

const hasPlace = ({ line, city, zip }: PlaceParts): boolean => line !== '' || city !== '' || zip !== '';

/** Reads rows by their columns. The name is the full name, else first and last name, else the company. The first filled address is used. */
export function contactRows(table: readonly TableRow[], match: ColumnMatch): ContactRow[] {
  return table.map(({ cells, row }) => {
    const cell = (field: ContactField, i = 0): string => {
      const column = match[field][i] ?? null;
      return column === null ? '' : (cells[column] ?? '').trim();
    };
    // Columns beside the first may hold other things than numbers and emails.
    const values = (field: 'phone' | 'email', isOne: (text: string) => boolean): string[] =>
      match[field]
        .flatMap((_, i) => (field === 'phone' ? phonesIn : emailsIn)(cell(field, i)).map((text) => ({ text, i })))
        .filter(({ text, i }) => text !== '' && (i === 0 || isOne(text)))
        .map(({ text }) => text);
    // Removes the apostrophe that spreadsheets put before a number stored as text.
    const phones = values('phone', (text) => phoneParts(text).number.length >= 7).map((phone) => phone.replace(/^'/, ''));
    const emails = values('email', (text) => text.includes('@'));
    const places = match.line.map(
      (_, i): PlaceParts => ({
        line: addressLine(cell('line', i), cell('line2', i), cell('box', i)),
        city: cell('city', i),
        region: cell('region', i),
        zip: cell('zip', i),
        country: cell('country', i),
      }),
    );
    const place = places.find(hasPlace) ?? places.find((p) => addressWords(p) !== '');
    const name = cell('name') || [cell('first'), cell('last')].filter((part) => part !== '').join(' ') || cell('company');
    return {
      fileRow: row,
      name,
      phone: phones[0] ?? '',
      email: emails[0] ?? '',
      ...(place ?? { line: '', city: '', region: '', zip: '', country: '' }),
      notes: contactNotes(cell('notes'), cell('company'), name),
      more: keptReach([
        ...phones.slice(1).map((text) => ({ kind: 'phone' as const, label: '', text })),
        ...emails.slice(1).map((text) => ({ kind: 'email' as const, label: '', text })),
        ...places.filter((p) => p !== place && hasPlace(p)).map((p) => ({ kind: 'address' as const, label: '', text: addressWords(p) })),
      ]),
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
    .flatMap(phonesIn)
    .map((phone) => phoneParts(phone).number)
    .filter((number) => number.length >= 7)
    .map((number) => ({ key: `#${number}`, field: 'phone number' })),
  ...[person.email, ...person.more.filter((m) => m.kind === 'email').map((m) => m.text)]
    .flatMap(emailsIn)
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
