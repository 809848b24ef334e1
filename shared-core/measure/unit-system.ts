/** The two ways a business reads its quantities. The same two words as in the business's record. */
export type UnitSystem = 'us' | 'metric';

/**
 * The locale that typed numbers are read by: the one given, or US English where the business works in US units, so that
 * `1,480` is a thousand and more. With metric units and no locale, a number that can be read two ways is refused.
 */
export function typingLocale(units: UnitSystem, locale: string | undefined): string | undefined {
  return locale ?? (units === 'us' ? 'en-US' : undefined);
}
