/**
 * Rows of the applications manual for the revised NIOSH lifting equation (publication 94-110, revised 9/2021), read from a
 * transcription. Inches, pounds.
 */

/** Example 4, package inspection (fig. 14, p. 46). H 20 at the destination from memory. */
export const PACKAGE = {
  origin: { v: 22, d: 37, f: 3, rwlLb: 34.9 },
  destination: { h: 20, v: 59, rwlLb: 15.2 },
  loadLb: 26,
  index: [0.745, 1.71],
};
/** DERIVED: a 50 lb bag, H 15, V 8, D 22, no twist, seldom, up to an hour, fair coupling. */
export const BAG = { lb: 50, h: 15, v: 8, d: 22, rwlLb: 24.3, index: 2.06 };
/** Table 5 at spot rows, up to an hour, V below 30 in: compared with an independent table in code. */
export const TABLE_5_SPOTS = [
  { perMin: 1, low: 0.94 },
  { perMin: 9, low: 0.52 },
];
