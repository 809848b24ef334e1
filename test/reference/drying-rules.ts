/** Printed drying cases: thickness in millimeters, then days. */

/** To 40 mm the three rules agree: a day a millimeter at 20 °C and under 65 % (BS 8203 wording; allaboutscreeds.com; screedscientist.com). */
export const AGREED_DAYS: readonly (readonly [number, number])[] = [
  [3, 3],
  [10, 10],
  [25, 25],
  [40, 40],
];

/** 50 mm: 50 days by the first two, 60 by the third. 75 mm: 100 days (allaboutscreeds.com), 110 (screedscientist.com), both printed. 60 and 100 mm worked from the rules. `null`: "longer". */
export const PARTED_DAYS: readonly (readonly [number, number | null, number, number])[] = [
  [50, 50, 50, 60],
  [60, null, 70, 80],
  [75, null, 100, 110],
  [100, null, 150, 160],
];
