/** Where no line of a text ends: inside a measurement, or between a standard and its number. */

/** A standard and its number, a month and its day, the two words of an area: no line ends between them. */
const HELD_PAIR =
  /\b(pH|ASTM|ACI|ANSI|ISO|EN|IRC|Standards|clause|flow|FF|FL|Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec|sq|cu) (?=[A-Z]?\d|ft\b|yd\b|in\b|m\b)/g;
/** A number whose unit may not start the next line. */
const HELD_UNIT =
  /([\d\u00bc-\u00be\u2150-\u215e]) ((?:°F|°C|in|ft|mm|cm|m|h|s|psf|helpers?|coats?|batch(?:es)?|lb|kg|gal|L|bags?|hours?|minutes?|days?|weeks?|months?|years?|places|pages?|PM|AM|pm|am|qt|oz|psi|min|sq|cu|mi|km|mils?|rpm|kPa|MPa)(?![\p{L}]))/gu;

/** A range of pH, and a regulation with its sections: held as a whole. */
const HELD_WHOLE = /\bpH [\d.]+ to [\d.]+|\b\d+ CFR \d[\d.]*(?:\(\w+\))*(?:,? (?:and |to )?(?:(?:\(\w+\))+|\.\d+|subpart [A-Z]))*/g;

/**
 * A text with no-break spaces where no line may end: between a figure and its unit, the parts of `1 1/2 in.` or `2′ 3″`, and the parts
 * of a citation.
 */
export const withNoBreaks = (text: string): string =>
  text
    .replaceAll(HELD_WHOLE, (whole) => whole.replaceAll(' ', '\u00a0'))
    .replaceAll(/(\d′) (?=[\d\u00bc-\u00be\u2150-\u215e])/g, '$1\u00a0')
    .replaceAll(/(\d) (?=\d+\/\d)/g, '$1\u00a0')
    .replaceAll(HELD_UNIT, '$1\u00a0$2')
    .replaceAll(HELD_PAIR, '$1\u00a0')
    .replaceAll(/(\d h) (?=\d+\u00a0min)/g, '$1\u00a0');
