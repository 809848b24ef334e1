/**
 * F-numbers for readings taken along straight lines at 12 in. (300 mm), per ASTM E1155/E1155M. Definitions of d, q, and z as
 * printed in E1155-96(2001) 3.1.2 and 3.2; the constants, the sample deviation, and the combination of lines are from memory
 * of its section 9 and have to be confirmed before a contract relies on them. Not for fixed-path vehicle aisles (5.3).
 */
import { INCH_M } from '../measure/length-units.ts';
import type { Spot } from './heights.ts';

/** Constants of section 9, for curvatures in inches and in millimeters (E1155M prints 115.8, not the exact 116.08). */
export const F_CONSTANTS = { inch: { flat: 4.57, level: 12.5 }, metric: { flat: 115.8, level: 317.5 } } as const;
/** Minimum readings per line (E1155 3.2.8). */
export const FEWEST_ON_LINE = 12;
/** Steps in 10 ft (3 m). */
const STEPS_IN_TEN_FEET = 10;

/** Differences of neighboring elevations. */
export function differences(heights: readonly number[]): number[] {
  return heights.slice(1).map((height, i) => height - (heights[i] ?? Number.NaN));
}

/** q, the curvatures: differences of neighboring differences. */
export function curvatures(heights: readonly number[]): number[] {
  return differences(differences(heights));
}

/** z, the rise over ten steps (10 ft). */
export function rises(heights: readonly number[]): number[] {
  return heights.slice(STEPS_IN_TEN_FEET).map((height, i) => height - (heights[i] ?? Number.NaN));
}

/** An F-number with the number of values it is based on; null `f` when there are fewer than two or they do not vary. */
export type FNumber = { readonly f: number | null; readonly count: number; readonly mean: number; readonly deviation: number };

function fNumber(constant: number, values: readonly number[]): FNumber {
  const count = values.length;
  if (count < 2) return { f: null, count, mean: Number.NaN, deviation: Number.NaN };
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const deviation = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1));
  const spread = 3 * deviation + Math.abs(mean);
  return { f: spread === 0 ? null : constant / spread, count, mean, deviation };
}

/** F_F of one line, heights in the unit named. */
export function flatnessNumber(heights: readonly number[], unit: 'inch' | 'metric'): FNumber {
  return fNumber(F_CONSTANTS[unit].flat, curvatures(heights));
}

/** F_L of one line, heights in the unit named. */
export function levelnessNumber(heights: readonly number[], unit: 'inch' | 'metric'): FNumber {
  return fNumber(F_CONSTANTS[unit].level, rises(heights));
}

/** Combines the numbers of two lines: F12 = F1 F2 √((r1 + r2) / (r2 F1² + r1 F2²)). */
export function combineF(f1: number, r1: number, f2: number, r2: number): number {
  return f1 * f2 * Math.sqrt((r1 + r2) / (r2 * f1 * f1 + r1 * f2 * f2));
}

/** ACI 117-10 Table 4.8.5.1: specified overall F_F and F_L by class. */
export const ACI_117_CLASSES: readonly { readonly name: string; readonly flat: number; readonly level: number }[] = [
  { name: 'Conventional', flat: 20, level: 15 },
  { name: 'Moderately flat', flat: 25, level: 20 },
  { name: 'Flat', flat: 35, level: 25 },
  { name: 'Very flat', flat: 45, level: 35 },
  { name: 'Super flat', flat: 60, level: 40 },
];

/** A line of readings at E1155's interval: the ids in order and the heights in meters. */
export type FLine = { readonly readingIds: readonly string[]; readonly heightsM: readonly number[] };

/** All F-numbers of a floor's lines; null when no line of twelve readings at 12 in (300 mm) was taken. */
export type FNumbers = { readonly lines: readonly FLine[]; readonly flat: number | null; readonly level: number | null };

const LEAST_STEP_M = 0.295;
const MOST_STEP_M = 0.31;

/**
 * Finds straight runs of twelve or more readings, 12 in. or 300 mm apart, in the order they were taken, and calculates their
 * F-numbers. Readings along a line are consecutive in the survey; a turn or a different step ends the run.
 */
export function fNumbersOf(spots: readonly Spot[]): FNumbers | null {
  const lines: FLine[] = [];
  let run: Spot[] = [];
  const close = (): void => {
    if (run.length >= FEWEST_ON_LINE) {
      lines.push({ readingIds: run.map((spot) => spot.readings[0]?.id ?? ''), heightsM: run.map((spot) => spot.zM) });
    }
  };
  for (const spot of spots) {
    const last = run[run.length - 1];
    if (last && continues(run[run.length - 2], last, spot)) run.push(spot);
    else {
      close();
      run = last && isStep(last, spot) ? [last, spot] : [spot];
    }
  }
  close();
  if (lines.length === 0) return null;
  // Readings 12 in. apart are rated in inches, those 300 mm apart in millimeters, because each standard has its own
  // constant.
  const unit = isByTheFoot(lines, spots) ? 'inch' : 'metric';
  const perM = unit === 'inch' ? 1 / INCH_M : 1000;
  const combined = (rate: (heights: readonly number[]) => FNumber): number | null => {
    let f: number | null = null;
    let count = 0;
    for (const line of lines) {
      const rated = rate(line.heightsM.map((height) => height * perM));
      if (rated.f === null) continue;
      f = f === null ? rated.f : combineF(f, count, rated.f, rated.count);
      count += rated.count;
    }
    return f;
  };
  return {
    lines,
    flat: combined((heights) => flatnessNumber(heights, unit)),
    level: combined((heights) => levelnessNumber(heights, unit)),
  };
}

/** Whether the average step of the lines is nearer to 12 in. than to 300 mm. */
function isByTheFoot(lines: readonly FLine[], spots: readonly Spot[]): boolean {
  const onLine = new Set(lines.flatMap((line) => line.readingIds));
  let steps = 0;
  let lengthM = 0;
  spots.forEach((spot, i) => {
    const last = spots[i - 1];
    if (!last || !onLine.has(spot.readings[0]?.id ?? '') || !onLine.has(last.readings[0]?.id ?? '') || !isStep(last, spot)) return;
    steps += 1;
    lengthM += Math.hypot(spot.xM - last.xM, spot.yM - last.yM);
  });
  return lengthM / steps > (0.3 + 12 * INCH_M) / 2;
}

function isStep(a: Spot, b: Spot): boolean {
  const step = Math.hypot(b.xM - a.xM, b.yM - a.yM);
  return step >= LEAST_STEP_M && step <= MOST_STEP_M;
}

function continues(before: Spot | undefined, last: Spot, next: Spot): boolean {
  if (!isStep(last, next)) return false;
  if (!before) return true;
  const ax = last.xM - before.xM;
  const ay = last.yM - before.yM;
  const bx = next.xM - last.xM;
  const by = next.yM - last.yM;
  return ax * bx + ay * by > 0 && Math.abs(ax * by - ay * bx) < 0.1 * Math.hypot(ax, ay) * Math.hypot(bx, by);
}
