/** Joins words into a list: within a sentence, `rot, a sag and a stepped crack`, or as parts of a line. */

/** Parts of a line, the empty ones left out. */
export const joined = (parts: readonly string[], by = ', '): string => parts.filter((part) => part !== '').join(by);

// Creating a formatter costs far more than using it.
const AND = new Intl.ListFormat('en-US', { type: 'conjunction' });
const OR = new Intl.ListFormat('en-US', { type: 'disjunction' });

/** Joined by commas and a final “and”, in English whatever the locale of the numbers. */
export function formatListAnd(items: readonly string[]): string {
  return AND.format(items);
}

/** Joined by commas and a final “or”, in English whatever the locale of the numbers. */
export function formatListOr(items: readonly string[]): string {
  return OR.format(items);
}
