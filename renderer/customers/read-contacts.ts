/** Reads contacts from a file: vCards (2.1, RFC 2426, RFC 6350), delimited text or a workbook. */
import { CONTACT_FIELDS, type ContactField, matchColumns } from '../../shared-core/book/contact-columns.ts';
import type { ContactRow, TableRow } from '../../shared-core/book/contact-rows.ts';
import { type Parsed, refused } from '../../shared-core/measure/parsed.ts';
import { isBlankRow, parseTable, rowWidth, type SeparatedTable } from '../../shared-core/table/cell-table.ts';
import type { LeftOut } from '../../shared-core/table/import-check.ts';
import { readTables } from '../parts/read-table.ts';
import { readText } from '../parts/read-text.ts';
import { readCards } from './read-cards.ts';

export type ContactTable = {
  /** The row of headings, below any title; empty where the first row is already a contact. */
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
};
export type ContactFile = { readonly leftOut: readonly LeftOut[] } & (
  | { readonly kind: 'cards'; readonly rows: readonly ContactRow[] }
  | { readonly kind: 'table'; readonly table: ContactTable }
);

const MOST = 20_000;

const cardFile = (text: string): Parsed<ContactFile> => {
  const read = readCards(text);
  if (read.rows.length === 0) return refused('No contact in this file could be read. Export the contacts again, then choose the new file.');
  return { ok: true, value: { kind: 'cards', ...read } };
};

/** Matches a cell of a contact, never a heading: an email or a phone number. */
const isContactCell = (cell: string): boolean => /\S@\S/.test(cell) || cell.replace(/\D/g, '').length >= 7;

/** Headings are looked for in this many filled rows: a title, a date or the name of a filter can be above them. */
const HEAD_ROWS = 10;
const NAME_FIELDS = ['name', 'first', 'last', 'company'] as const;

/** Headings name a customer and one field more, and hold no contact. */
const isHeadings = (cells: readonly string[]): boolean => {
  const match = matchColumns(cells);
  const isFound = (field: ContactField): boolean => match[field].some((column) => column !== null);
  return !cells.some(isContactCell) && NAME_FIELDS.some(isFound) && CONTACT_FIELDS.filter(isFound).length > 1;
};

const tableFile = ({ table, delimiter }: SeparatedTable): Parsed<ContactFile> => {
  const filled = table.map((cells, i) => ({ cells, row: i + 1 })).filter(({ cells }) => !isBlankRow(cells));
  const [first] = filled;
  if (first === undefined) return refused('This file is empty. Export the contacts again, then choose the new file.');
  const found = filled.slice(0, HEAD_ROWS).find(({ cells }) => isHeadings(cells));
  const head = found ?? (first.cells.some(isContactCell) ? null : first);
  const body = head === null ? filled : filled.slice(filled.indexOf(head) + 1);
  if (body.length === 0) return refused('This table has no rows below its headings.');
  const width = head === null ? Number.POSITIVE_INFINITY : rowWidth(head.cells);
  // An unquoted comma in a name or address shifts every later cell by one.
  const isWide = (cells: readonly string[]): boolean => delimiter !== '' && rowWidth(cells) > width;
  return {
    ok: true,
    value: {
      kind: 'table',
      table: { headings: head?.cells ?? [], rows: body.filter(({ cells }) => !isWide(cells)) },
      leftOut: body
        .filter(({ cells }) => isWide(cells))
        .map(({ cells, row }) => ({ row, why: `${rowWidth(cells)} cells under ${width} headings: a comma may need quotes around it` })),
    },
  };
};

const within = (read: Parsed<ContactFile>): Parsed<ContactFile> => {
  if (!read.ok) return read;
  const count = read.value.kind === 'cards' ? read.value.rows.length : read.value.table.rows.length;
  return count > MOST ? refused(`This file has more than ${MOST} contacts. Split it and import the parts.`) : read;
};

/** Detects the format from the text. Saves nothing. */
export function readContacts(text: string): Parsed<ContactFile> {
  const plain = text.replace(/^\uFEFF/, '');
  if (plain.includes('\0')) return refused('This file is not text. Export the contacts as vCard or CSV.');
  return within(/^\s*BEGIN:VCARD/i.test(plain) ? cardFile(plain) : tableFile(parseTable(plain)));
}

/** Detects the format from the content, not the name: text, or the first filled sheet of a workbook. Saves nothing. */
export async function readContactFile(file: File): Promise<Parsed<ContactFile>> {
  const text = await readText(file);
  if (!text.includes('\0') && !text.startsWith('%PDF')) return readContacts(text);
  const read = await readTables(file);
  if (!read.ok) return read;
  const [first] = read.value;
  return first === undefined || first.delimiter !== '' ? readContacts(text) : within(tableFile(first));
}

export const FIELD_WORDS: Readonly<Record<ContactField, string>> = {
  name: 'Full name',
  first: 'First name',
  last: 'Last name',
  contact: 'Contact person',
  company: 'Company',
  phone: 'Phone',
  email: 'Email',
  line: 'Street address',
  line2: 'Apartment or suite',
  box: 'PO box',
  city: 'City',
  region: 'State',
  zip: 'ZIP code',
  country: 'Country',
  notes: 'Notes',
};

/** The card property each field is read from (RFC 6350, section 6). */
export const CARD_SOURCES: readonly { readonly name: string; readonly from: string }[] = [
  { name: 'Full name', from: 'FN, or N, or ORG' },
  { name: 'Phone', from: 'TEL: preferred, then mobile, never a fax' },
  { name: 'Email', from: 'EMAIL: preferred, then the first' },
  { name: 'Address', from: 'ADR: preferred, then the first' },
  { name: 'Notes', from: 'NOTE, then ORG as the company' },
];
