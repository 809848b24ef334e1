/** Published saturation pressures, dew points and charts, with where each was read. */

/** ASHRAE Fundamentals 2017 ch. 1 Table 3, as encoded in psychrolib's own tests (test_GetSatVapPres). °C, Pa; over water, within −45 to 60 °C. */
export const SATURATION_PA = [
  { id: 'P3', tempC: 5, pressurePa: 872.6 },
  { id: 'P4', tempC: 25, pressurePa: 3169.7 },
  { id: 'P5', tempC: 50, pressurePa: 12351.3 },
] as const;

/** MetPy tests/calc/test_thermo.py: saturation vapor pressure, °C, hPa. */
export const SATURATION_HPA = [
  { tempC: 5, hPa: 8.72 },
  { tempC: 10, hPa: 12.27 },
  { tempC: 18, hPa: 20.63 },
  { tempC: 25, hPa: 31.67 },
] as const;

/** MetPy tests/calc/test_thermo.py (D1, D2): relative humidity from temperature and dew point, percent. */
export const HUMIDITY_FROM_DEW = [
  { id: 'D1', tempC: 25, dewC: 15, percent: 53.8 },
  { id: 'D2', tempC: (70 - 32) / 1.8, dewC: (55 - 32) / 1.8, percent: 58.935 },
] as const;

/** pvlib tests/test_atmosphere.py (D7): relative humidity with the WMO coefficients, percent. */
export const HUMIDITY_WMO = [
  { tempC: 20, dewC: 15, percent: 72.95185312581116 },
  { tempC: 25, dewC: 20, percent: 73.81500029087906 },
  { tempC: 30, dewC: 25, percent: 74.6401272083123 },
  { tempC: 15, dewC: 12, percent: 82.27063889868842 },
  { tempC: 10, dewC: 8, percent: 87.39018119185337 },
] as const;

/** Usage example in psychrolib's header (P9) and supplier glossary (G5), °C. */
export const DEW_POINTS_C = [
  { id: 'P9', tempC: 25, share: 0.8, dewC: 21.3094 },
  { id: 'G5', tempC: 30, share: 0.55, dewC: 20 },
  { id: 'G6', tempC: 50, share: 0.7, dewC: 43 },
] as const;

/** Chart A: handypdf.com “dew point calculation sample chart”, °F. Rows by RH %, columns air 50 to 90 °F. Printed charts drop the fraction. */
export const CHART_A_F: Readonly<Record<number, readonly number[]>> = {
  90: [47, 57, 67, 77, 87],
  80: [44, 54, 63, 73, 82],
  70: [40, 50, 60, 68, 78],
  65: [38, 47, 57, 66, 76],
  60: [36, 45, 55, 64, 73],
  50: [31, 40, 50, 59, 67],
  40: [26, 35, 43, 52, 61],
  30: [20, 28, 36, 44, 52],
};
export const CHART_A_COLUMNS_F = [50, 60, 70, 80, 90] as const;

/** Chart B: scribd.com/doc/39380596 “Dew Point Table”, °C. Rows by air °C, columns RH 30 to 100 %. */
export const CHART_B_C: Readonly<Record<number, readonly number[]>> = {
  10: [-7, -3, 0, 1, 4, 6, 8, 10],
  15: [-3, 1, 4, 7, 9, 11, 13, 15],
  20: [1, 5, 9, 12, 14, 16, 18, 20],
  25: [5, 10, 13, 16, 19, 21, 23, 25],
  30: [10, 14, 18, 21, 24, 26, 28, 30],
  35: [14, 18, 21, 25, 28, 31, 33, 35],
};
export const CHART_B_COLUMNS = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1] as const;
