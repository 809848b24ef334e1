/** When a floor is likely to be dry enough to test for its covering. */
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

/** When the drying hours are reached, and never before `floorHours` by the wall's clock. */
function whenDry(pieces: readonly Piece[], input: CureInput, referenceC: number, hours: number, floorHours: number): string | null {
  const rate = (tempC: number, humidity: number): number => dryingRate(tempC, humidity, referenceC);
  const clock = clockOver(pieces, `drying ${referenceC}`, rate, input.sheet.leastCureTempC.value);
  const ms = clock.whenMs(hours);
  if (ms === null) return null;
  return new Date(Math.ceil(Math.max(ms, Date.parse(input.placedAt) + floorHours * HOUR_MS))).toISOString();
}

const FROM_WORDS: Readonly<Record<DryingHours['from'], string>> = {
  sheet: 'The sheet’s days for the depth',
  'beyond-sheet': 'The sheet’s thickest row, lengthened by the published screed rules',
  published: 'The sheet gives no days: the published rules for cement screed',
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
      { name: 'Depth', value: `${depth(input.depth.meanM)} on the mean, ${depth(input.depth.deepestM)} at the deepest` },
      ...(input.wetBelowM > 0 ? [{ name: 'New lifts underneath', value: depth(input.wetBelowM) }] : []),
      {
        name: FROM_WORDS[deep.from],
        value: `${hoursWords(deep.least, deep.most, input.locale)} for the deepest, at ${t(referenceC)} and ${formatPercent(REFERENCE_HUMIDITY, 0, input.locale)} humidity`,
      },
      ...airWentIn(input, log),
      { name: 'Humidity assumed', value: humidity },
    ],
    formula:
      'Each hour counts by how much drier the room’s air is than the wet floor (vapor pressure at the surface less that of the air), against the reference air; the date is when the counted hours reach the days for the depth, and never sooner than the least of them.',
    source: `${deep.source}; drying in proportion to vapor pressure is common practice`,
    range:
      'From the least days for the mean depth in a warmer room to the most days for the deepest place in a colder one. A test decides, not the date.',
  };
}

/**
 * Dates of a drying milestone. Earliest: the least days for the mean depth in the warmer room; latest: the most days for
 * the deepest place in the colder one; likely: halfway for the deepest place, since that is where the test will fail.
 * @param milestones the sheet's rows for the covering; empty falls back to the published rules
 */
export function dryingDates(milestones: readonly Milestone[], input: CureInput, all: Histories, log: LogSummary): Dates {
  const mean = dryingHours(milestones, input.depth.meanM + input.wetBelowM);
  const deep = dryingHours(milestones, input.depth.deepestM + input.wetBelowM);
  const referenceC = referenceOf(deep, input);
  return {
    earliestAt: whenDry(all.warm, input, referenceC, mean.least, mean.least),
    likelyAt: whenDry(all.likely, input, referenceC, (deep.least + deep.most) / 2, deep.least),
    latestAt: whenDry(all.cold, input, referenceC, deep.most, deep.least),
    get reason() {
      return dryingReason(deep, input, log);
    },
  };
}
