/** Contacts out of a file: vCards (RFC 6350, and the older 3.0) or a table of comma-separated values. */
import ICAL from 'ical.js';
import Papa from 'papaparse';
import type { CONTACT_FIELDS, ContactRow } from '../../shared-core/book/contact-rows.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';

export type ContactTable = { readonly headings: readonly string[]; readonly rows: readonly (readonly string[])[] };
export type ContactFile =
  | { readonly kind: 'cards'; readonly rows: readonly ContactRow[] }
  | { readonly kind: 'table'; readonly table: ContactTable };

const MOST = 20_000;
const refused = (message: string): { readonly ok: false; readonly message: string } => ({ ok: false, message });

type Property = readonly [name: string, parameters: unknown, type: string, ...values: unknown[]];
type Card = readonly [name: string, properties: readonly Property[], inner: unknown];

const words = (value: unknown): string =>
  (typeof value === 'string'
    ? value
    : Array.isArray(value)
      ? value
          .map(words)
          .filter((w) => w !== '')
          .join(' ')
      : ''
  ).trim();

const fromCard = ([, properties]: Card): ContactRow => {
  const values = (name: string): readonly unknown[] => properties.find((p) => p[0] === name)?.slice(3) ?? [];
  const first = (name: string): string => words(values(name)[0]);
  const parts = (name: string): readonly unknown[] => {
    const [value] = values(name);
    return Array.isArray(value) ? value : [];
  };
  const [family, given] = parts('n');
  const name = first('fn') || `${words(given)} ${words(family)}`.trim() || words(values('org')[0]);
  // Post office box, extended address, street, town, region, postcode, country (RFC 6350, 6.3.1).
  const [, , line, city, region, zip, country] = parts('adr');
  return {
    name,
    phone: first('tel').replace(/^tel:/i, ''),
    email: first('email'),
    line: words(line),
    city: words(city),
    region: words(region),
    zip: words(zip),
    country: words(country),
    notes: first('note'),
  };
};

const readCards = (text: string): Parsed<ContactFile> => {
  try {
    const read: unknown = ICAL.parse(text);
    const cards = (Array.isArray(read) && typeof read[0] === 'string' ? [read] : read) as readonly Card[];
    return { ok: true, value: { kind: 'cards', rows: cards.filter(([name]) => name === 'vcard').map(fromCard) } };
  } catch {
    return refused(
      'A card in this file breaks off or is not written as vCards are. Export the contacts once more, then choose the new file.',
    );
  }
};

const readTable = (text: string): Parsed<ContactFile> => {
  const { data } = Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' });
  const [headings, ...rows] = data;
  if (headings === undefined || rows.length === 0) return refused('This table has no rows under its headings.');
  return { ok: true, value: { kind: 'table', table: { headings, rows } } };
};

/** Reads a file of contacts by what is in it, not by its name. Nothing is written. */
export function readContacts(text: string): Parsed<ContactFile> {
  const plain = text.replace(/^\uFEFF/, '');
  if (plain.includes('\0')) return refused('This file is not text. Export the contacts as vCard or as comma-separated values.');
  const read = /^\s*BEGIN:VCARD/i.test(plain) ? readCards(plain) : readTable(plain);
  if (!read.ok) return read;
  const many = read.value.kind === 'cards' ? read.value.rows.length : read.value.table.rows.length;
  if (many === 0) return refused('There is no contact in this file.');
  return many > MOST ? refused(`This file has more than ${MOST} contacts. Split it and bring it in part by part.`) : read;
}

/** The words for the fields of a contact. */
export const FIELD_WORDS: Readonly<Record<(typeof CONTACT_FIELDS)[number], string>> = {
  name: 'Name',
  phone: 'Phone',
  email: 'E-mail',
  line: 'Street and number',
  city: 'City',
  region: 'State or region',
  zip: 'Zip',
  country: 'Country',
  notes: 'Notes',
};
