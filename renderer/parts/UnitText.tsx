import { shapedFractions } from '../../shared-core/drawing/drawn-fraction.ts';

const TYPED_FRACTION = /(?<![\d/.])(?:(\d+)[ \u00a0-])?(\d{1,2})\/(2|4|8|16|32|64)(?![\d/])/g;
const NUMBER_AND_UNIT = /([\d½¼¾⅛⅜⅝⅞]) (?=(?:ft|in|lb|kg|g|m|mm|cm|qt|gal|L|psi|MPa|h|min|s|sq|cu|am|pm|bags?|days?|hours?)\b|%|°)/g;

const MONTHS = [
  'January|Jan|February|Feb|March|Mar|April|Apr|May|June|Jun|July|Jul',
  'August|Aug|September|Sep|October|Oct|November|Nov|December|Dec',
].join('|');
const MONTH_AND_DAY = new RegExp(`\\b(${MONTHS}) (?=\\d)`, 'g');

/**
 * A text with its quantities typeset: built fractions, and no line break between a number and its unit or a month and its day. Dates such as
 * 5/12/26 are left out.
 */
export function setQuantities(text: string): string {
  return shapedFractions(text)
    .replace(TYPED_FRACTION, (all: string, whole: string | undefined, top: string, bottom: string) =>
      Number(top) >= Number(bottom) ? all : `${whole === undefined ? '' : `${whole}\u200a`}${top}\u2044${bottom}`,
    )
    .replace(NUMBER_AND_UNIT, '$1\u00a0')
    .replace(MONTH_AND_DAY, '$1\u00a0')
    .replace(/(\d\u00a0h) (?=\d+\u00a0min\b)/g, '$1\u00a0');
}

/** Text with its quantities typeset. */
export function UnitText({ children }: { readonly children: string }) {
  return <>{setQuantities(children)}</>;
}
