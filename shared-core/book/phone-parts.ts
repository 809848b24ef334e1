/** Phone numbers compared, however they are written. */

/** `ext. 12`, `x12`, `#12` and the `;ext=12` of RFC 3966 at the end of a number. */
const EXTENSION = /[\s,;]*(?:(?:ext|extension)\.?|x|#)\s*[:=]?\s*(\d{1,6})$/i;

/**
 * The number to compare phones by: its last ten digits, as US numbers have with or without +1, and its extension, empty without one.
 * Other marks and words are ignored.
 */
export function phoneParts(text: string): { readonly number: string; readonly extension: string } {
  const plain = text.trim();
  const number = plain.replace(EXTENSION, '').replace(/\D/g, '').slice(-10);
  return { number, extension: EXTENSION.exec(plain)?.[1] ?? '' };
}
