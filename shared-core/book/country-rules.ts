/** The country a business works in, which decides its methods, limits, and holidays. */
import type { Business } from './business.ts';

/** Country names, in lower case, with their ISO 3166 codes. */
const CODES: ReadonlyMap<string, string> = new Map(
  Object.entries({
    US: ['us', 'usa', 'u.s.', 'u.s.a.', 'united states', 'united states of america', 'america'],
    GB: ['gb', 'uk', 'great britain', 'united kingdom', 'england', 'scotland', 'wales'],
    IE: ['ie', 'ireland'],
    DE: ['de', 'germany', 'deutschland'],
    AT: ['at', 'austria', 'österreich'],
    CH: ['ch', 'switzerland', 'schweiz'],
    CA: ['ca', 'canada'],
  }).flatMap(([code, names]) => names.map((name) => [name, code] as const)),
);

/** ISO 3166 code of a business's country: as written in its address, else of its locale; the US where neither says. */
export function businessCountry({ address, locale }: Pick<Business, 'address' | 'locale'>): string {
  const written = address.country.trim().toLowerCase();
  if (written !== '') return CODES.get(written) ?? written.toUpperCase();
  return /^[a-z]{2,3}-(?:[A-Za-z]{4}-)?([A-Z]{2})\b/.exec(locale)?.[1] ?? 'US';
}
