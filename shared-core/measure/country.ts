/** Countries by two-letter code (ISO 3166-1 alpha-2), named by the JavaScript platform. */
import type { Parsed } from './parsed.ts';

/** A country's name in English, or null for an unknown code. */
export function countryName(code: string): string | null {
  if (!/^[A-Z]{2}$/.test(code)) return null;
  const name = new Intl.DisplayNames('en', { type: 'region', fallback: 'none' }).of(code);
  // ZZ is "unknown" to the platform, not a country.
  return name === undefined || code === 'ZZ' ? null : name;
}

/** Parses a two-letter country code in either case. */
export function parseCountry(text: string): Parsed<string> {
  const typed = text.trim();
  const code = typed.toUpperCase();
  if (countryName(code) !== null) return { ok: true, value: code };
  return { ok: false, message: `“${typed}” is not a country. Enter two letters, such as US or CA.` };
}
