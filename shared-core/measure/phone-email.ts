/** Phone numbers and emails as people write them, with several in one field. */

/** An extension at the end of a phone number, as the source of a regular expression with its digits as `extension`: `x4`, `ext. 4`, `#4`, `;ext=4`. The end of `fax 303-555-0100` is none. */
export const PHONE_EXTENSION = String.raw`\s*(?:;\s*ext=|,?\s*(?:(?<![a-z])(?:(?:extension|ext)\b\.?|ext(?=\d)|x)|#)\s*:?)\s*(?<extension>\d{1,6})`;

/** Digits of a US number without its area code. */
const LOCAL = 7;

const isNumber = (text: string): boolean => text.replace(/\D/g, '').length >= LOCAL;
const EXTENSION = new RegExp(String.raw`${PHONE_EXTENSION}(?!\w)`, 'i');

/**
 * A phone number as written, without its extension, and the extension, empty without one. Words may follow it: `before` and `after` are
 * what stands on either side.
 */
export function splitExtension(text: string): { readonly before: string; readonly extension: string; readonly after: string } {
  const found = EXTENSION.exec(text);
  const before = text.slice(0, found?.index);
  // The keys of a service code, `*31#303-555-0100`, come before the number.
  if (found === null || !isNumber(before)) return { before: text, extension: '', after: '' };
  return { before, extension: found.groups?.['extension'] ?? '', after: text.slice(found.index + found[0].length) };
}

/**
 * The number to compare phones by: its last ten digits, as US numbers have with or without +1, and its extension, empty without one.
 * Other marks and words are ignored.
 */
export function phoneParts(text: string): { readonly number: string; readonly extension: string } {
  const { before, extension } = splitExtension(text);
  return { number: before.replace(/\D/g, '').slice(-10), extension };
}

/** Whether two numbers from `phoneParts` are one: the same digits, or the same local ones where one has no area code. Not for a short number. */
export function isSamePhone(one: string, other: string): boolean {
  const digits = Math.min(one.length, other.length);
  return digits >= LOCAL && (digits === LOCAL ? one.slice(-LOCAL) === other.slice(-LOCAL) : one === other);
}

/** Before the next number, or before the words for it: `fax 555-0123`. */
const NEXT_NUMBER =
  /\s*(?:[/;,\n]|:::|\b(?:or|and)\b|&)\s*(?=[^/;,\n]*(?:\d[^/;,\n\d]*){7})|\s+(?!(?:x|ext|extension)\b)(?=[a-z][^\d/;,\n]*(?:\d[^a-z/;,\n\d]*){7})/i;

/** Between the parts of a US number: spaces, periods, slashes, and hyphens or an en dash. */
const GAP = String.raw`[\s./‐‑–-]*`;
/** A US number within a text, with or without the leading 1 and its area code, and before an extension: `+1 (617) 555-0134`, `617.555.0134x12`, `5550134`. Not a ZIP code with its four digits. */
const US_NUMBER = new RegExp(
  String.raw`(?<![\w‐‑–-])(?:\+?1${GAP})?(\(\d{3}\)${GAP}|\d{3}${GAP})?(\d{3})${GAP}(\d{4})(?:(?=((?:x|ext)[.:]?\s*\d))|(?!\w))`,
  'gi',
);
/** The start of a number as it is typed, after its leading 1: `1-617-555`, `+1 (617) 5`. */
const BEGUN = new RegExp(String.raw`^\s*(?:\+1${GAP}|1[\s./‐‑–-]+)(?=\(?\d{3}\)?${GAP}\d{0,3}${GAP}\d{0,3}\s*$)`);

/** A phone number typed as ten digits alone, or eleven that begin with 1, as North American numbers are written: `(614) 555-0100`. Any other text stays. */
export function spacedPhone(text: string): string {
  return text.replace(/^1?(\d{3})(\d{3})(\d{4})$/, '($1) $2-$3');
}

/** A text with each US phone number in it as its digits alone, without the leading 1: `Odell 6175550134`. An extension is a word of its own. */
export function joinPhones(text: string): string {
  return text
    .replace(BEGUN, '')
    .replace(
      US_NUMBER,
      (_, area: string | undefined, exchange: string, line: string, extension: string | undefined) =>
        `${(area ?? '').replace(/\D/g, '')}${exchange}${line}${extension === undefined ? '' : ' '}`,
    );
}

/** The phone numbers in a field, `555-0122 / 555-0123`, each as written, with the words before it. A field that is not made of numbers alone is one. */
export function phonesIn(text: string): string[] {
  const parts = text.trim().split(NEXT_NUMBER);
  return parts.every(isNumber) ? parts : [text.trim()];
}

/** Whether a field is made of phone numbers: of each, digits and the characters between them, and an extension. */
export function isPhones(text: string): boolean {
  return phonesIn(text).every((phone) => {
    const { before, after } = splitExtension(phone);
    return (before.match(/\d/g)?.length ?? 0) >= 3 && /^[\d\s()+./x#*-]+$/i.test(before + after);
  });
}

/** The emails in a field, `a@example.com; b@example.com`. A field that is not made of emails alone is one. */
export function emailsIn(text: string): string[] {
  const parts = text.split(/[\s;,]+|:::/).filter((part) => part !== '');
  return parts.length > 0 && parts.every((part) => part.includes('@')) ? parts : [text.trim()];
}

/** Whether a field is made of email addresses, by their form only. */
export function isEmails(text: string): boolean {
  return emailsIn(text).every((email) => /^[^\s@]+@[^\s@.]+(\.[^\s@.]+)+$/.test(email));
}
