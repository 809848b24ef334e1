/** When a floor is likely dry enough for its moisture test. */
import type { Milestone } from '../book/material.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { clockOver } from './clock.ts';
import type { CureInput, Dates, Histories } from './cure-input.ts';
import { dryingRate, REFERENCE_HUMIDITY } from './drying-potential.ts';
import { type DryingHours, dryingHours } from './drying-rules.ts';
import type { LogSummary } from './log-summary.ts';
import type { Reason } from './reason.ts';
import { airWentIn, hoursWords } from './strength-dates.ts';
import { HOUR_MS, type Piece } from './temperature-history.ts';

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

const FROM_WORDS: Readonly<Record<DryingHours['from'], string>> = {
  sheet: 'Days for this depth, from the data sheet',
  'beyond-sheet': 'Days for the thickest row of the data sheet, extended by the published screed rules',
  published: 'Days by a typical rule for cement screed (not from the data sheet)',
};

function referenceOf(deep: DryingHours, input: CureInput): number {
  return deep.from === 'published' ? SCREED_REFERENCE_C : input.sheet.referenceTempC.value;
}

function dryingReason(deep: DryingHours, input: CureInput, log: LogSummary): Reason {
  const referenceC = referenceOf(deep, input);
  const depth = (m: number) => formatDepth(m, input.units, input.locale);
  const t = (c: number) => formatTemperature(c, input.units, input.locale);
  const humidity = formatPercent(input.assumedHumidity, 0, input.locale);
  return {
    wentIn: [
      { name: 'Depth', value: `${depth(input.depth.meanM)} on average, ${depth(input.depth.deepestM)} at the deepest point` },
      ...(input.wetBelowM > 0 ? [{ name: 'New lifts below', value: depth(input.wetBelowM) }] : []),
      {
        name: FROM_WORDS[deep.from],
        value: `${hoursWords(deep.least, deep.most, input.locale)} for the deepest point, at ${t(referenceC)} and ${formatPercent(REFERENCE_HUMIDITY, 0, input.locale)} humidity`,
      },
      ...airWentIn(input, log),
      { name: 'Assumed humidity', value: humidity },
    ],
    formula:
      'Drying follows the difference in vapor pressure between the wet floor and the air, compared with the reference air. The date is when the adjusted hours reach the days for this depth, and no earlier than their minimum.',
    source: `${deep.source}; drying in proportion to vapor pressure is common practice`,
    range:
      'From the minimum days at the average depth in a warmer room to the maximum days at the deepest point in a colder room. The moisture test decides, not the date.',
  };
}

/**
 * Dates of a drying milestone. Earliest: the least days for the mean depth in the warmer room; latest: the most days for
 * the deepest place in the colder one; likely: halfway for the deepest place, since that is where the test will fail.
 * @param milestones the sheet's rows for the flooring; empty falls back to the published rules
 * @param testHours the clearance test takes so long on the new floor: no date is sooner
 */
export function dryingDates(milestones: readonly Milestone[], input: CureInput, all: Histories, log: LogSummary, testHours: number): Dates {
  const mean = dryingHours(milestones, input.depth.meanM + input.wetBelowM);
  const deep = dryingHours(milestones, input.depth.deepestM + input.wetBelowM);
  const referenceC = referenceOf(deep, input);
  const earliest = whenDry(all.warm, input, referenceC, mean.least, Math.max(mean.least, testHours));
  const likely = whenDry(all.likely, input, referenceC, (deep.least + deep.most) / 2, Math.max(deep.least, testHours));
  const latest = whenDry(all.cold, input, referenceC, deep.most, Math.max(deep.least, testHours));
  // The sheet's least hours bound all three in a warm, dry room: the range is then kept open by its own uncertainty.
  const stepMs = earliest === null ? 0 : ((earliest - Date.parse(input.placedAt)) * MIN_SPREAD) / 2;
  const heldLikely = likely === null ? null : Math.max(likely, (earliest ?? likely) + stepMs);
  const heldLatest = latest === null ? null : Math.max(latest, (heldLikely ?? latest) + stepMs);
  const iso = (ms: number | null): string | null => (ms === null ? null : new Date(Math.ceil(ms)).toISOString());
  return {
    earliestAt: iso(earliest),
    likelyAt: iso(heldLikely),
    latestAt: iso(heldLatest),
    get reason() {
      return dryingReason(deep, input, log);
    },
  };
}
