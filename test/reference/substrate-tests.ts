/** Check cases of floor tests with their sources. Derived: arithmetic from the standard's own units. */
const FT2 = 0.09290304;

/** M1, M2: ASTM F1869 unit (clause 1.4), lb per 1,000 ft² in 24 h. Derived. */
export const DISH_CASES = [
  { id: 'M1', grams: 3, hours: 72, netM2: 0.44486 * FT2, lb: 4.956 },
  { id: 'M2', grams: 3, hours: 72, netM2: 0.4861 * FT2, lb: 4.535 },
] as const;

/** M4: one pound of emission in SI, derived. */
export const ONE_POUND_G_M2_DAY = 4.8824;

/** M6: ASTM F2170 clause 10, from memory: probe depth of a 4 in slab, in inches. */
export const PROBE_CASES = [
  { sides: 1, slabIn: 4, depthIn: 1.6 },
  { sides: 2, slabIn: 4, depthIn: 0.8 },
] as const;

/** M7: three tests in the first 1,000 ft², one for each further 1,000 ft². Second-hand, epfloors.com. */
export const TEST_COUNTS = [
  { ft2: 400, tests: 3 },
  { ft2: 1000, tests: 3 },
  { ft2: 1001, tests: 4 },
  { ft2: 2000, tests: 4 },
  { ft2: 2500, tests: 5 },
] as const;

/** W4: the section of a 2×10 (derived). */
export const TWO_BY_TEN = { widthIn: 1.5, depthIn: 9.25, momentIn4: 98.93 } as const;

/** W5 to W7: 2×10 at 16 in over 14 ft, E 1.6 million psi, by 5 w L⁴ / (384 E I). Derived; loads in psf, deflection in inches. */
export const DEFLECTION_CASES = [
  { id: 'W5', psf: 40, sagIn: 0.291, spanOver: 577 },
  { id: 'W6', psf: 50, sagIn: 0.364, spanOver: 461 },
  { id: 'W7', psf: 60.4, sagIn: 0.44, spanOver: 382 },
] as const;
