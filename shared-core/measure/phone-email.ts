/** Phone numbers and emails as people write them, with several in one field. */

/** An extension at the end of a phone number, as the source of a regular expression with its digits as `extension`: `x4`, `ext. 4`, `#4`, `;ext=4`. */
export const PHONE_EXTENSION = String.raw`\s*(?:;\s*ext=|,?\s*(?:(?:extension|ext)\b\.?|ext(?=\d)|x|#))\s*(?<extension>\d{1,6})`;

const isNumber = (text: string): boolean => text.replace(/\D/g, '').length >= 7;
const NEXT_NUMBER = /\s*(?:[/;,\n]|:::|\b(?:or|and)\b|&)\s*(?=[^/;,\n]*(?:\d[^/;,\n\d]*){7})/i;

/** The phone numbers in a field, `555-0122 / 555-0123`, each as written. A field that is not made of numbers alone is one. */
export function phonesIn(text: string): string[] {
  const parts = text.trim().split(NEXT_NUMBER);
  return parts.every(isNumber) ? parts : [text.trim()];
}

/** The emails in a field, `a@example.com; b@example.com`. A field that is not made of emails alone is one. */
export function emailsIn(text: string): string[] {
  const parts = text.split(/[\s;,]+|:::/).filter((part) => part !== '');
  return parts.length > 0 && parts.every((part) => part.includes('@')) ? parts : [text.trim()];
}
