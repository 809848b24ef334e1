/** When a floor is strong enough: the data sheet's hours at its reference temperature, adjusted to the room's temperatures. */
import type { Milestone } from '../book/material.ts';
import { formatNumber } from '../measure/number.ts';
import { formatTemperature, formatTemperatureDifference } from '../measure/temperature.ts';
import { clockOver } from './clock.ts';
import type { CureInput, Dates, Histories } from './cure-input.ts';
import type { LogSummary } from './log-summary.ts';
import type { Reason } from './reason.ts';
import type { Piece } from './temperature-history.ts';

const SOURCE_WORDS = { bag: 'from the bag', typical: 'typical (not from the data sheet)', measured: 'measured' } as const;

/** Hours as text: `4 to 6 hours`, `21 days`. */
export function hoursWords(least: number, most: number, locale: string): string {
  const days = least >= 72;
  const durationText = (h: number) => formatNumber(days ? h / 24 : h, { most: days ? 0 : 1 }, locale);
  const [a, b] = [durationText(least), durationText(most)];
  if (a === b) return days ? `${a} ${a === '1' ? 'day' : 'days'}` : `${a} ${a === '1' ? 'hour' : 'hours'}`;
  return days ? `${a} to ${b} days` : `${a} to ${b} hours`;
}

/** Measured and assumed air of the room, for the reasons of strength and drying. */
export function airWentIn(input: CureInput, log: LogSummary): Reason['wentIn'] {
  const t = (c: number) => formatTemperature(c, input.units, input.locale);
  const spread = formatTemperatureDifference(input.assumedSpreadC, input.units, input.locale);
  const hoursPaused = log.hoursStoodStill;
  return [
    ...(log.leastC === null || log.mostC === null
      ? [{ name: 'Measured in the room', value: 'no readings yet' }]
      : [
          {
            name: 'Measured in the room',
            value: `${t(log.leastC)} to ${t(log.mostC)}, ${formatNumber(log.readings, { most: 0 }, input.locale)} readings`,
          },
        ]),
    { name: 'Assumed where not measured', value: `${t(input.assumedTempC)} ± ${spread}` },
    ...(hoursPaused > 0
      ? [
          {
            name: `Curing paused below ${t(input.sheet.leastCureTempC.value)}`,
            value: `${formatNumber(hoursPaused, { most: 1 }, input.locale)} hours`,
          },
        ]
      : []),
  ];
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

function strengthReason(milestone: Milestone, input: CureInput, log: LogSummary): Reason {
  const { hoursLeast, hoursMost } = milestone;
  const reference = formatTemperature(input.sheet.referenceTempC.value, input.units, input.locale);
  const hours = hoursWords(hoursLeast, hoursMost, input.locale);
  return {
    wentIn: [{ name: 'Data sheet', value: `${hours} at ${reference}, ${SOURCE_WORDS[milestone.source]}` }, ...airWentIn(input, log)],
    formula: `An hour counts for more when the room is warmer than ${reference} and for less when it is colder (equivalent age, exp(−Q (1/T − 1/Ts))). The date is when the adjusted hours reach those of the data sheet. Below the minimum temperature, hours do not count.`,
    // 5000 K for C1074 is from memory.
    source: 'ASTM C1074, Arrhenius form; EN 1992-1-1 (B.10)',
    range: `Data sheet hours, Q from ${formatNumber(Q_K.least, { most: 0 }, input.locale)} to ${formatNumber(Q_K.most, { most: 0 }, input.locale)} K, and the assumed temperature ± ${formatTemperatureDifference(input.assumedSpreadC, input.units, input.locale)}.`,
  };
}

/**
 * Dates of a strength milestone. Earliest: the sheet's least hours in the warmer room, at whichever activation energy is
 * quickest; latest: its most hours in the colder one at the slowest; likely: halfway between the hours, as assumed.
 * Source: equivalent age of ASTM C1074.
 */
export function strengthDates(milestone: Milestone, input: CureInput, all: Histories, log: LogSummary): Dates {
  const { hoursLeast, hoursMost } = milestone;
  const placedMs = Date.parse(input.placedAt);
  const energies = [Q_K.least, Q_K.likely, Q_K.most];
  const likely = whenAged(all.likely, input, Q_K.likely, (hoursLeast + hoursMost) / 2);
  const earliest = earliestOf(energies.map((q) => whenAged(all.warm, input, q, hoursLeast)));
  const latest = latestOf(energies.map((q) => whenAged(all.cold, input, q, hoursMost)));
  return {
    earliestAt: iso(earliest, placedMs),
    likelyAt: iso(likely, placedMs),
    latestAt: iso(latest, placedMs),
    get reason() {
      return strengthReason(milestone, input, log);
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
