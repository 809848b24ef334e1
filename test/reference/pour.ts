/** Published and common-practice figures that the pour is checked against. */

/**
 * xoshiro128** 1.1 from state {1, 2, 3, 4}: outputs of the authors' C program (prng.di.unimi.it/xoshiro128starstar.c), as
 * repeated in the tests of the rand_xoshiro crate.
 */
export const XOSHIRO_1234 = [11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804] as const;

/**
 * Setting time of ordinary concrete, °F and hours. Source: Pennsylvania State University, CE 584 course library, Table 1 of the
 * setting-time page. Used for the ratio between temperatures only, never for times of underlayment.
 */
export const SETTING_HOURS: readonly (readonly [tempF: number, hours: number])[] = [
  [90, 8 / 3],
  [80, 4],
  [70, 6],
  [60, 8],
  [50, 11],
];

/** Common practice, no source: two mixing, one placing from a wheeled hopper, twelve 50 lb bags over 168 sq ft. */
export const TWELVE_BAGS = { bags: 12, areaSqFt: 168, minutes: 45, within: 0.25 } as const;

/** Common practice, no source: five bucket batches fill a wheeled hopper. */
export const HOPPER_BATCHES = 5;
