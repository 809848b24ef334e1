/** Volumes of floors given as readings. */
import { expect } from 'vitest';
import { type FloorRead, readFloor } from '../../../shared-core/survey/read-floor.ts';
import { type Relief, reliefFrom } from '../../../shared-core/survey/relief.ts';
import { numbers, planOf, surveyOf, type XY } from './floors.ts';

export type Readings = readonly (readonly [number, number, number])[];
export const LEVEL = { slopeX: 0, slopeY: 0 };

export function floorOf(outline: readonly XY[], readings: Readings, holes: readonly (readonly XY[])[] = []): FloorRead {
  const read = readFloor(planOf(outline, holes), surveyOf(readings), 'metric');
  if (!read.ok) throw new Error(read.message);
  return read.floor;
}

export const reliefOf = (floor: FloorRead): Relief => reliefFrom(floor.mosaic, LEVEL);
export const volume = (outline: readonly XY[], readings: Readings, levelM: number, holes: readonly (readonly XY[])[] = []): number =>
  reliefOf(floorOf(outline, readings, holes)).below(levelM).volumeM3;

export function expectClose(found: number, expected: number, relative = 1e-9): void {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(relative * Math.max(Math.abs(expected), 1e-12));
}

export function scattered(
  count: number,
  width: number,
  depth: number,
  seed: number,
  height: (x: number, y: number) => number,
): [number, number, number][] {
  const next = numbers(seed);
  return Array.from({ length: count }, () => {
    const x = 0.01 + next() * (width - 0.02);
    const y = 0.01 + next() * (depth - 0.02);
    return [x, y, height(x, y)];
  });
}
