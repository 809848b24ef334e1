/** Money as text. Internally an amount is whole minor units with a currency. */
import { DEFAULT_LOCALE, parseNumber } from '../measure/number.ts';
import type { Parsed } from '../measure/parsed.ts';
import { exact, roundHalfUp, times } from './exact.ts';

/** Amounts of 10^12 and more are typos; below that a typed decimal is read exactly (15 digits). */
const MOST_WHOLE = 1e12;

/** Cached, because making a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.NumberFormat>();

function formatterOf(locale: string, options: Intl.NumberFormatOptions): Intl.NumberFormat {
  const key = `${locale} ${options.currency ?? ''} ${options.maximumFractionDigits ?? ''}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  const formatter = new Intl.NumberFormat(locale, options);
  formatters.set(key, formatter);
  return formatter;
}

/** Cached, because a list asks for each of its amounts. */
const currencyDecimals = new Map<string, number>();

/**
 * Number of decimals of a currency: 2 for USD, 0 for JPY, 3 for KWD (ISO 4217 as the platform knows it).
 * @param currency three capital letters
 * @returns 2 for a code that is not a currency
 */
export function currencyDigits(currency: string): number {
  const known = currencyDecimals.get(currency);
  if (known !== undefined) return known;
  let digits = 2;
  try {
    digits = formatterOf(DEFAULT_LOCALE, { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
  } catch {
    // Not a currency.
  }
  currencyDecimals.set(currency, digits);
  return digits;
}

/**
 * Whole minor units as a plain decimal with a point, `1234.50`: for machines, and exact at any size.
 * @param minor whole minor units
 * @param currency three capital letters
 */
export function decimalMoney(minor: number, currency: string): `${number}` {
  const digits = currencyDigits(currency);
  const size = String(Math.abs(minor)).padStart(digits + 1, '0');
  const whole = size.slice(0, size.length - digits);
  const text = digits === 0 ? whole : `${whole}.${size.slice(size.length - digits)}`;
  // The template type only says "a decimal number", which the digits above are by construction.
  return `${minor < 0 ? '-' : ''}${text}` as `${number}`;
}

/** How an amount is written; see `formatMoney`. */
export type MoneyStyle = 'full' | 'whole' | 'bare' | 'about';

/**
 * An amount in the currency's own digits and the locale's own signs.
 * @param minor whole minor units
 * @param currency three capital letters
 * @param locale the business's locale, `en-US`
 * @param style `full` ($1,234.50), `whole` ($1,234 when nothing stands after the point), `bare` (1,234.50, for a column),
 * `about` ($1,235, to the nearest whole unit: the ends of a range, which is never known to the cent)
 */
export function formatMoney(minor: number, currency: string, locale: string = DEFAULT_LOCALE, style: MoneyStyle = 'full'): string {
  const digits = currencyDigits(currency);
  const decimals = style === 'about' || (style === 'whole' && minor % 10 ** digits === 0) ? 0 : digits;
  const digitChoice = { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  const format = formatterOf(locale, style === 'bare' ? digitChoice : { style: 'currency', currency, ...digitChoice });
  return format.format(decimalMoney(minor, currency));
}

/**
 * Reads an amount a person typed: `1,234.50`, `$1234.5`, `1 234,50`.
 * @param text as typed; the currency's sign or code may stand on either side
 * @param currency three capital letters
 * @param locale whose point and grouping signs are expected
 * @returns whole minor units, or what is wrong and what would be right
 */
export function parseMoney(text: string, currency: string, locale: string = DEFAULT_LOCALE): Parsed<number> {
  const digits = currencyDigits(currency);
  const typed = withoutSign(text, currency, locale);
  if (typed === '') return { ok: false, message: `Enter an amount, such as ${formatMoney(3450, currency, locale)}.` };
  const read = parseNumber(typed, locale);
  if (!read.ok)
    return { ok: false, message: `“${text.trim()}” is not an amount. Enter digits, such as ${formatMoney(3450, currency, locale)}.` };
  if (Math.abs(read.value) >= MOST_WHOLE) return { ok: false, message: `“${text.trim()}” is too large. Check for an extra digit.` };
  const minor = times(exact(read.value), exact(10 ** digits));
  const near = roundHalfUp(minor);
  if (BigInt(near) * minor.den === minor.num) return { ok: true, value: near };
  const has = digits === 0 ? 'has no decimals' : `has ${digits} decimals`;
  return { ok: false, message: `“${text.trim()}”: ${currency} ${has}. Did you mean ${formatMoney(near, currency, locale)}?` };
}

function withoutSign(text: string, currency: string, locale: string): string {
  const signs = (['symbol', 'narrowSymbol', 'code'] as const).map(
    (currencyDisplay) =>
      new Intl.NumberFormat(locale, { style: 'currency', currency, currencyDisplay }).formatToParts(1).find((p) => p.type === 'currency')
        ?.value ?? currency,
  );
  let rest = text.trim();
  for (const sign of signs) rest = rest.replace(sign, '').trim();
  // A minus that stood before the sign is left with the space that followed the sign.
  return rest.replace(/^([-\u2212+])\s+/, '$1');
}
