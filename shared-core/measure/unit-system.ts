/** The two unit systems, with the same names as in the company record. */
export type UnitSystem = 'us' | 'metric';

/**
 * The locale for parsing numbers: the one given, or US English for a business with US units, so that `1,480` is over a
 * thousand. With metric units and no locale, an ambiguous number is refused.
 */
export function typingLocale(units: UnitSystem, locale: string | undefined): string | undefined {
  return locale ?? (units === 'us' ? 'en-US' : undefined);
}
