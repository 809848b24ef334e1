/** Checks of entered text, with the messages of the record schemas. */
import { longText, nameText, shortText } from '../../shared-core/book/fields.ts';

type Check = (text: string) => string | null;

const checkBy =
  (schema: typeof shortText): Check =>
  (text) =>
    schema.safeParse(text).error?.issues[0]?.message ?? null;

/** One line. */
export const checkShort: Check = checkBy(shortText);
/** A name, which must not be empty. */
export const checkName: Check = checkBy(nameText);
/** Notes, terms. */
export const checkLong: Check = checkBy(longText);

/** An email address, by its form only. */
export const checkEmail: Check = (text) =>
  text === '' || /^[^\s@]+@[^\s@.]+(\.[^\s@.]+)+$/.test(text) ? checkShort(text) : 'Enter an email address, such as ann@example.com.';

/** A phone number: digits and the characters between them. */
export const checkPhone: Check = (text) =>
  text === '' || (/\d{3}/.test(text.replace(/\D/g, '')) && /^[\d\s()+./x#*-]+$/i.test(text))
    ? checkShort(text)
    : 'Enter a phone number, such as 555-0117.';
