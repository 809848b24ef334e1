/** Reads vCards of any version with ical.js, after converting older forms to RFC 6350. One bad card does not stop the others. */
import ICAL from 'ical.js';
import {
  addressLine,
  addressWords,
  contactNotes,
  type ContactRow,
  keptReach,
  type MoreReach,
} from '../../shared-core/book/contact-rows.ts';
import type { LeftOut } from '../../shared-core/table/import-check.ts';

type Parameters = Readonly<Record<string, string | readonly string[]>>;
type Property = readonly [name: string, parameters: Parameters, type: string, ...values: unknown[]];
type Card = readonly [name: string, properties: readonly Property[], inner: unknown];

export type CardsRead = {
  readonly rows: readonly ContactRow[];
  /** Numbers in the file of cards that could not be read, and of group cards. */
  readonly leftOut: readonly LeftOut[];
};

/** Parameters that vCard 2.1 writes without a name. */
const BARE_ENCODING = /^(?:quoted-printable|base64|8bit|7bit)$/i;

/** Decodes quoted-printable text. RFC 2045, section 6.7. */
function decodeQuoted(text: string, charset: string): string {
  const bytes: number[] = [];
  for (let i = 0; i < text.length; i++) {
    const hex = text[i] === '=' ? /^[0-9a-f]{2}/i.exec(text.slice(i + 1, i + 3)) : null;
    if (hex !== null) {
      bytes.push(Number.parseInt(hex[0], 16));
      i += 2;
    } else bytes.push(...new TextEncoder().encode(text[i] ?? ''));
  }
  try {
    return new TextDecoder(charset).decode(new Uint8Array(bytes));
  } catch {
    return new TextDecoder().decode(new Uint8Array(bytes));
  }
}

/** Properties with several parts, separated by semicolons. */
const STRUCTURED = /^(?:n|adr|org)$/i;

/** Writes literal text as RFC 6350, section 3.4, does: commas and semicolons escaped, a line break as `\n`. Escapes in it are kept. */
const escaped = (text: string): string =>
  text.replace(/\\[\\,;n]|[\\,;]|\r?\n/gi, (found) => (found.endsWith('\n') ? '\\n' : found.length === 2 ? found : `\\${found}`));

/**
 * Converts a content line to RFC 6350: bare parameters become TYPE, quoted-printable becomes plain text.
 * @param isOld whether the card is of version 2.1, where a comma is text and a semicolon only separates parts
 */
function modernLine(line: string, isOld: boolean): string {
  const colon = /^(?:"[^"]*"|[^":])*:/.exec(line)?.[0].length ?? 0;
  if (colon === 0) return line;
  const [name = '', ...parameters] = line.slice(0, colon - 1).split(/;(?=(?:[^"]*"[^"]*")*[^"]*$)/);
  const value = line.slice(colon);
  let isQuoted = false;
  let charset = 'utf-8';
  const written: string[] = [];
  for (const parameter of parameters) {
    const [key = '', text] = parameter.split('=', 2);
    if (text === undefined) {
      if (/^quoted-printable$/i.test(key)) isQuoted = true;
      if (!BARE_ENCODING.test(key) && key !== '') written.push(`TYPE=${key}`);
    } else if (/^encoding$/i.test(key)) {
      if (/^quoted-printable$/i.test(text)) isQuoted = true;
    } else if (/^charset$/i.test(key)) charset = text.replaceAll('"', '');
    else written.push(parameter);
  }
  const property = name.replace(/^[\w-]+\./, '');
  const hasParts = STRUCTURED.test(property);
  const parts = hasParts ? value.split(/(?<!\\);/) : [value];
  const safe = isOld || isQuoted ? parts.map((part) => escaped(isQuoted ? decodeQuoted(part, charset) : part)).join(';') : value;
  // ical.js removes the escape of a semicolon only between parts.
  const text = hasParts ? safe : safe.replace(/\\[\\;]/g, (found) => (found === '\\;' ? ';' : found));
  return `${[property, ...written].join(';')}:${text}`;
}

/** Unfolds the lines of a file. A line that begins with a space continues the last, and so does quoted-printable text after `=`. */
function unfolded(text: string): string[] {
  const lines: string[] = [];
  let isSoft = false;
  for (const line of text.split(/\r\n|\n|\r/)) {
    const last = lines.length - 1;
    if (isSoft && last >= 0) lines[last] = `${(lines[last] ?? '').slice(0, -1)}${line}`;
    else if (/^[ \t]/.test(line) && last >= 0) lines[last] = `${lines[last] ?? ''}${line.slice(1)}`;
    else lines.push(line);
    const whole = lines.at(-1) ?? '';
    isSoft = whole.endsWith('=') && /^[^:]*quoted-printable[^:]*:/i.test(whole);
  }
  return lines;
}

const words = (value: unknown, between = ' '): string => {
  if (typeof value === 'string') return value.trim();
  if (!Array.isArray(value)) return '';
  return value
    .map((part) => words(part, between))
    .filter((word) => word !== '')
    .join(between);
};

const typesOf = ([, parameters]: Property): string[] => {
  const type = parameters['type'] ?? [];
  return (typeof type === 'string' ? [type] : [...type]).flatMap((t) => t.split(',')).map((t) => t.trim().toLowerCase());
};
/** Preference from 1, the highest, to 100 (RFC 6350, section 5.3). Null where there is none. */
const preferenceOf = (property: Property): number | null => {
  const given = Number(property[1]['pref'] ?? Number.NaN);
  return Number.isFinite(given) ? given : property[1]['pref'] !== undefined || typesOf(property).includes('pref') ? 1 : null;
};
const labelOf = (property: Property): string =>
  typesOf(property)
    .filter((type) => !['pref', 'voice', 'internet', 'x-internet'].includes(type))
    .map((type) => (type === 'cell' ? 'mobile' : type))
    .join(', ');

/** Sorts preferred numbers first, then mobile, then others. Fax and pager are last, because nobody answers them. */
function ranked(properties: readonly Property[]): Property[] {
  const rank = (property: Property): number => {
    const types = typesOf(property);
    if (types.includes('fax') || types.includes('pager')) return 3;
    const preference = preferenceOf(property);
    if (preference !== null) return preference / 1000;
    return types.includes('cell') ? 1 : 2;
  };
  return properties
    .map((property, i) => ({ property, i }))
    .sort((a, b) => rank(a.property) - rank(b.property) || a.i - b.i)
    .map((r) => r.property);
}

type Address = { readonly line: string; readonly city: string; readonly region: string; readonly zip: string; readonly country: string };

/** Post office box, extended address, street, city, region, ZIP code, country: RFC 6350, section 6.3.1. */
function addressOf(property: Property | undefined): Address {
  const value: unknown = property?.[3];
  const parts = Array.isArray(value) ? value.map((part: unknown) => words(part, ', ')) : [];
  const [box = '', extended = '', street = '', city = '', region = '', zip = '', country = ''] = parts;
  return { line: addressLine(street, extended, box), city, region, zip, country };
}

function fromCard([, properties]: Card, fileRow: number): ContactRow {
  const all = (name: string): Property[] => properties.filter((p) => p[0] === name);
  const first = (name: string): string => words(all(name)[0]?.[3]);
  const name = all('n')[0]?.[3];
  const [family, given] = Array.isArray(name) ? (name as readonly unknown[]) : [name];
  const phones = ranked(all('tel'));
  const [phone] = phones.filter((p) => !typesOf(p).some((type) => type === 'fax' || type === 'pager'));
  const emails = ranked(all('email'));
  const addresses = ranked(all('adr'));
  const number = (property: Property): string => words(property[3]).replace(/^tel:/i, '');
  const more: MoreReach[] = [
    ...phones.filter((p) => p !== phone).map((p) => ({ kind: 'phone' as const, label: labelOf(p), text: number(p) })),
    ...emails.slice(1).map((p) => ({ kind: 'email' as const, label: labelOf(p), text: words(p[3]) })),
    ...addresses.slice(1).map((p) => ({
      kind: 'address' as const,
      label: labelOf(p),
      text: addressWords(addressOf(p)),
    })),
  ];
  const company = words(all('org')[0]?.slice(3));
  const fullName = first('fn') || `${words(given)} ${words(family)}`.trim() || company;
  // A comma that a program left unescaped separates values.
  const notes = all('note').map((note) => note.slice(3).join(',').trim());
  return {
    fileRow,
    name: fullName,
    contact: '',
    phone: phone === undefined ? '' : number(phone),
    email: words(emails[0]?.[3]),
    ...addressOf(addresses[0]),
    notes: contactNotes(notes.filter((note) => note !== '').join('\n'), company, fullName),
    more: keptReach(more),
  };
}

const isGroup = ([, properties]: Card): boolean =>
  properties.some(
    ([name, , , value]) => (name === 'kind' || name === 'x-addressbookserver-kind') && words(value).toLowerCase() === 'group',
  );

const OLD_VERSION = /^VERSION:2\.1/i;

export function readCards(text: string): CardsRead {
  const rows: ContactRow[] = [];
  const leftOut: LeftOut[] = [];
  let count = 0;
  const leave = (why: string): void => void leftOut.push({ row: count, why });
  let card: string[] | null = null;
  const finish = (lines: readonly string[]): void => {
    try {
      const isOld = lines.some((line) => OLD_VERSION.test(line));
      const modern = lines.map((line) => (OLD_VERSION.test(line) ? 'VERSION:3.0' : modernLine(line, isOld)));
      const read = ICAL.parse(modern.join('\r\n')) as unknown as Card;
      if (isGroup(read)) leave('a group, not a contact');
      else rows.push(fromCard(read, count));
    } catch {
      leave('this card could not be read');
    }
  };
  for (const line of unfolded(text)) {
    if (/^BEGIN:VCARD\s*$/i.test(line)) {
      if (card !== null) leave('this card has no end');
      count += 1;
      card = [line.trim()];
    } else if (card !== null && /^END:VCARD\s*$/i.test(line)) {
      finish([...card, line.trim()]);
      card = null;
    } else if (card !== null && line.trim() !== '') card.push(line);
  }
  if (card !== null) leave('this card has no end');
  return { rows, leftOut };
}
