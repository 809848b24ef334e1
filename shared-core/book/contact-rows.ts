/** Customers from another program: rows of a table or cards, matched to the fields of a customer and checked before they are saved. */
import { countWords } from '../measure/count-words.ts';
import { parseCountry } from '../measure/country.ts';
import { emailsIn, isSamePhone, phoneParts, phonesIn } from '../measure/phone-email.ts';
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

/** `Akron, OH 44301`, `Akron OH 44301`, or `Akron, OH` beside a ZIP code. Without the comma `SANTA FE` and `East LA` are cities. */
const WHOLE_CITY = /^(?<city>.*[^\s,])(?:,?\s+(?=\S+\s)|,\s*)(?<region>[A-Z]{2})(?:,?\s+(?<zip>\d{4,5}(?:\.0|-\d{4})?))?$/;
/** Puerto Rico and the Virgin Islands, whose ZIP codes start with two zeros (US Postal Service, from memory). */
const ISLANDS = /^(?:PR|VI)$/i;

/** A US ZIP code with the zeros that a spreadsheet took from its start, and without the decimal it may have added. */
function wholeZip(zip: string, region: string): string {
  const digits = zip.replace(/\.0+$/, '');
  return /^\d{4}(?:-\d{4})?$/.test(digits) || (/^\d{3}$/.test(digits) && ISLANDS.test(region))
    ? digits.replace(/^\d+/, (five) => five.padStart(5, '0'))
    : digits;
}

/**
 * An address with its city, state and ZIP code apart, its country as a two-letter code, and a whole ZIP code. An unknown country stays
 * as written.
 * @param own two-letter country of an address that names none
 */
function settledPlace(place: PlaceParts, own: string): PlaceParts {
  const read = parseCountry(place.country === '' ? own : place.country);
  const { city = '', region = '', zip = '' } = WHOLE_CITY.exec(place.city)?.groups ?? {};
  // One ZIP code: in the same column, or in its own.
  const isWhole = place.region === '' && (zip === '') !== (place.zip === '');
  const settled = {
    ...place,
    ...(isWhole && city !== '' ? { city, region, zip: zip || place.zip } : {}),
    country: read.ok ? read.value : place.country,
  };
  return settled.country === 'US' || ISLANDS.test(settled.country)
    ? { ...settled, zip: wholeZip(settled.zip, settled.region || settled.country) }
    : settled;
}

/** Whether an address has more than a country. */
export const hasAddress = ({ line, city, region, zip }: Omit<PlaceParts, 'country'>): boolean =>
  [line, city, region, zip].some((part) => part !== '');

const wordsOf = (name: string): string[] => name.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
/** Whether a name has every word of another: `Rusk, Tom` and `Tom Rusk`. */
const isNamed = (name: string, other: string): boolean => wordsOf(other).every((word) => wordsOf(name).includes(word));

const hasPlace = ({ line, city, zip }: PlaceParts): boolean => line !== '' || city !== '' || zip !== '';

/** Reads rows by their columns. The name is the full name, else first and last name, the company, or the contact. The first filled address is used. */
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
    // Removes the apostrophe that spreadsheets put before a number stored as text, and the decimal after one stored as a number.
    const phones = values('phone', (text) => phoneParts(text).number.length >= 7).map((phone) =>
      phone.replace(/^'/, '').replace(/^(\+?\d{7,})\.0+$/, '$1'),
    );
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
    const person = [cell('first'), cell('last')].filter((part) => part !== '').join(' ');
    const name = cell('name') || person || cell('company') || cell('contact');
    const contact = cell('contact') || person;
    return {
      fileRow: row,
      name,
      contact: isNamed(name, contact) ? '' : contact,
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

const LONGEST = {
  name: 120,
  contact: 120,
  phone: 200,
  email: 200,
  line: 200,
  city: 200,
  region: 200,
  zip: 200,
  country: 200,
  notes: 20_000,
} as const;
const LONG_WORDS: Readonly<Record<keyof typeof LONGEST, string>> = {
  name: 'name',
  contact: 'name of the contact',
  phone: 'phone number',
  email: 'email',
  line: 'street address',
  city: 'city',
  region: 'state',
  zip: 'ZIP code',
  country: 'country',
  notes: 'notes',
};

type Keyed = Pick<Customer, 'name' | 'phone' | 'email' | 'more'> & { readonly contacts: readonly Pick<Customer, 'phone' | 'email'>[] };
type Key = { readonly key: string; readonly number: string; readonly field: string };

/** Fields compared for duplicates: name, phone numbers by their local digits, emails. */
function keysOf({ name, phone, email, more, contacts }: Keyed): Key[] {
  const all = (kind: 'phone' | 'email', own: string): string[] => [
    own,
    ...contacts.map((contact) => contact[kind]),
    ...more.filter((m) => m.kind === kind).map((m) => m.text),
  ];
  return [
    ...all('phone', phone)
      .flatMap(phonesIn)
      .map((text) => phoneParts(text).number)
      .filter((number) => number.length >= 7)
      .map((number) => ({ key: `#${number.slice(-7)}`, number, field: 'phone number' })),
    ...all('email', email)
      .flatMap(emailsIn)
      .filter((text) => text !== '')
      .map((text) => ({ key: `@${plain(text)}`, number: '', field: 'email' })),
    { key: `=${plain(name)}`, number: '', field: 'name' },
  ];
}

/** Why a row cannot be imported; null where it can. */
function problemOf(row: ContactRow): string | null {
  if (row.name === '') return 'No name';
  if ([row.phone, ...row.more.map((m) => m.text)].some((text) => /^\d(?:[.,]\d+)?E\+?\d+$/i.test(text)))
    return 'A spreadsheet has rounded the phone number. Export the contacts again';
  if (hasAddress(row) && !parseCountry(row.country).ok)
    return `“${row.country}” is not a country. Write it with two letters in the file, such as US or CA`;
  const long = (Object.keys(LONGEST) as (keyof typeof LONGEST)[]).find((field) => row[field].length > LONGEST[field]);
  return long === undefined ? null : `The ${LONG_WORDS[long]} is longer than ${LONGEST[long]} characters`;
}

/**
 * Checks every row before it is imported: without a name, too long, in an unknown country, or perhaps a customer or an earlier row.
 * @param own two-letter country of addresses that name none
 */
export function checkContacts(rows: readonly ContactRow[], present: readonly Customer[], own: string): Incoming[] {
  type Known = { readonly number: string; readonly customer: Customer | null };
  const known = new Map<string, Known[]>();
  const find = ({ key, number }: Key): Known | undefined => known.get(key)?.find((one) => number === '' || isSamePhone(one.number, number));
  const add = (keys: readonly Key[], customer: Customer | null): void => {
    for (const { key, number } of keys) {
      const same = known.get(key);
      if (same === undefined) known.set(key, [{ number, customer }]);
      else same.push({ number, customer });
    }
  };
  for (const customer of present) if (customer.deletedAt === null) add(keysOf(customer), customer);
  return rows.map((given): Incoming => {
    const row = { ...given, ...(hasAddress(given) ? settledPlace(given, own) : {}) };
    const problem = problemOf(row);
    if (problem !== null) return { row, state: 'wrong', like: null, text: problem };
    const keys = keysOf({ ...row, more: [...row.more], contacts: [] });
    const shared = keys.map((key) => ({ key, known: find(key) })).find((one) => one.known !== undefined);
    add(keys, null);
    if (shared?.known === undefined) return { row, state: 'new', like: null, text: '' };
    const { customer } = shared.known;
    return {
      row,
      state: 'duplicate',
      like: customer,
      text: `Same ${shared.key.field} as ${customer === null ? 'an earlier row' : customer.name}`,
    };
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
