/** Percents: shares of one inside, percent signs outside. */
import { formatNumber, parseNumber } from './number.ts';
import type { Parsed } from './parsed.ts';

/** The least and most percent a field takes. */
export type PercentSpan = { readonly least: number; readonly most: number };

/**
 * Reads a percent as a share of one: `8.25%` and `8.25` are both 0.0825.
 * @param text what was typed; a number alone is percent, never a share
 * @param span least and most taken, in percent; 0 to 100 unless given
 * @param locale BCP 47 tag whose decimal sign is meant
 */
export function parsePercent(text: string, span: PercentSpan = { least: 0, most: 100 }, locale?: string): Parsed<number> {
  const typed = text.trim();
  if (typed === '') return { ok: false, message: 'Enter a percent, such as 55%.' };
  const body = typed.replace(/\s*(%|percent|pct\.?)$/i, '');
  const value = parseNumber(body, locale);
  if (!value.ok) return { ok: false, message: `${typed}: this is not a percent. Enter a percent, such as 55%.` };
  if (value.value < span.least) return { ok: false, message: `${typed}: Enter ${span.least}% or more.` };
  if (value.value > span.most) return { ok: false, message: `${typed}: Enter ${span.most}% or less.` };
  return { ok: true, value: value.value / 100 };
}

/**
 * A share as a percent: 0.0825 with two decimals is `8.25%`.
 * @param share of one
 * @param decimals most decimals shown
 * @param locale BCP 47 tag
 */
export function formatPercent(share: number, decimals = 0, locale?: string): string {
  return `${formatNumber(share * 100, { most: decimals }, locale).replace(/^\u22120$/, '0')}%`;
}
