/** Published flatness figures as data, each with where it was read. */

/**
 * Stanford Linear Accelerator Center, alignment group: concrete test pad, April and May 2003, "Based on ASTM E 1155M-96
 * (2001)". Elevations in mm at 300 mm, lines 0 to 2, and the curvatures q the sheet prints (positive is a trough).
 * Seen on two copies: https://ar.scribd.com/document/307378825/Astm-Results and scribd document 382981185.
 */
export const SLAC_PAD: readonly { readonly line: number; readonly elevationsMm: readonly number[]; readonly q: readonly number[] }[] = [
  {
    line: 0,
    elevationsMm: [
      418.617, 419.938, 421.894, 423.748, 425.221, 424.739, 423.799, 424.307, 425.425, 424.688, 423.164, 422.758, 420.472, 416.738,
    ],
    q: [0.635, -0.102, -0.381, -1.956, -0.457, 1.448, 0.61, -1.854, -0.787, 1.118, -1.88, -1.448],
  },
  {
    line: 1,
    elevationsMm: [
      418.592, 421.081, 422.072, 421.513, 420.04, 421.132, 420.675, 421.64, 421.894, 421.538, 421.183, 421.894, 419.684, 420.04, 417.982,
    ],
    q: [-1.499, -1.549, -0.914, 2.565, -1.549, 1.422, -0.711, -0.61, 0, 1.067, -2.921, 2.565, -2.413],
  },
  {
    line: 2,
    elevationsMm: [
      418.338, 419.659, 419.227, 419.227, 418.668, 418.186, 418.973, 419.379, 420.141, 419.532, 418.643, 418.719, 416.763, 414.782,
    ],
    q: [-1.753, 0.432, -0.559, 0.076, 1.27, -0.381, 0.356, -1.372, -0.279, 0.965, -2.032, -0.025],
  },
];

/**
 * F_F of those lines: arithmetic on the published elevations with 115.8 / (3 S + |mean|), sample deviation. The formula is
 * E1155M section 9 from memory; the sheet's own F values are past the visible part of every copy.
 */
export const SLAC_DERIVED_FF: readonly { readonly line: number; readonly r: number; readonly ff: number }[] = [
  { line: 0, r: 12, ff: 28.77 },
  { line: 1, r: 13, ff: 20.4 },
  { line: 2, r: 12, ff: 34.55 },
];

/** ACI 117-10 Table 4.8.5.1, https://ja.scribd.com/document/375197584/Equivalen-Number-Klasisfikasi-Lantai (seen). */
export const ACI_117_TABLE: readonly (readonly [string, number, number])[] = [
  ['Conventional', 20, 15],
  ['Moderately flat', 25, 20],
  ['Flat', 35, 25],
  ['Very flat', 45, 35],
  ['Super flat', 60, 40],
];

/**
 * DIN 18202 Table 3 with the trade handbook's interpolated columns, mm by distance in m. Seen at
 * https://deploy.doczz.net/doc/5839552/tabelle-3--ebenheitstoleranzen--aus-din-18202-erweiterte-...
 * The standard's own columns are 0.1, 1, 4, 10 and 15; the rest are the handbook's whole millimeters.
 */
export const DIN_18202_HANDBOOK = {
  distancesM: [0.1, 0.6, 1, 1.5, 2, 2.5, 3, 3.5, 4, 6, 8, 10, 15],
  lines: {
    1: [10, 13, 15, 16, 17, 18, 18, 19, 20, 22, 23, 25, 30],
    2: [5, 7, 8, 9, 9, 10, 11, 12, 12, 13, 14, 15, 20],
    3: [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 11, 12, 15],
    4: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15],
  },
} as const;

/**
 * BS 8204 surface regularity below a 2 m straightedge, mm:
 * http://www.concrete.org.uk/fingertips-print.asp?docid=1009 (seen).
 */
export const BS_8204_MM: Readonly<Record<'sr1' | 'sr2' | 'sr3', number>> = { sr1: 3, sr2: 5, sr3: 10 };
