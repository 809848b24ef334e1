/** Lists of words within a sentence: `rot, a sag and a stepped crack`. */

/** Joined by commas and a last “and”. */
export function formatListAnd(items: readonly string[], locale = 'en-US'): string {
  return new Intl.ListFormat(locale, { type: 'conjunction' }).format(items);
}

/** Joined by commas and a last “or”. */
export function formatListOr(items: readonly string[], locale = 'en-US'): string {
  return new Intl.ListFormat(locale, { type: 'disjunction' }).format(items);
}
