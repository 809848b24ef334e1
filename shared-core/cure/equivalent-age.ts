/** How fast a cement cures at one temperature against its reference temperature. */

/**
 * Activation energy over the gas constant, kelvin. 5000 K is the default of ASTM C1074 for ordinary cement (value from
 * memory); 4000 K is the constant of EN 1992-1-1 (B.10); 6000 K mirrors it on the other side. The three give the range.
 */
export const Q_K = { least: 4000, likely: 5000, most: 6000 } as const;

/** Celsius to kelvin as ASTM C1074 and EN 1992-1-1 print it; 273.15 would move an age by less than 0.01 %. */
const ZERO_C_IN_K = 273;

/** Exponent and slope of EN 1992-1-1:2004 (B.10), and of fib Model Code 2010 (5.1-85). */
const EUROCODE_EXPONENT = 13.65;
const EUROCODE_SLOPE_K = 4000;

/**
 * Hours at the reference temperature that one hour at `tempC` is worth: exp(-Q (1/Ta - 1/Ts)), kelvin.
 * Source: ASTM C1074, equivalent age (Arrhenius form).
 * @param tempC the material's temperature
 * @param referenceC the temperature the data sheet's hours stand for
 * @param qK activation energy over the gas constant
 */
export function ageFactor(tempC: number, referenceC: number, qK: number): number {
  return Math.exp(-qK * (1 / (tempC + ZERO_C_IN_K) - 1 / (referenceC + ZERO_C_IN_K)));
}

/** Age factor of EN 1992-1-1:2004 (B.10): exp(13.65 - 4000 / (273 + T)); 1 at 20.04 °C. */
export function eurocodeAgeFactor(tempC: number): number {
  return Math.exp(EUROCODE_EXPONENT - EUROCODE_SLOPE_K / (ZERO_C_IN_K + tempC));
}

/** Degrees above the datum, never negative: the rate of the Nurse–Saul temperature-time factor (ASTM C1074, equation 1). */
export function degreesAboveDatum(tempC: number, datumC: number): number {
  return Math.max(0, tempC - datumC);
}

/**
 * Share of the 28-day strength reached at an age, for ordinary concrete: exp(s (1 - sqrt(28 / t))).
 * Source: EN 1992-1-1:2004 (3.2); s is 0.20, 0.25 or 0.38 for rapid, normal and slow cement.
 * @param days age at 20 °C, in days, more than zero
 */
export function strengthShare(days: number, s: number): number {
  return Math.exp(s * (1 - Math.sqrt(28 / days)));
}
