import { formatNumber } from './number.ts';

/** A count with its noun: `1 open job`, `2 open jobs`, `No open jobs`. The noun is English in every locale, the number is not. */
export function countWords(count: number, noun: string, locale: string): string {
  return `${count === 0 ? 'No' : formatNumber(count, { most: 3 }, locale)} ${count === 1 ? noun : plural(noun)}`;
}

/** The plural of an English noun: `jugs`, `boxes`, `properties`. */
export function plural(noun: string): string {
  if (/(?:s|x|ch|sh)$/.test(noun)) return `${noun}es`;
  return noun.endsWith('y') && !/[aeiou]y$/.test(noun) ? `${noun.slice(0, -1)}ies` : `${noun}s`;
}
