/** Percentages: stored as fractions of one, shown with a percent sign. */
import { formatNumber, parseNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { withoutRestated } from './quantity.ts';

/** The minimum and maximum percentage a field accepts. */
export type PercentSpan = { readonly least: number; readonly most: number };

/**
 * Parses a percentage as a fraction of one: `8.25%` and `8.25` are both 0.0825, `75% RH` is 0.75.
 * @param text the entered text; a bare number is a percentage, never a fraction
 * @param span minimum and maximum accepted, in percent; 0 to 100 by default
 */
export function parsePercent(text: string, span: PercentSpan = { least: 0, most: 100 }, locale?: string): Parsed<number> {
  const typed = text.trim();
  if (typed === '') return { ok: false, message: 'Enter a percent, such as 55%.' };
  const body = withoutRestated(typed).replace(/\s*(%|percent|pct\.?)?(?:\s*\brh)?$/i, '');
  const value = parseNumber(body, locale);
  if (!value.ok) return { ok: false, message: `“${typed}”: this is not a percent. Enter a percent, such as 55%.` };
  if (value.value < span.least) return { ok: false, message: `“${typed}”: enter ${span.least}% or more.` };
  if (value.value > span.most) return { ok: false, message: `“${typed}”: enter ${span.most}% or less.` };
  return { ok: true, value: value.value / 100 };
}

/**
 * Formats a fraction as a percentage: 0.0825 with two decimals is `8.25%`.
 * @param share fraction of one
 * @param decimals maximum decimals
 */
export function formatPercent(share: number, decimals = 0, locale?: string): string {
  return `${formatNumber(share * 100, { most: decimals }, locale).replace(/^\u22120$/, '0')}%`;
}

/** A chance in whole percent. No estimate is certain: `over 99%`, `under 1%`. */
export function formatChance(share: number, locale?: string): string {
  if (share >= 0.995) return `over ${formatPercent(0.99, 0, locale)}`;
  return share < 0.005 ? `under ${formatPercent(0.01, 0, locale)}` : formatPercent(share, 0, locale);
}
