/** The two clocks of wet self-leveling underlayment, healing time and working time, at the temperature of the pour. */
import type { PowderSheet } from '../book/material.ts';
import { TYPICAL_POWDER } from '../material/typical-figures.ts';

/** Typical minimum working time at 70 F, used until a data sheet gives one: common practice, no source. */
export const TYPICAL_FLOW_LIFE_MIN = TYPICAL_POWDER.workingTimeMin.least;
/** Typical minimum healing time at 70 F: common practice, no source. */
export const TYPICAL_HEALING_MIN = TYPICAL_POWDER.healingMin.least;
/** The temperature that typical times refer to: 70 F. */
export const TYPICAL_REFERENCE_C = 21.1;
/**
 * Typical. Setting follows the Arrhenius form of ASTM C1074 with Q = E/R of 5000 K (4000 to 6000 K as its range; the figure
 * is from memory of C1074). It agrees with the rule that setting time halves for 20 F more (National Frame Building
 * Association, 2020) and with the published setting times of ordinary concrete at 50 to 90 F.
 */
export const TYPICAL_Q_K = 5000;
const KELVIN = 273.15;

export type PourClocks = {
  /** The minimum of the data sheet's range, used for warnings during a pour. */
  readonly healingMin: number;
  readonly workingTimeMin: number;
  /** The maximum of the range; a simulation draws between the two. */
  readonly healingMostMin: number;
  readonly workingTimeMostMin: number;
  readonly tempC: number;
  /** Which figures are typical values and not from the data sheet. */
  readonly healingTypical: boolean;
  readonly workingTimeTypical: boolean;
  /** Which side of the data sheet's range for pouring the temperature is on; null inside it. */
  readonly outside: 'colder' | 'warmer' | null;
};

/**
 * Factor by which a time is longer at a temperature than at the reference, both C. Ratio of rates by the Arrhenius form
 * of ASTM C1074 (equation 2).
 */
export function clockFactor(tempC: number, referenceTempC: number, qK: number = TYPICAL_Q_K): number {
  return Math.exp(qK * (1 / (tempC + KELVIN) - 1 / (referenceTempC + KELVIN)));
}

/** Healing time and working time at a temperature, from the data sheet or, when `sheet` is null, from the typical figures. */
export function clocksAt(
  sheet: Pick<PowderSheet, 'workingTimeMin' | 'healingMin' | 'referenceTempC' | 'roomTempC'> | null,
  tempC: number,
): PourClocks {
  const referenceTempC = sheet?.referenceTempC.value ?? TYPICAL_REFERENCE_C;
  const factor = clockFactor(tempC, referenceTempC);
  const typicalFactor = clockFactor(tempC, TYPICAL_REFERENCE_C);
  const healing = sheet?.healingMin ?? null;
  const flow = sheet?.workingTimeMin ?? null;
  const room = sheet?.roomTempC.value ?? null;
  return {
    healingMin: healing ? healing.value.least * factor : TYPICAL_HEALING_MIN * typicalFactor,
    workingTimeMin: flow ? flow.value.least * factor : TYPICAL_FLOW_LIFE_MIN * typicalFactor,
    healingMostMin: healing ? healing.value.most * factor : TYPICAL_POWDER.healingMin.most * typicalFactor,
    workingTimeMostMin: flow ? flow.value.most * factor : TYPICAL_POWDER.workingTimeMin.most * typicalFactor,
    tempC,
    healingTypical: !healing || healing.source === 'typical',
    workingTimeTypical: !flow || flow.source === 'typical',
    outside: room === null ? null : tempC < room.least ? 'colder' : tempC > room.most ? 'warmer' : null,
  };
}
