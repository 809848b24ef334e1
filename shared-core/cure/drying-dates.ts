/** When a floor is likely dry enough for its moisture test. */
import type { Milestone } from '../book/material.ts';
import { clockOver } from './clock.ts';
import type { CureInput, Dates, Histories } from './cure-input.ts';
import type { LogSummary } from './log-summary.ts';
import type { DryingHours } from './reason.ts';
import { airUsed } from './strength-dates.ts';
import { HOUR_MS, type Piece } from './temperature-history.ts';
import { saturationPressurePa, vaporPressurePa } from '../climate/vapor.ts';

/** The published screed rules are stated for 20 °C. */
const SCREED_REFERENCE_C = 20;

/** Latest date given: beyond it the air is too damp or too cold to dry the floor. */
const HORIZON_HOURS = 5 * 365.25 * 24;

/** Drying times are uncertain by a quarter even where the data sheet gives one figure. Common practice, no source. */
const MIN_SPREAD = 0.25;

/** When the drying hours are reached, ms, and never before `floorHours` by the local time; null past the horizon. */
function whenDry(pieces: readonly Piece[], input: CureInput, referenceC: number, hours: number, floorHours: number): number | null {
  const rate = (tempC: number, humidity: number): number => dryingRate(tempC, humidity, referenceC);
  const clock = clockOver(pieces, `drying ${referenceC}`, rate, input.sheet.leastCureTempC.value);
  const ms = clock.whenMs(hours);
  const placedMs = Date.parse(input.placedAt);
  if (ms === null || !(ms - placedMs <= HORIZON_HOURS * HOUR_MS)) return null;
  return Math.max(ms, placedMs + floorHours * HOUR_MS);
}

function referenceOf(deep: DryingHours, input: CureInput): number {
  return deep.from === 'published' ? SCREED_REFERENCE_C : input.sheet.referenceTempC.value;
}

/**
 * Dates of a drying milestone. Earliest: the least days for the mean depth in the warmer room; latest: the most days for
 * the deepest place in the colder one; likely: halfway for the deepest place, since that is where the test will fail.
 * @param milestones the sheet's rows for the flooring; empty falls back to the published rules
 */
export function dryingDates(milestones: readonly Milestone[], input: CureInput, all: Histories, log: LogSummary): Dates {
  const mean = dryingHours(milestones, input.depth.meanM + input.wetBelowM);
  const deep = dryingHours(milestones, input.depth.deepestM + input.wetBelowM);
  const referenceC = referenceOf(deep, input);
  const earliest = whenDry(all.warm, input, referenceC, mean.least, mean.least);
  const likely = whenDry(all.likely, input, referenceC, (deep.least + deep.most) / 2, deep.least);
  const latest = whenDry(all.cold, input, referenceC, deep.most, deep.least);
  // The sheet's least hours bound all three in a warm, dry room: the range is then kept open by its own uncertainty.
  const stepMs = earliest === null ? 0 : ((earliest - Date.parse(input.placedAt)) * MIN_SPREAD) / 2;
  const heldLikely = likely === null ? null : Math.max(likely, (earliest ?? likely) + stepMs);
  const heldLatest = latest === null ? null : Math.max(latest, (heldLikely ?? latest) + stepMs);
  const iso = (ms: number | null): string | null => (ms === null ? null : new Date(Math.ceil(ms)).toISOString());
  return {
    earliestAt: iso(earliest),
    likelyAt: iso(heldLikely),
    latestAt: iso(heldLatest),
    reason: {
      kind: 'drying',
      hours: deep,
      referenceC,
      referenceHumidity: REFERENCE_HUMIDITY,
      depth: input.depth,
      wetBelowM: input.wetBelowM,
      assumedHumidity: input.assumedHumidity,
      air: airUsed(input, log),
    },
  };
}

/** Relative humidity the sheet's days are taken to stand for. Typical; screed rules are stated for 50 to 65 %. */
const REFERENCE_HUMIDITY = 0.5;

/**
 * Drying potential in pascals: saturation pressure at the surface less the air's vapor pressure; zero where the air would wet the floor.
 * @param surfaceC null takes the surface to be as warm as the air
 */
function dryingPotentialPa(airC: number, humidity: number, surfaceC: number | null = null): number {
  return Math.max(0, saturationPressurePa(surfaceC ?? airC) - vaporPressurePa(airC, humidity));
}

/** Reference drying hours per hour in this air. Common practice: rate in proportion to potential. */
export function dryingRate(airC: number, humidity: number, referenceC: number): number {
  return dryingPotentialPa(airC, humidity) / dryingPotentialPa(referenceC, REFERENCE_HUMIDITY);
}

/** A published rule of thumb for the days a screed dries. */
type ScreedRule = {
  /** Millimeters that dry at 1 mm per day. */
  readonly quickMm: number;
  /** Days for each millimeter above; null when the rule only says "longer". */
  readonly daysAMmAbove: number | null;
};

/** Published rules of thumb for cement screed at about 20 °C and 50 to 65 % humidity. They agree to 40 mm and part above. */
export const SCREED_RULES: readonly ScreedRule[] = [
  // BS 8203 and BS 8204-1; the clause is from memory.
  { quickMm: 50, daysAMmAbove: null },
  // allaboutscreeds.com, how long should you wait for screed to dry.
  { quickMm: 50, daysAMmAbove: 2 },
  // screedscientist.com, what affects screed drying time (20 °C, 50 % humidity).
  { quickMm: 40, daysAMmAbove: 2 },
];

/** Days by one rule; null where the rule gives no number. */
export function screedDays(rule: ScreedRule, thicknessM: number): number | null {
  const mm = thicknessM * 1000;
  if (mm <= rule.quickMm) return mm;
  return rule.daysAMmAbove === null ? null : rule.quickMm + (mm - rule.quickMm) * rule.daysAMmAbove;
}

/** Least and most days over the published rules that give a number; where they disagree, that is the range. */
export function publishedScreedDays(thicknessM: number): { readonly least: number; readonly most: number } {
  const days = SCREED_RULES.map((rule) => screedDays(rule, thicknessM)).filter((d) => d !== null);
  return { least: Math.min(...days), most: Math.max(...days) };
}

const HOURS_A_DAY = 24;

function published(thicknessM: number): DryingHours {
  const { least, most } = publishedScreedDays(thicknessM);
  return { least: least * HOURS_A_DAY, most: most * HOURS_A_DAY, from: 'published' };
}

type Row = { readonly thicknessM: number; readonly least: number; readonly most: number };

/** How much longer a rule takes for one thickness than for another. */
function growth(toM: number, fromM: number): { least: number; most: number } {
  const ratios = SCREED_RULES.flatMap((rule) => {
    const [to, from] = [screedDays(rule, toM), screedDays(rule, fromM)];
    return to === null || from === null || from === 0 ? [] : [to / from];
  });
  return { least: Math.min(...ratios), most: Math.max(...ratios) };
}

/**
 * Hours until a thickness is dry at the reference climate. Between the sheet's thicknesses a straight line; under its
 * thinnest the thinnest's hours; over its thickest the hours grow as the published screed rules do.
 * @param milestones the sheet's drying milestones for one flooring; none leaves the published rules
 */
export function dryingHours(milestones: readonly Milestone[], thicknessM: number): DryingHours {
  const steady = milestones.find((m) => m.thicknessM === null);
  const rows: Row[] = milestones
    .flatMap((m) => (m.thicknessM === null ? [] : [{ thicknessM: m.thicknessM, least: m.hoursLeast, most: m.hoursMost }]))
    .sort((a, b) => a.thicknessM - b.thicknessM);
  const first = rows[0];
  const last = rows.at(-1);
  if (first === undefined || last === undefined) {
    return steady === undefined ? published(thicknessM) : { least: steady.hoursLeast, most: steady.hoursMost, from: 'sheet' };
  }
  if (thicknessM <= first.thicknessM) return { least: first.least, most: first.most, from: 'sheet' };
  if (thicknessM > last.thicknessM) {
    const grows = growth(thicknessM, last.thicknessM);
    return { least: last.least * grows.least, most: last.most * grows.most, from: 'beyond-sheet' };
  }
  const next = rows.findIndex((r) => r.thicknessM >= thicknessM);
  const b = rows[next] ?? last;
  const a = rows[next - 1] ?? first;
  const share = b.thicknessM === a.thicknessM ? 1 : (thicknessM - a.thicknessM) / (b.thicknessM - a.thicknessM);
  return { least: a.least + (b.least - a.least) * share, most: a.most + (b.most - a.most) * share, from: 'sheet' };
}
