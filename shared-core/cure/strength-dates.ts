/** When a floor is strong enough: the data sheet's hours at its reference temperature, adjusted to the room's temperatures. */
import type { Milestone } from '../book/material.ts';
import { clockOver } from './clock.ts';
import type { CureInput, Dates, Histories } from './cure-input.ts';
import type { LogSummary } from './log-summary.ts';
import type { AirUsed } from './reason.ts';
import type { Piece } from './temperature-history.ts';

/** The air that a date of this input is computed from. */
export function airUsed(input: CureInput, { leastC, mostC, readings, hoursStoodStill }: LogSummary): AirUsed {
  const { assumedTempC, assumedSpreadC, sheet } = input;
  return { leastC, mostC, readings, hoursStoodStill, assumedTempC, assumedSpreadC, leastCureTempC: sheet.leastCureTempC.value };
}

/** A hundred years in milliseconds: past this no date is given. */
const HORIZON_MS = 3.15e12;

const iso = (ms: number | null, placedMs: number): string | null =>
  ms === null || !(ms - placedMs < HORIZON_MS) ? null : new Date(Math.ceil(ms)).toISOString();

function whenAged(pieces: readonly Piece[], input: CureInput, qK: number, hours: number): number | null {
  const referenceC = input.sheet.referenceTempC.value;
  const rate = (tempC: number): number => ageFactor(tempC, referenceC, qK);
  return clockOver(pieces, `age ${qK} ${referenceC}`, rate, input.sheet.leastCureTempC.value).whenMs(hours);
}

/** The latest instant; null (never) is later than all. */
export function latestOf(times: readonly (number | null)[]): number | null {
  return times.reduce<number | null>((a, b) => (a === null || b === null ? null : Math.max(a, b)), -Infinity);
}

/** The earliest of some instants; null (never) only when all are. */
export function earliestOf(times: readonly (number | null)[]): number | null {
  const known = times.filter((t) => t !== null);
  return known.length === 0 ? null : Math.min(...known);
}

/**
 * Dates of a strength milestone. Earliest: the sheet's least hours in the warmer room, at whichever activation energy is
 * quickest; latest: its most hours in the colder one at the slowest; likely: halfway between the hours, as assumed.
 * Source: equivalent age of ASTM C1074.
 */
export function strengthDates(milestone: Milestone, input: CureInput, all: Histories, log: LogSummary): Dates {
  const { hoursLeast, hoursMost, source } = milestone;
  const placedMs = Date.parse(input.placedAt);
  const energies = [Q_K.least, Q_K.likely, Q_K.most];
  const likely = whenAged(all.likely, input, Q_K.likely, (hoursLeast + hoursMost) / 2);
  const earliest = earliestOf(energies.map((q) => whenAged(all.warm, input, q, hoursLeast)));
  const latest = latestOf(energies.map((q) => whenAged(all.cold, input, q, hoursMost)));
  return {
    earliestAt: iso(earliest, placedMs),
    likelyAt: iso(likely, placedMs),
    latestAt: iso(latest, placedMs),
    reason: {
      kind: 'strength',
      hoursLeast,
      hoursMost,
      source,
      referenceC: input.sheet.referenceTempC.value,
      qK: { least: Q_K.least, most: Q_K.most },
      air: airUsed(input, log),
    },
  };
}

/**
 * Activation energy over the gas constant, kelvin. 5000 K is the default of ASTM C1074 for ordinary cement (value from
 * memory); 4000 K is the constant of EN 1992-1-1 (B.10); 6000 K mirrors it on the other side. The three give the range.
 */
const Q_K = { least: 4000, likely: 5000, most: 6000 } as const;

/** Celsius to kelvin as ASTM C1074 and EN 1992-1-1 print it; 273.15 would move an age by less than 0.01 %. */
const ZERO_C_IN_K = 273;

/**
 * Hours at the reference temperature that one hour at `tempC` is worth: exp(-Q (1/Ta - 1/Ts)), kelvin.
 * Source: ASTM C1074, equivalent age (Arrhenius form).
 * @param tempC the material's temperature
 * @param referenceC the temperature the data sheet's hours stand for
 * @param qK activation energy over the gas constant
 */
export function ageFactor(tempC: number, referenceC: number, qK: number): number {
  return Math.exp(-qK * (1 / (tempC + ZERO_C_IN_K) - 1 / (referenceC + ZERO_C_IN_K)));
}
