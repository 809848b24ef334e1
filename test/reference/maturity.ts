/** Published and worked values of cement maturity and setting, as data. */

/**
 * EN 1992-1-1:2004 (B.10). Source: fib-international/structuralcodes, tests/test_ec2_2004/test_ec2_2004_shrinkage_and_creep.py,
 * test_maturity (total published; terms worked from the formula).
 */
export const EUROCODE_MATURITY = {
  tempC: [19, 20, 20, 21, 22, 23],
  days: [1, 2, 1, 1, 1, 2],
  termsDays: [0.95253337, 1.99624926, 0.99812463, 1.04556543, 1.09491635, 2.29247878],
  totalDays: 8.37986781,
} as const;

/** Nurse–Saul, 15 °C for 28 days, datum −11 °C: 728 °C·days; the wrong sign gives 112. Source: civinnovate.com, p=18387. */
export const NURSE_SAUL_28_DAYS = { tempC: 15, days: 28, datumC: -11, degreeDays: 728 } as const;

/** 3,500 °C·h at a steady 23 °C and datum 0 °C takes 152 h. Source: a maker's article, weak; the arithmetic is exact to 0.2 h. */
export const NURSE_SAUL_TARGET = { tempC: 23, datumC: 0, degreeHours: 3500, hours: 152 } as const;

/** exp(−Q (1/(T+273) − 1/(Ts+273))), worked from the ASTM C1074 form, four digits: T, then (Q 5000, Ts 20), (Q 5000, Ts 23), (Q 33500/8.314, Ts 20), (Q 41500/8.314, Ts 20). */
export const AGE_FACTORS: readonly (readonly [number, number, number, number, number])[] = [
  [0, 0.2865, 0.241, 0.3651, 0.2871],
  [5, 0.3982, 0.335, 0.4762, 0.3988],
  [10, 0.5472, 0.4603, 0.6151, 0.5477],
  [15, 0.7436, 0.6255, 0.7876, 0.744],
  [20, 1.0, 0.8412, 1.0, 1.0],
  [23, 1.1888, 1.0, 1.1496, 1.1885],
  [25, 1.3315, 1.12, 1.2595, 1.3309],
  [30, 1.7563, 1.4773, 1.5744, 1.7546],
  [35, 2.2958, 1.9312, 1.9537, 2.2926],
  [40, 2.9755, 2.5029, 2.4078, 2.97],
];

/** A day's history, °C by hours, with its Nurse–Saul sums and its equivalent ages. Worked from the formulas. */
export const DAY_HISTORY = {
  steps: [
    [18, 1],
    [20, 1],
    [22, 1],
    [25, 2],
    [23, 3],
    [20, 4],
    [16, 6],
    [12, 6],
  ],
  degreeHoursDatum0: 427,
  degreeHoursDatumMinus10: 667,
  ageHoursAt20: 21.6956,
  ageHoursAt23: 18.2498,
} as const;

/** Setting time of ordinary concrete, °F and hours. Source: Pennsylvania State University, CE 584, Table 1. Shape only. */
export const SETTING_HOURS: readonly (readonly [number, number])[] = [
  [100, 5 / 3],
  [90, 8 / 3],
  [80, 4],
  [70, 6],
  [60, 8],
  [50, 11],
  [40, 14],
  [30, 19],
];
