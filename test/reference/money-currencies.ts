/** Minor-unit digits by ISO 4217, from memory of the standard's list A.1. */
export const ISO_4217_DIGITS = { USD: 2, EUR: 2, GBP: 2, CAD: 2, JPY: 0, KRW: 0, KWD: 3, BHD: 3, TND: 3 } as const;
