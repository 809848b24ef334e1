/** Countries by two-letter code (ISO 3166-1 alpha-2), named by the JavaScript platform. */
import type { Parsed } from './parsed.ts';

const NAMES = new Intl.DisplayNames('en', { type: 'region', fallback: 'none' });

/** A country's name in English, or null for an unknown code. */
export function countryName(code: string): string | null {
  if (!/^[A-Z]{2}$/.test(code)) return null;
  const name = NAMES.of(code);
  // ZZ is "unknown" to the platform, not a country.
  return name === undefined || code === 'ZZ' ? null : name;
}

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const plain = (name: string): string =>
  name
    .normalize('NFD')
    .replace(/[^\p{L} ]/gu, '')
    .trim()
    .toLowerCase();

/** Other names, and codes of three letters (ISO 3166-1 alpha-3, from memory), for the countries that an address here most likely has. */
const OTHER_NAMES = {
  ...{ usa: 'US', america: 'US', 'united states of america': 'US', can: 'CA', mex: 'MX', gbr: 'GB', 'great britain': 'GB' },
} as const;

let codes: ReadonlyMap<string, string> | null = null;

/** Codes by name. A former code, such as UK, has the name of today's. */
function codesByName(): ReadonlyMap<string, string> {
  codes ??= new Map([
    ...LETTERS.flatMap((a) => LETTERS.map((b) => a + b)).flatMap((code) => {
      const [name, today] = [countryName(code), new Intl.Locale(`und-${code}`).region];
      return name === null || today === undefined
        ? []
        : ([
            [code.toLowerCase(), today],
            [plain(name), today],
          ] as const);
    }),
    ...Object.entries(OTHER_NAMES),
  ]);
  return codes;
}

/** Parses a country: its two-letter code in either case, or its name in English. */
export function parseCountry(text: string): Parsed<string> {
  const typed = text.trim();
  const code = codesByName().get(plain(typed));
  if (code !== undefined) return { ok: true, value: code };
  return { ok: false, message: `“${typed}” is not a country. Enter two letters, such as US or CA.` };
}
