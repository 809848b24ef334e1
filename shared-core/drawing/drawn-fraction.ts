/** Fractions as the faces set them best. */
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const LOWERED = '₀₁₂₃₄₅₆₇₈₉';

/**
 * Built fractions (¹³⁄₁₆) as plain figures about the fraction slash, a hair space before them after a whole number: both inkers' shapers
 * then take the faces' own numerators and denominators, which stand closer than raised and lowered figures, and the text copies as 13⁄16.
 */
export function shapedFractions(text: string): string {
  return text.replace(/(\d?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)⁄([₀₁₂₃₄₅₆₇₈₉]+)/g, (_, before: string, top: string, bottom: string) => {
    const plain = (figures: string, set: string): string => [...figures].map((f) => String(set.indexOf(f))).join('');
    return `${before}${before === '' ? '' : '\u200a'}${plain(top, RAISED)}⁄${plain(bottom, LOWERED)}`;
  });
}
