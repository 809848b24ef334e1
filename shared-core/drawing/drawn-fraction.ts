/** Fractions in the form that the fonts render best. */
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const LOWERED = '₀₁₂₃₄₅₆₇₈₉';

/**
 * Rewrites fractions (¹³⁄₁₆) as plain figures around the fraction slash, with a hair space after a whole number. SVG and PDF text shaping then use
 * the fonts' own numerators and denominators, which are tighter than superscript and subscript figures, and the text copies as 13⁄16.
 */
export function shapedFractions(text: string): string {
  return text.replace(/(\d?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)⁄([₀₁₂₃₄₅₆₇₈₉]+)/g, (_, before: string, top: string, bottom: string) => {
    const plain = (figures: string, set: string): string => [...figures].map((f) => String(set.indexOf(f))).join('');
    return `${before}${before === '' ? '' : '\u200a'}${plain(top, RAISED)}⁄${plain(bottom, LOWERED)}`;
  });
}
