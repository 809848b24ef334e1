/** Invented floors: outlines, and readings from a formula. Each test names what it is checked against. */
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import type { Plan, Survey } from '../../../shared-core/book/plan-fields.ts';

export type XY = readonly [number, number];

/** A repeatable stream of numbers from 0 to 1 (mulberry32). */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function planOf(outline: readonly XY[], holes: readonly (readonly XY[])[] = []): Plan {
  return {
    outline: outline.map(([xM, yM]) => ({ xM, yM })),
    holes: holes.map((corners, i) => ({ id: `hole${i}`, kind: 'column', name: '', corners: corners.map(([xM, yM]) => ({ xM, yM })) })),
    openings: [],
    placedAt: { xM: 0, yM: 0, turnDeg: 0 },
    diagonals: [],
  };
}

export function surveyOf(points: readonly (readonly [number, number, number])[], method: Survey['method'] = 'height'): Survey {
  return {
    method,
    takenAt: null,
    readings: points.map(([xM, yM, valueM], i) => ({ id: `read${i}`, xM, yM, valueM, note: null, confirmed: false })),
    readingErrorM: 0.0015,
  };
}

export function gridReadings(
  width: number,
  depth: number,
  columns: number,
  rows: number,
  height: (x: number, y: number) => number,
): [number, number, number][] {
  const points: [number, number, number][] = [];
  for (let j = 0; j <= rows; j += 1) {
    for (let i = 0; i <= columns; i += 1) {
      const x = (width * i) / columns;
      const y = (depth * j) / rows;
      points.push([x, y, height(x, y)]);
    }
  }
  return points;
}

export const rectangle = (width: number, depth: number): XY[] => [
  [0, 0],
  [width, 0],
  [width, depth],
  [0, depth],
];

export function levelChoice(change: Partial<LevelChoice> = {}): LevelChoice {
  return {
    mode: 'level',
    levelM: null,
    leastThicknessM: 0.003,
    followThicknessM: 0.006,
    textureM: 0.001,
    grindMostM: 0,
    rampThrough: [],
    ...change,
  };
}

/** A saw-edged outline with this number of corners, about width by depth. */
export function manyCorners(corners: number, width: number, depth: number): XY[] {
  const teeth = Math.max(2, Math.floor((corners - 4) / 4));
  const outline: XY[] = [];
  for (let k = 0; k < teeth; k += 1) {
    const x0 = (width * k) / teeth;
    const x1 = (width * (k + 1)) / teeth;
    const y = k % 2 === 0 ? 0 : 0.6;
    outline.push([x0, y], [x1, y]);
  }
  for (let k = teeth - 1; k >= 0; k -= 1) {
    const x0 = (width * k) / teeth;
    const x1 = (width * (k + 1)) / teeth;
    const y = k % 2 === 0 ? depth : depth - 0.7;
    outline.push([x1, y], [x0, y]);
  }
  return outline;
}

/** A room surveyed by itself: metric, no grinding, no flooring. */
export const SURVEY_OPTIONS = {
  units: 'metric',
  grindPrices: null,
  flooringThicknessM: 0,
  flooring: null,
  flooringLimits: null,
  country: 'US',
  straightedgeM: null,
} as const;
