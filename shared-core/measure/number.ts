/** Parses and formats numbers with the decimal sign of a locale; rejects anything that is not a number. */
import type { Parsed } from './parsed.ts';

/** Shown for an unknown figure. */
export const UNKNOWN_MARK = '—';

/** Default locale: the product is written in US English. */
export const DEFAULT_LOCALE = 'en-US';

type Signs = { readonly decimal: string; readonly group: string };

const signsByLocale = new Map<string, Signs>();

/**
 * The decimal and the grouping sign of a locale.
 * @param locale a BCP 47 tag
 */
export function numberSigns(locale: string): Signs {
  const known = signsByLocale.get(locale);
  if (known !== undefined) return known;
  const parts = new Intl.NumberFormat(locale).formatToParts(1234567.8);
  const signs = {
    decimal: parts.find((part) => part.type === 'decimal')?.value ?? '.',
    group: parts.find((part) => part.type === 'group')?.value ?? ',',
  };
  signsByLocale.set(locale, signs);
  return signs;
}

const SPACES = /[\s\u00a0\u202f\u2009'’]/g;
const PLAIN = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;

function spelledWith(text: string, decimal: string, group: string): string | null {
  const parts = text.split(decimal);
  const [whole, fraction] = parts;
  if (whole === undefined || parts.length > 2) return null;
  if (fraction?.includes(group)) return null;
  const groups = whole.replace(/^[+-]/, '').split(group);
  const grouped = groups.length > 1;
  if (grouped && !(/^\d{1,3}$/.test(groups[0] ?? '') && groups.slice(1).every((g) => /^\d{3}$/.test(g)))) return null;
  const digits = whole.split(group).join('');
  return fraction === undefined ? digits : `${digits}.${fraction}`;
}

/** True for a single comma or point before exactly three digits: thousands in one country, a decimal in the next. */
function readsTwoWays(text: string): boolean {
  return /^[+-]?[1-9]\d{0,2},\d{3}$/.test(text);
}

/**
 * Parses a plain number.
 *
 * The locale's own signs come first; another spelling is accepted when it is unambiguous (`3,76` is 3.76 anywhere), and an
 * ambiguous one (`3,760` with no locale) is refused.
 * @param locale BCP 47 tag that sets the decimal sign; without it, either sign is accepted
 */
export function parseNumber(text: string, locale?: string): Parsed<number> {
  const typed = text.trim().replace(/[\u2212\u2013]/g, '-');
  if (typed === '') return { ok: false, message: 'Enter a number.' };
  const compact = /\d[ \u00a0\u202f\u2009'’]\d{3}(\D|$)/.test(typed) ? typed.replace(SPACES, '') : typed;
  const other = (sign: string) => (sign === '.' ? ',' : '.');
  let spelled: string | null;
  if (locale === undefined) {
    if (readsTwoWays(compact)) {
      const digits = compact.replace(',', '');
      return { ok: false, message: `“${typed}” can be read two ways. Enter ${digits} or ${compact.replace(',', '.')}.` };
    }
    spelled = spelledWith(compact, '.', ',') ?? spelledWith(compact, ',', '.');
  } else {
    const { decimal } = numberSigns(locale);
    spelled = spelledWith(compact, decimal, other(decimal)) ?? spelledWith(compact, other(decimal), decimal);
  }
  if (spelled === null || !PLAIN.test(spelled)) return { ok: false, message: `“${typed}” is not a number. Enter digits, such as 12.5.` };
  const value = Number(spelled);
  if (!Number.isFinite(value) || Math.abs(value) > 1e15) return { ok: false, message: `“${typed}” is too large.` };
  return { ok: true, value: value === 0 ? 0 : value };
}

/** Minimum and maximum decimals of a figure. */
export type Decimals = { readonly least?: number; readonly most: number };

/** Caches one formatter per locale and decimals, because creating one costs far more than using it. */
const formatters = new Map<string, Intl.NumberFormat>();

function formatterFor(locale: string, { least = 0, most }: Decimals): Intl.NumberFormat {
  const key = `${locale}/${least}/${most}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  const formatter = new Intl.NumberFormat(locale, { minimumFractionDigits: least, maximumFractionDigits: most, signDisplay: 'negative' });
  formatters.set(key, formatter);
  return formatter;
}

/**
 * Formats a number in a locale; a dash when it is not finite.
 * @param decimals maximum decimals, and the minimum
 */
export function formatNumber(value: number, decimals: Decimals, locale: string = DEFAULT_LOCALE): string {
  if (!Number.isFinite(value)) return UNKNOWN_MARK;
  const formatted = formatterFor(locale, decimals).format(value);
  return formatted.replace(/^-/, '\u2212');
}
