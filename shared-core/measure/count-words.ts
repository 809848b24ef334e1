/** A count with its noun: `1 open job`, `2 open jobs`, `No open jobs`. The noun is English in every locale, the number is not. */
export function countWords(count: number, noun: string, locale: string): string {
  const isOne = new Intl.PluralRules('en-US').select(count) === 'one';
  const number = count === 0 ? 'No' : new Intl.NumberFormat(locale).format(count);
  return `${number} ${isOne ? noun : plural(noun)}`;
}

/** The plural of an English noun: `jugs`, `boxes`, `properties`. */
export function plural(noun: string): string {
  if (/(?:s|x|ch|sh)$/.test(noun)) return `${noun}es`;
  return noun.endsWith('y') && !/[aeiou]y$/.test(noun) ? `${noun.slice(0, -1)}ies` : `${noun}s`;
}
