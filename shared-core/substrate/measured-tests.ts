/** The arithmetic of the measured tests: slab humidity, calcium chloride, water drop, wood moisture, surface strength and pH. */
import type { TestOf } from '../book/tests-of.ts';
import type { Parsed } from '../measure/parsed.ts';
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { POUND_KG } from '../measure/mass.ts';
import type { MaterialKind, PowderSheet } from '../book/material.ts';
import { PSI_PA } from '../measure/pressure.ts';

/** Probe depth as a share of the slab's thickness, by the number of drying sides. ASTM F2170 clause 10, second-hand. */
export const PROBE_DEPTH_SHARE = { 1: 0.4, 2: 0.2 } as const;
/** Hours between sealing the hole and reading it. ASTM F2170, second-hand; older editions require 72. */
export const SETTLED_HOURS = 24;
/** Tolerance of the probe depth: 5 mm or a tenth of the depth, whichever is larger. Common practice, no source. */
export const DEPTH_SLACK = { leastM: 0.005, share: 0.1 } as const;

/** Depth of the probe below the surface, meters. */
export function probeDepthM(slabThicknessM: number, dryingSides: 1 | 2): number {
  return slabThicknessM * PROBE_DEPTH_SHARE[dryingSides];
}

/**
 * Why a humidity reading does not count, as a sentence; null when it does.
 * @param reading depths in meters
 * @param depthText formats a depth
 */
export function whyHumidityDoesNotCount(
  reading: Pick<TestOf<'slab-humidity'>, 'depthM' | 'slabThicknessM' | 'dryingSides' | 'settledHours'>,
  depthText: (depthM: number) => string,
): string | null {
  if (reading.slabThicknessM === null) return 'Enter the slab thickness. The probe depth depends on it.';
  const wantedM = probeDepthM(reading.slabThicknessM, reading.dryingSides);
  const slackM = Math.max(DEPTH_SLACK.leastM, DEPTH_SLACK.share * wantedM);
  if (Math.abs(reading.depthM - wantedM) > slackM + 1e-9) {
    return `The probe was at ${depthText(reading.depthM)}. This slab is measured at ${depthText(wantedM)}.`;
  }
  if (reading.settledHours < SETTLED_HOURS) {
    return `Equilibrated for ${reading.settledHours} h. ASTM F2170 needs ${SETTLED_HOURS} h.`;
  }
  return null;
}

/** Hours of exposure. ASTM F1869, as given in EPA's moisture guide. */
export const DISH_HOURS = { least: 60, most: 72 } as const;

/**
 * Moisture emission, pounds per 1,000 sq ft in 24 h, the unit of ASTM F1869 clause 1.4.
 *
 * The area is the floor under the dome less the area of the dish. Formula: 24 h × 1000 ft² × mass
 * gained ÷ (net area × hours), the same as 52.91 M / (A T) with grams, square feet and hours.
 * @param dish masses in grams, areas in m², hours exposed
 * @returns the emission, or a message when the figures are impossible
 */
export function emissionLb(
  dish: Pick<TestOf<'moisture-dish'>, 'massBeforeG' | 'massAfterG' | 'dishAreaM2' | 'domeAreaM2' | 'hours'>,
): Parsed<number> {
  const gainG = dish.massAfterG - dish.massBeforeG;
  if (gainG < 0) return { ok: false, message: 'The dish lost mass, which is not possible. Check the two weights.' };
  const netM2 = dish.domeAreaM2 - dish.dishAreaM2;
  if (!(netM2 > 0)) return { ok: false, message: 'The dish is as large as its dome. Check the two areas.' };
  if (!(dish.hours > 0)) return { ok: false, message: 'Enter the hours of exposure.' };
  return { ok: true, value: (24 * 1000 * (gainG / (POUND_KG * 1000))) / ((netM2 / SQUARE_FOOT_M2) * dish.hours) };
}

/** The same emission in SI, g/m² in 24 h, from pounds per 1,000 sq ft in 24 h. */
export function emissionGM2Day(lb: number): number {
  return (lb * (POUND_KG * 1000)) / (1000 * SQUARE_FOOT_M2);
}

/** A drop absorbed sooner than this means a porous floor. ASTM F3191, second-hand. */
export const POROUS_UNDER_SECONDS = 60;

export type Absorption = 'porous' | 'non-porous';

/** One drop: absorbed within a minute is porous, still visible at a minute is not. Null when it was watched for less than a minute. */
export function absorptionOf(drop: Pick<TestOf<'drop-absorption'>, 'seconds' | 'watchedSeconds'>): Absorption | null {
  if (drop.seconds !== null) return drop.seconds < POROUS_UNDER_SECONDS ? 'porous' : 'non-porous';
  return drop.watchedSeconds >= POROUS_UNDER_SECONDS ? 'non-porous' : null;
}

/** Several drops: one that is not absorbed makes the substrate non-porous for the primer. Null without a result. */
export function absorptionOfAll(drops: readonly Pick<TestOf<'drop-absorption'>, 'seconds' | 'watchedSeconds'>[]): Absorption | null {
  const results = drops.map(absorptionOf).filter((answer) => answer !== null);
  if (results.length === 0) return null;
  return results.includes('non-porous') ? 'non-porous' : 'porous';
}

/** Maximum moisture content of a wood subfloor. NWFA installation guidelines, as quoted in a trade guide. */
export const WOOD_MOST_SHARE = 0.12;
/** Joists over a crawl space usually read 13 to 16%: a reading over this is a warning. Common practice, no source. */
export const JOIST_WARN_SHARE = 0.16;
/** Above this, framing lumber is no longer "dry" (S-DRY grade mark, 19%). From memory of the grading rules. */
export const JOIST_HOLD_SHARE = 0.19;
/** Maximum difference between subfloor and planks, boards of 3 in. and wider. NWFA installation guidelines, second-hand. */
export const PLANK_DIFFERENCE_MOST = 0.02;
/** Maximum by which a subfloor reading may exceed the subfloor's average. Trade tip sheet, second-hand: 4% over the area's average. */
export const WOOD_OVER_AVERAGE_MOST = 0.04;

/** Average moisture; null without readings. */
export function meanMoisture(readings: readonly number[]): number | null {
  if (readings.length === 0) return null;
  return readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
}

/** Difference between the averages of two parts, as a share; null when either has no reading. */
export function moistureDifference(first: readonly number[], second: readonly number[]): number | null {
  const a = meanMoisture(first);
  const b = meanMoisture(second);
  if (a === null || b === null) return null;
  // Meter readings have at most four decimals; rounding makes 11 % minus 8 % exactly 3 %.
  return Math.round(Math.abs(a - b) * 1e6) / 1e6;
}

/** Difference between the wettest reading and the average, as a share; null without readings. */
export function unevenBy(readings: readonly number[]): number | null {
  const mean = meanMoisture(readings);
  return mean === null ? null : Math.round((Math.max(...readings) - mean) * 1e6) / 1e6;
}

/** Minimum tensile bond of the substrate under flooring underlayment: 100 psi. Typical on data sheets, common practice. */
const PULL_OFF_UNDERLAYMENT_PA = 100 * PSI_PA;
/** Minimum tensile bond under a wear topping or a moisture mitigation system: 200 psi. ASTM F3010, second-hand from a lab's page. */
const PULL_OFF_TOPPING_PA = 200 * PSI_PA;
/** pH outside this can affect flooring adhesives. ASTM F710, second-hand; many manufacturers give 9 as the maximum. */
export const PH_WITHIN = { least: 7, most: 10 } as const;

/** Minimum tensile bond of a substrate, pascals: the data sheet's figure, or else by what is placed on it. */
export function pullOffLeastPa(
  product: { readonly kind: MaterialKind; readonly powder: Pick<PowderSheet, 'pullOffLeastPa'> } | null,
  hasMoistureSystem: boolean,
): number {
  const ownPa = product?.powder.pullOffLeastPa?.value ?? 0;
  const typicalPa = hasMoistureSystem || product?.kind === 'cement-topping' ? PULL_OFF_TOPPING_PA : PULL_OFF_UNDERLAYMENT_PA;
  if (ownPa === 0) return typicalPa;
  return hasMoistureSystem ? Math.max(ownPa, PULL_OFF_TOPPING_PA) : ownPa;
}

/** Whether a surface's pH is within the limits, inclusive. */
export function isPhWithin(ph: number): boolean {
  return ph >= PH_WITHIN.least && ph <= PH_WITHIN.most;
}

/** Result of a pull-off test: strong enough, weak, or none when the adhesive failed before the required strength. */
export function pullOffAnswer(pull: Pick<TestOf<'pull-off'>, 'stressPa' | 'failedIn'>, leastPa: number): 'strong' | 'weak' | 'not-proved' {
  if (pull.stressPa >= leastPa - 1e-6) return 'strong';
  return pull.failedIn === 'glue' ? 'not-proved' : 'weak';
}
