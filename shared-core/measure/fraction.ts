/** Fractions of an inch and similar units: entered as `1 3/8`, `1-3/8`, `⅜`, or a decimal, shown as `1⅜`. */
import { parseNumber } from './number.ts';
import type { Parsed } from './parsed.ts';

/** Unicode's single-character fractions (Number Forms and Latin-1). */
const GLYPHS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ['½', [1, 2]],
  ['¼', [1, 4]],
  ['¾', [3, 4]],
  ['⅛', [1, 8]],
  ['⅜', [3, 8]],
  ['⅝', [5, 8]],
  ['⅞', [7, 8]],
  ['⅓', [1, 3]],
  ['⅔', [2, 3]],
  ['⅕', [1, 5]],
  ['⅖', [2, 5]],
  ['⅗', [3, 5]],
  ['⅘', [4, 5]],
  ['⅙', [1, 6]],
  ['⅚', [5, 6]],
]);
const GLYPH_CLASS = [...GLYPHS.keys()].join('');
const SUPERSCRIPT = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const SUBSCRIPT = '₀₁₂₃₄₅₆₇₈₉';

const BUILT = new RegExp(`([${SUPERSCRIPT}]+)\\s*[⁄∕/]\\s*([${SUBSCRIPT}]+)`, 'g');

/** Turns typographic fractions into ` 3/8`, so that one parser covers all spellings. */
export function plainFractions(text: string): string {
  const digits = (drawn: string, from: string) => Array.from(drawn, (digit) => String(from.indexOf(digit))).join('');
  return text
    .replace(BUILT, (_, top: string, bottom: string) => ` ${digits(top, SUPERSCRIPT)}/${digits(bottom, SUBSCRIPT)}`)
    .replace(/[⁄∕]/g, '/')
    .replace(new RegExp(`[${GLYPH_CLASS}]`, 'g'), (glyph) => {
      const [top, bottom] = GLYPHS.get(glyph) ?? [0, 1];
      return ` ${top}/${bottom}`;
    })
    .trim();
}

const MIXED = /^(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)$/;

/**
 * Parses a number that may have a fraction: `3/8`, `1 3/8`, `1-3/8`, `1⅜`, `1.375`, `1,375` by locale.
 * @param text the entered text, without a unit and without a sign
 * @param locale BCP 47 tag that sets the decimal sign; without it, either sign is accepted
 */
export function parseMixedNumber(text: string, locale?: string): Parsed<number> {
  const plain = plainFractions(text);
  if (!plain.includes('/')) return parseNumber(plain, locale);
  const match = MIXED.exec(plain);
  if (match === null) return { ok: false, message: `“${text.trim()}” is not a fraction. Enter it like 1 3/8.` };
  const whole = Number(match[1] ?? '0');
  const top = Number(match[2]);
  const bottom = Number(match[3]);
  if (bottom === 0) return { ok: false, message: `“${text.trim()}” divides by zero. Use 2, 4, 8, or 16 as the lower number.` };
  if (match[1] !== undefined && top >= bottom) {
    return { ok: false, message: `“${text.trim()}”: the fraction must be less than 1. Enter it like 1 3/8.` };
  }
  return { ok: true, value: whole + top / bottom };
}

function glyphFor(top: number, bottom: number): string {
  for (const [glyph, [a, b]] of GLYPHS) if (a === top && b === bottom) return glyph;
  const digits = (value: number, from: string) => Array.from(String(value), (digit) => from[Number(digit)] ?? '').join('');
  return `${digits(top, SUPERSCRIPT)}⁄${digits(bottom, SUBSCRIPT)}`;
}

/**
 * Formats a count of equal parts as a whole number and a typographic fraction in lowest terms: 22 sixteenths is `1⅜`.
 * @param parts number of parts, zero or more, whole
 * @param perWhole parts in a whole, a power of two
 */
export function formatParts(parts: number, perWhole: number): string {
  const whole = Math.floor(parts / perWhole);
  let top = parts - whole * perWhole;
  let bottom = perWhole;
  if (top === 0) return String(whole);
  while (top % 2 === 0 && bottom % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return `${whole === 0 ? '' : whole}${glyphFor(top, bottom)}`;
}
