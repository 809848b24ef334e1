/** What is wrong with words as typed, before the book would refuse them: the field then keeps the text with its sentence. */
import { longText, nameText, shortText } from '../../shared-core/book/fields.ts';

type Check = (text: string) => string | null;

const saidBy =
  (schema: typeof shortText): Check =>
  (text) =>
    schema.safeParse(text).error?.issues[0]?.message ?? null;

/** A line. */
export const checkShort: Check = saidBy(shortText);
/** A name, which must not be empty. */
export const checkName: Check = saidBy(nameText);
/** Notes, terms. */
export const checkLong: Check = saidBy(longText);

/** An address of electronic mail; only its shape can be told here. */
export const checkEmail: Check = (text) =>
  text === '' || /^[^\s@]+@[^\s@.]+(\.[^\s@.]+)+$/.test(text)
    ? checkShort(text)
    : `“${text}” is not an email address: it is written like ann@example.com.`;

/** A telephone number: digits and the signs between them. */
export const checkPhone: Check = (text) =>
  text === '' || (/\d{3}/.test(text.replace(/\D/g, '')) && /^[\d\s()+./x#*-]+$/i.test(text))
    ? checkShort(text)
    : `“${text}” is not a telephone number: type digits, such as 555 0117.`;
