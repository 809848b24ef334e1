/** Real fractions, set from the glyphs that both families hold. */
const WHOLE_GLYPHS: Readonly<Record<string, string>> = {
  '1/2': '½',
  '1/4': '¼',
  '3/4': '¾',
  '1/8': '⅛',
  '3/8': '⅜',
  '5/8': '⅝',
  '7/8': '⅞',
};
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const LOWERED = '₀₁₂₃₄₅₆₇₈₉';

function digits(n: number, set: string): string {
  return [...String(n)].map((d) => set[Number(d)] ?? '').join('');
}

/** A fraction as type: one glyph where the faces hold it (½), else raised and lowered figures about the fraction slash (¹³⁄₁₆). */
export function fractionText(numerator: number, denominator: number): string {
  return WHOLE_GLYPHS[`${String(numerator)}/${String(denominator)}`] ?? `${digits(numerator, RAISED)}⁄${digits(denominator, LOWERED)}`;
}

/** Every "13/16" or "1 3/4" within a line set as a real fraction; the space between a whole and its fraction closes up. Dates such as 5/12/26 stay. */
export function setFractions(text: string): string {
  return text.replace(
    /(?<![\d/.])(?:(\d+)[ \u00a0-])?(\d{1,2})\/(2|4|8|16|32|64)(?![\d/])/g,
    (whole, units: string | undefined, top: string, bottom: string) => {
      if (Number(top) >= Number(bottom)) return whole;
      return `${units ?? ''}${fractionText(Number(top), Number(bottom))}`;
    },
  );
}

/** A length in inches to the nearest sixteenth with no unit: 1½, ¹³⁄₁₆, 0, −⅛. */
export function sixteenthsText(inches: number): string {
  const total = Math.round(Math.abs(inches) * 16);
  const sign = inches < 0 && total > 0 ? '−' : '';
  const whole = Math.floor(total / 16);
  let top = total % 16;
  let bottom = 16;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${sign}${String(whole)}`;
  return `${sign}${whole > 0 ? String(whole) : ''}${fractionText(top, bottom)}`;
}
