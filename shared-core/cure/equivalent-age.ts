/** How fast a cement cures at one temperature against its reference temperature. */

/**
 * Activation energy over the gas constant, kelvin. 5000 K is the default of ASTM C1074 for ordinary cement (value from
 * memory); 4000 K is the constant of EN 1992-1-1 (B.10); 6000 K mirrors it on the other side. The three give the range.
 */
export const Q_K = { least: 4000, likely: 5000, most: 6000 } as const;

/** Celsius to kelvin as ASTM C1074 and EN 1992-1-1 print it; 273.15 would move an age by less than 0.01 %. */
const ZERO_C_IN_K = 273;

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
