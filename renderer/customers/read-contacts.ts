/** Contacts from a file: vCards (2.1, RFC 2426 and RFC 6350) or a table of comma-separated values. */
import Papa from 'papaparse';
import type { ContactField, ContactRow } from '../../shared-core/book/contact-rows.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { readCards } from './read-cards.ts';

export type ContactTable = { readonly headings: readonly string[]; readonly rows: readonly (readonly string[])[] };
export type ContactFile =
  | { readonly kind: 'cards'; readonly rows: readonly ContactRow[]; readonly unreadable: number; readonly groups: number }
  | { readonly kind: 'table'; readonly table: ContactTable };

const MOST = 20_000;
const refused = (message: string): { readonly ok: false; readonly message: string } => ({ ok: false, message });

const cardFile = (text: string): Parsed<ContactFile> => {
  const read = readCards(text);
  if (read.rows.length === 0) return refused('No contact in this file could be read. Export the contacts again, then choose the new file.');
  return { ok: true, value: { kind: 'cards', ...read } };
};

const tableFile = (text: string): Parsed<ContactFile> => {
  const { data } = Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' });
  const [headings, ...rows] = data;
  if (headings === undefined || rows.length === 0) return refused('This table has no rows below its headings.');
  return { ok: true, value: { kind: 'table', table: { headings, rows } } };
};

/** Reads a file of contacts by its content, not by its name. Nothing is saved. */
export function readContacts(text: string): Parsed<ContactFile> {
  const plain = text.replace(/^\uFEFF/, '');
  if (plain.includes('\0')) return refused('This file is not text. Export the contacts as vCard or CSV.');
  const read = /^\s*BEGIN:VCARD/i.test(plain) ? cardFile(plain) : tableFile(plain);
  if (!read.ok) return read;
  const count = read.value.kind === 'cards' ? read.value.rows.length : read.value.table.rows.length;
  return count > MOST ? refused(`This file has more than ${MOST} contacts. Split it and import the parts.`) : read;
}

/** Labels for the fields of a contact. */
export const FIELD_WORDS: Readonly<Record<ContactField, string>> = {
  name: 'Full name',
  first: 'First name',
  last: 'Last name',
  company: 'Company',
  phone: 'Phone',
  phone2: 'Second phone',
  email: 'Email',
  email2: 'Second email',
  line: 'Street address',
  city: 'City',
  region: 'State',
  zip: 'ZIP code',
  country: 'Country',
  notes: 'Notes',
};
