/** Dilution of a primer: parts of water per part of primer. */
import { parseNumber } from './number.ts';
import type { Parsed } from './parsed.ts';

const ONE = String.raw`([\d.,]+)\s*(?:parts?)?\s*(?:of\s+)?(water|primer)?`;
const RATIO = new RegExp(String.raw`^${ONE}\s*(?::|\bto\b)\s*${ONE}(?:\s*\(?(water|primer)\s*(?::|/|\bto\b)\s*(?:water|primer)\)?)?$`, 'i');
const NONE = /^(?:undiluted|not diluted|none|neat|do not dilute)\.?$/i;

/**
 * Parses parts of water per part of primer: `3`, `undiluted`, `3:1 water to primer`, `1 part primer to 3 parts water`. A ratio that does
 * not say which part is water is refused, because labels write it both ways; so is one with a word only at its end, `3:1 water`.
 */
export function parseDilution(text: string, locale?: string): Parsed<number> {
  const typed = text.trim();
  if (NONE.test(typed)) return { ok: true, value: 0 };
  const [, one, firstWord, other, secondWord, order] = RATIO.exec(typed) ?? [];
  if (one === undefined || other === undefined) return parseNumber(typed, locale);
  const [a, b] = [parseNumber(one, locale), parseNumber(other, locale)];
  if (!a.ok) return a;
  if (!b.ok) return b;
  const first = (order ?? firstWord ?? '').toLowerCase();
  if ((first === '' || first === secondWord?.toLowerCase()) && a.value !== b.value) {
    return {
      ok: false,
      message: `“${typed}”: this does not say which part is water. Enter the parts of water per part of primer, such as 3, or 0 for undiluted.`,
    };
  }
  const [water, primer] = first === 'primer' ? [b.value, a.value] : [a.value, b.value];
  if (!(primer > 0)) return { ok: false, message: `“${typed}”: enter at least one part of primer.` };
  return { ok: true, value: water / primer };
}
