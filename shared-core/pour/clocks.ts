/** The two clocks of wet self-leveling underlayment, healing time and working time, at the temperature of the pour. */
import type { PowderSheet } from '../book/material.ts';
import { TYPICAL_POWDER } from '../material/typical-figures.ts';
import { isTypicalFigure } from '../substrate/whose-figure.ts';
import type { LogEntry } from './log-time.ts';

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
  /** Whether that range is typical and not from the data sheet. */
  readonly roomTypical: boolean;
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
    healingTypical: isTypicalFigure(healing),
    workingTimeTypical: isTypicalFigure(flow),
    outside: room === null ? null : tempC < room.least ? 'colder' : tempC > room.most ? 'warmer' : null,
    roomTypical: isTypicalFigure(sheet?.roomTempC),
  };
}

/** How long an edge and a mixed batch may wait, minutes. */
export type PourLimits = Pick<PourClocks, 'healingMin' | 'workingTimeMin'>;
/** The limits of a product at a temperature, C; null takes the temperature the pour was planned for. */
export type LimitsAt = (tempC: number | null) => PourLimits;
/** The limits of what waited between two minutes of a log. */
export type LimitsOver = (fromMin: number, toMin: number) => PourLimits;

/** Temperatures that a pour logged, surface before air, C, by their minute. */
export function tempsRead(live: readonly LogEntry[]): { readonly min: number; readonly tempC: number }[] {
  return live
    .flatMap(({ event, min }) => {
      const tempC = event.kind === 'reading' ? (event.surfaceTempC ?? event.airTempC) : null;
      return tempC === null ? [] : [{ min, tempC }];
    })
    .sort((a, b) => a.min - b.min);
}

/**
 * The limits in force while something waited: the shortest, by the last temperature read before it and by those read until its end. A later
 * reading changes nothing.
 * @param live valid entries of the pour
 */
export function limitsOver(live: readonly LogEntry[], limitsAt: LimitsAt): LimitsOver {
  const read = tempsRead(live).map(({ min, tempC }) => ({ min, limits: limitsAt(tempC) }));
  const planned = limitsAt(null);
  return (fromMin, toMin) => {
    const before = read.findLast(({ min }) => min <= fromMin)?.limits ?? planned;
    const within = read.flatMap(({ min, limits }) => (min > fromMin && min <= toMin ? [limits] : []));
    return {
      healingMin: Math.min(...[before, ...within].map((limits) => limits.healingMin)),
      workingTimeMin: Math.min(...[before, ...within].map((limits) => limits.workingTimeMin)),
    };
  };
}
