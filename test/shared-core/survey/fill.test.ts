import { describe, expect, it } from 'vitest';
import { fillTo } from '../../../shared-core/survey/fill.ts';
import { planeAtM, rampEnds, rampPlane } from '../../../shared-core/survey/plane.ts';
import { type FloorRead, readFloor } from '../../../shared-core/survey/read-floor.ts';
import { reliefFrom } from '../../../shared-core/survey/relief.ts';
import { heightAt } from '../../../shared-core/survey/surface.ts';
import { gridReadings, planOf, rectangle, surveyOf } from './floors.ts';
import { scattered } from './volumes.ts';
import { box } from '../pour/floors.ts';

function floorOf(width: number, depth: number, readings: readonly (readonly [number, number, number])[]): FloorRead {
  const read = readFloor(planOf(rectangle(width, depth)), surveyOf(readings), 'metric');
  if (!read.ok) throw new Error(read.message);
  return read.floor;
}

describe('the pour', () => {
  it('keeps the minimum thickness by grinding, as a fine sum over depths says', () => {
    const floor = floorOf(
      6,
      4,
      scattered(60, 6, 4, 9, (x, y) => 0.01 * Math.sin(x) * Math.sin(y)),
    );
    const relief = reliefFrom(floor.mosaic, { slopeX: 0, slopeY: 0 });
    const [levelM, t, g] = [0.006, 0.003, 0.002];
    const fill = fillTo(relief, levelM, { leastThicknessM: t, grindMostM: g });
    let [sum, removed, ground] = [0, 0, 0];
    const step = 0.02;
    for (let x = step / 2; x < 6; x += step) {
      for (let y = step / 2; y < 4; y += step) {
        const z = heightAt(floor.surface, x, y).zM;
        const after = Math.min(z, Math.max(levelM - t, z - g));
        sum += Math.max(0, levelM - after) * step * step;
        removed += (z - after) * step * step;
        if (z > levelM - t) ground += step * step;
      }
    }
    expect(Math.abs(fill.volumeM3 - sum) / sum).toBeLessThan(1e-3);
    expect(Math.abs(fill.removedM3 - removed) / removed).toBeLessThan(1e-2);
    expect(Math.abs(fill.groundM2 - ground) / ground).toBeLessThan(1e-2);
    expect(fill.greatestDepthM).toBeCloseTo(levelM - floor.lowestM, 12);
  });

  it('has a ramp’s volume where the floor slopes down and the ramp up', () => {
    const floor = floorOf(
      5,
      3,
      gridReadings(5, 3, 5, 3, (x) => -0.004 * x),
    );
    const ramp = rampPlane([
      { point: { xM: 0, yM: 1.5 }, heightM: 0.01 },
      { point: { xM: 5, yM: 1.5 }, heightM: 0.02 },
    ]);
    if (!ramp.ok) throw new Error(ramp.message);
    const relief = reliefFrom(floor.mosaic, ramp.plane);
    // Depth runs from 0.01 to 0.04 along 5 m, 3 m wide.
    expect(relief.below(ramp.plane.zM).volumeM3).toBeCloseTo(5 * 3 * 0.025, 12);
  });

  it('has a ramp from wall to wall along the longer direction', () => {
    const room = (width: number, depth: number) => box(0, 0, width, depth).outline;
    expect(rampEnds(room(5, 3), 0.01)).toEqual([
      { point: { xM: 0, yM: 1.5 }, heightM: 0.01 },
      { point: { xM: 5, yM: 1.5 }, heightM: 0.01 },
    ]);
    const [low, high] = rampEnds(room(3, 5), 0.01) ?? [];
    if (!low || !high) throw new Error('A room has two ends.');
    const ramp = rampPlane([low, { ...high, heightM: 0.03 }]);
    if (!ramp.ok) throw new Error(ramp.message);
    // Half way up, level across.
    expect(planeAtM(ramp.plane, 0, 2.5)).toBeCloseTo(0.02, 12);
    expect(planeAtM(ramp.plane, 3, 2.5)).toBeCloseTo(0.02, 12);
    expect(rampEnds([], 0.01)).toBeNull();
  });

  it('refuses a ramp through three heights on one line, and through two at one place', () => {
    const control = (xM: number, yM: number, heightM: number) => ({ point: { xM, yM }, heightM });
    expect(rampPlane([control(0, 0, 0), control(1, 1, 0.1), control(2, 2, 0.3)]).ok).toBe(false);
    expect(rampPlane([control(1, 1, 0), control(1, 1, 0.1)]).ok).toBe(false);
    expect(rampPlane([]).ok).toBe(false);
  });
});
