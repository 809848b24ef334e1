/** Exact lengths of the units, by the 1959 agreement. NIST SP 811 (2008), appendix B.8. */

/** One inch, meters, exactly. */
export const INCH_M = 0.0254;
/** One foot, meters, exactly. */
export const FOOT_M = 0.3048;
/** One yard, meters, exactly. */
export const YARD_M = 0.9144;
/** One statute mile, meters, exactly. */
export const MILE_M = 1609.344;
