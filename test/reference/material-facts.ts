/** Check values for materials. Source beside each; DERIVED is arithmetic from the stated inputs. */

/** EN 13813 classes, as listed at betontechnische-daten.de/node/4581, section 15.2; F cross-checked at fussbodenatlas.de/?p=1221. */
export const EN_13813_C = [5, 7, 12, 16, 20, 25, 30, 35, 40, 50, 60, 70, 80];
export const EN_13813_F = [1, 2, 3, 4, 5, 6, 7, 10, 15, 20, 30, 40, 50];

/** Exact by NIST SP 811: pound, foot, inch, gallon. */
export const LB_KG = 0.45359237;
export const FT_M = 0.3048;
export const IN_M = 0.0254;
export const CU_FT_M3 = FT_M ** 3;
export const SQ_FT_M2 = FT_M ** 2;
export const QT_L = 0.946352946;

/** DERIVED: 50 lb of powder and 5 qt of water at 2.0864 lb/qt, fresh at 125 lb/cu ft, cubic feet. */
export const MASS_BALANCE = { powderLb: 50, waterQt: 5, freshLbCuFt: 125, cubicFeet: 0.4835, within: 0.002 };
/** DERIVED: 100 sq ft at 1/4 in; bags at 0.45 cu ft and no waste. */
export const QUARTER_INCH = { sqFt: 100, cubicFeet: 2.0833, liters: 59.0, bagCuFt: 0.45, exactBags: 4.63, bags: 5 };
/** DERIVED: the area a bag of 0.5 cu ft covers, square feet. */
export const HALF_FOOT_BAG = [
  { inches: 1 / 8, sqFt: 48 },
  { inches: 1 / 4, sqFt: 24 },
];
/**
 * DERIVED: 125 lb/cu ft is 10.417 lb/sq ft per inch, 2.002 kg/m² per millimeter. Concrete: 36 psf for a 3 in slab (Gupta, structures
 * textbook).
 */
export const WEIGHT = { lbCuFt: 125, psfPerInch: 10.417, kgM2PerMm: 2.002, slabInches: 3, slabPsf: 36, concretePsfPerInch: 12 };

/** Common practice, no source: 12 bags of 50 lb over 168 sq ft at 0.42 to 0.45 cu ft per bag is about 3/8 in on average. */
export const TWELVE_BAGS = { bags: 12, sqFt: 168, leastCuFt: 0.42, mostCuFt: 0.45, meanInches: 3 / 8, minutes: 45 };
/** Common practice, no source: 250 lb of powder is five batches in 5-gallon buckets. */
export const FIVE_BATCHES = { powderLb: 250, bagLb: 50, batches: 5, bucketL: 18.93 };
