/** Lists of words within a sentence: `rot, a sag and a stepped crack`. */

/** Joined by commas and a last “and”, in English whatever the locale of the numbers. */
export function formatListAnd(items: readonly string[]): string {
  return new Intl.ListFormat('en-US', { type: 'conjunction' }).format(items);
}

/** Joined by commas and a last “or”, in English whatever the locale of the numbers. */
export function formatListOr(items: readonly string[]): string {
  return new Intl.ListFormat('en-US', { type: 'disjunction' }).format(items);
}
