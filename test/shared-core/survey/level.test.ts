import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import { joinPieces, piecesAt } from '../../../shared-core/survey/contours.ts';
import { grindCurve, grindPoint } from '../../../shared-core/survey/grind-or-fill.ts';
import { gridSpacingM, readingGrid } from '../../../shared-core/survey/reading-grid.ts';
import { type FloorRead, readFloor } from '../../../shared-core/survey/read-floor.ts';
import { reliefFrom } from '../../../shared-core/survey/relief.ts';
import { settleLevel, type LevelOptions } from '../../../shared-core/survey/settle-level.ts';
import { spotsAbove } from '../../../shared-core/survey/spots.ts';
import { heightAt } from '../../../shared-core/survey/surface.ts';
import { gapsOf } from '../../../shared-core/survey/section-along.ts';
import { sectionThrough } from '../../../shared-core/survey/survey-room.ts';
import { gridReadings, levelChoice, numbers, planOf, rectangle, surveyOf } from './floors.ts';
import { xy, xyz } from '../../outlines.ts';
import { opening } from '../plan/rooms.ts';
import { IN_M } from '../../reference/material-facts.ts';

const LEVEL = { slopeX: 0, slopeY: 0 };
const PRICES = { fillM3: 180_000, grindM2: 900, removeM3: 60_000 };
const OPTIONS: LevelOptions = { units: 'metric', grindPrices: PRICES, flooringThicknessM: 0 };

function floorOf(plan: Plan, readings: readonly (readonly [number, number, number])[]): FloorRead {
  const read = readFloor(plan, surveyOf(readings), 'metric');
  if (!read.ok) throw new Error(read.message);
  return read.floor;
}

function bumpy(seed: number, size = 0.012): [number, number, number][] {
  const next = numbers(seed);
  return gridReadings(6, 4, 9, 6, () => size * next() ** 3);
}

const ROOM = planOf(rectangle(6, 4));
const settle = (floor: FloorRead, choice: LevelChoice, change: Partial<LevelOptions> = {}, plan: Plan = ROOM) =>
  settleLevel(floor, plan, choice, { ...OPTIONS, ...change });

describe('the lowest permitted level', () => {
  it('is the highest point plus the minimum thickness, also where that point lies beyond the readings', () => {
    const floor = floorOf(ROOM, xyz('1,1,0 5,1,0.02 5,3,0.01 1,3,0'));
    const level = settle(floor, levelChoice());
    expect(level.lowestWithGrindingM).toBeCloseTo(0.023, 12);
    expect(level.fill.leastDepthM).toBeCloseTo(0.003, 12);
    expect(level.warnings).toEqual([]);
  });

  it('is lower by what may be ground, and only where grinding is permitted', () => {
    const floor = floorOf(ROOM, bumpy(3));
    const choice = levelChoice({ grindMostM: 0.004, levelM: floor.highestM + 0.003 - 0.004 });
    const allowed = settle(floor, choice);
    expect(allowed.shortM).toBe(0);
    expect(allowed.highSpotsAreGround).toBe(true);
    expect(allowed.fill.groundM2).toBeGreaterThan(0);
    const refused = settle(floor, choice, { grindPrices: null });
    expect(refused.shortM).toBeCloseTo(0.004, 12);
    expect(refused.grindCurve).toBeNull();
    expect(refused.fill.groundM2).toBe(0);
    expect(refused.warnings[0]?.message).toMatch(/4 mm too low/);
  });

  it('uses the permitted grinding when no level is entered: ground first, then poured', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), fc.integer({ min: 0, max: 8 }), (seed, mm) => {
        const floor = floorOf(ROOM, bumpy(seed));
        const grindMostM = mm / 1000;
        const level = settle(floor, levelChoice({ grindMostM }));
        // By definition: the highest point is lowered by the permitted grinding and keeps the minimum thickness of 3 mm over it.
        expect(level.levelM).toBeCloseTo(floor.highestM - grindMostM + 0.003, 12);
        expect(level.shortM).toBe(0);
        expect(level.warnings).toEqual([]);
        expect(level.fill.leastDepthM).toBeGreaterThan(0.003 - 1e-9);
        expect(level.fill.volumeM3).toBeLessThanOrEqual(settle(floor, levelChoice()).fill.volumeM3 + 1e-12);
        expect(settle(floor, levelChoice({ grindMostM }), { grindPrices: null }).levelM).toBeCloseTo(floor.highestM + 0.003, 12);
      }),
      { numRuns: 15 },
    );
  });

  it('is below a ramp through two thresholds, level across', () => {
    const floor = floorOf(
      ROOM,
      gridReadings(6, 4, 3, 2, () => 0),
    );
    const choice = levelChoice({
      mode: 'ramp',
      rampThrough: [
        { point: { xM: 0, yM: 1 }, heightM: 0.01 },
        { point: { xM: 6, yM: 1 }, heightM: 0.04 },
      ],
    });
    const level = settle(floor, choice);
    expect(level.fill.volumeM3).toBeCloseTo(24 * 0.025, 12);
    expect(level.fill.greatestDepthM).toBeCloseTo(0.04, 12);
    expect(level.fill.leastDepthM).toBeCloseTo(0.01, 12);
    // The room's center is x = 3: 0.025 on the ramp; the lowest permitted there lets the low end come down to 3 mm.
    expect(level.levelM).toBeCloseTo(0.025, 12);
    expect(level.lowestWithGrindingM).toBeCloseTo(0.018, 12);
  });

  it('is level, with a sentence, while a ramp’s heights make no plane', () => {
    const level = settle(floorOf(ROOM, bumpy(1)), levelChoice({ mode: 'ramp', rampThrough: [] }));
    expect(level.warnings.map((warning) => warning.kind)).toEqual(['ramp']);
    expect(level.plane.slopeX).toBe(0);
  });

  it('does not exist for a constant thickness: area × (thickness + texture)', () => {
    const level = settle(floorOf(ROOM, bumpy(4)), levelChoice({ mode: 'follow', followThicknessM: 0.006, textureM: 0.001 }));
    expect(level.fill.volumeM3).toBeCloseTo(24 * 0.007, 12);
    expect(level.lowestWithGrindingM).toBeNull();
  });

  it('counts no texture over the high spots of a constant thickness', () => {
    const thick = (leastThicknessM: number) =>
      settle(floorOf(ROOM, bumpy(4)), levelChoice({ mode: 'follow', followThicknessM: IN_M / 4, textureM: IN_M / 8, leastThicknessM }));
    const { fill, warnings } = thick((3 / 8) * IN_M);
    expect(fill.leastDepthM).toBeCloseTo(IN_M / 4, 12);
    expect(fill.meanDepthM).toBeCloseTo((3 / 8) * IN_M, 12);
    expect(warnings.map(({ kind }) => kind)).toEqual(['too-low']);
    expect(thick(IN_M / 4).warnings).toEqual([]);
  });
});

describe('grinding against pouring', () => {
  it('is not compared while the fill has no price, though the floor may be ground', () => {
    const [floor, choice] = [floorOf(ROOM, bumpy(2)), levelChoice({ grindMostM: 0.004 })];
    const [priced, bare] = [settle(floor, choice), settle(floor, choice, { grindPrices: { ...PRICES, fillM3: null } })];
    expect(priced.grindCurve).not.toBeNull();
    expect(bare).toEqual({ ...priced, grindCurve: null });
    expect(bare.highSpotsAreGround).toBe(true);
  });

  it('costs least where a brute-force scan of 20,000 planes says, for floors of many shapes', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 10_000 }),
        fc.integer({ min: 0, max: 3000 }),
        fc.integer({ min: 0, max: 90_000 }),
        (seed, grindM2, removeM3) => {
          const relief = reliefFrom(floorOf(ROOM, bumpy(seed)).mosaic, LEVEL);
          const prices = { fillM3: 180_000, grindM2, removeM3 };
          const curve = grindCurve(relief, 0.003, 0.008, prices);
          let brute = Number.POSITIVE_INFINITY;
          const depth = Math.min(0.008, relief.highestM - relief.lowestM);
          for (let i = 0; i <= 4000; i += 1) brute = Math.min(brute, grindPoint(relief, 0.003, prices, (depth * i) / 4000).cost);
          expect(curve.cheapest.cost).toBeLessThanOrEqual(brute * (1 + 1e-9));
          expect(curve.saving).toBeCloseTo(curve.noGrinding.cost - curve.cheapest.cost, 6);
        },
      ),
      { numRuns: 25, seed: 5 },
    );
    const relief = reliefFrom(floorOf(ROOM, bumpy(77)).mosaic, LEVEL);
    const curve = grindCurve(relief, 0.003, 0.008, PRICES);
    let brute = grindPoint(relief, 0.003, PRICES, 0);
    for (let i = 0; i <= 20_000; i += 1) {
      const point = grindPoint(relief, 0.003, PRICES, (0.008 * i) / 20_000);
      if (point.cost < brute.cost) brute = point;
    }
    expect(curve.cheapest.cost).toBeLessThanOrEqual(brute.cost * (1 + 1e-12));
    expect(curve.cheapest.cost / brute.cost).toBeGreaterThan(1 - 1e-4);
  });

  it('stops just above a flat patch rather than grind the whole of it', () => {
    // A ledge 2 by 4 m is 5 mm high, with a spike on the other side 10 mm high: the spike is ground, the ledge stays.
    const readings = gridReadings(6, 4, 12, 8, (x, y) => (x >= 4 ? 0.005 : x === 1.5 && y === 2 ? 0.01 : 0));
    const relief = reliefFrom(floorOf(ROOM, readings).mosaic, LEVEL);
    const curve = grindCurve(relief, 0.003, 0.009, { fillM3: 180_000, grindM2: 5000, removeM3: 0 });
    expect(relief.highestM - curve.cheapest.groundMostM).toBeCloseTo(0.005, 6);
    expect(curve.cheapest.grindM2).toBeLessThan(0.3);
  });

  it('saves nothing when grinding is expensive', () => {
    const relief = reliefFrom(floorOf(ROOM, bumpy(8)).mosaic, LEVEL);
    const curve = grindCurve(relief, 0.003, 0.008, { fillM3: 1, grindM2: 1e6, removeM3: 0 });
    expect(curve.saving).toBe(0);
    expect(curve.cheapest).toEqual(curve.noGrinding);
  });

  it('fills a pyramid cut off at half its height by geometry', () => {
    const pyramid = [...rectangle(6, 4).map(([x, y]) => [x, y, 0] as const), [3, 2, 0.02] as const];
    const relief = reliefFrom(floorOf(ROOM, pyramid).mosaic, LEVEL);
    const point = grindPoint(relief, 0.003, PRICES, 0.01);
    expect(point.grindM2).toBeCloseTo(24 / 4, 9);
    expect(point.removeM3).toBeCloseTo((24 / 4) * 0.01 * (1 / 3), 12);
    expect(point.fillM3).toBeCloseTo(24 * 0.013 - (24 * 0.02 * (1 - 1 / 8)) / 3, 12);
  });
});

describe('patches above a height', () => {
  it('have the area the volume’s own triangles give, in a room with bays and a column', () => {
    const ell = xy('0,0 6,0 6,2 2.5,2 2.5,4 0,4');
    const plan = planOf(ell, [xy('1,1 1.5,1 1.5,1.5 1,1.5')]);
    const inside = bumpy(21).filter(([x, y]) => (x <= 2.5 || y <= 2) && !(x > 1 && x < 1.5 && y > 1 && y < 1.5));
    const floor = floorOf(plan, inside);
    const relief = reliefFrom(floor.mosaic, LEVEL);
    for (const heightM of [0.0005, 0.002, 0.004, 0.008]) {
      const spots = spotsAbove(floor.surface, floor.room, floor.mosaic, LEVEL, heightM);
      const total = spots.reduce((sum, spot) => sum + spot.areaM2, 0);
      expect(total).toBeCloseTo(relief.areaM2 - relief.below(heightM + 1e-9).areaM2, 7);
      expect(Math.max(...spots.map((spot) => spot.depthM))).toBeCloseTo(floor.highestM - heightM, 6);
    }
  });

  it('are measured: a pyramid’s top third is a square a third as wide', () => {
    const floor = floorOf(planOf(rectangle(3, 3)), [...rectangle(3, 3).map(([x, y]) => [x, y, 0] as const), [1.5, 1.5, 0.03]]);
    const [spot, ...others] = spotsAbove(floor.surface, floor.room, floor.mosaic, LEVEL, 0.02);
    expect(others).toEqual([]);
    expect(spot?.areaM2).toBeCloseTo(1, 5);
    expect(spot?.widthM).toBeCloseTo(1, 5);
    expect(spot?.lengthM).toBeCloseTo(1, 5);
    expect(spot?.depthM).toBeCloseTo(0.01, 6);
    expect(spot?.highestAt).toEqual({ xM: 1.5, yM: 1.5 });
  });
});

describe('contours', () => {
  it('are where the floor has their height, from wall to wall or closed', () => {
    const floor = floorOf(ROOM, bumpy(31));
    for (const heightM of [0.2, 0.5, 0.8].map((share) => floor.lowestM + share * (floor.highestM - floor.lowestM))) {
      const lines = joinPieces(piecesAt(floor.surface, floor.room, floor.mosaic, LEVEL, heightM));
      expect(lines.length).toBeGreaterThan(0);
      for (const line of lines) {
        for (const point of line.points) expect(heightAt(floor.surface, point.xM, point.yM).zM).toBeCloseTo(heightM, 6);
        if (line.closed) continue;
        for (const end of [line.points[0], line.points[line.points.length - 1]]) {
          const [x, y] = [end?.xM ?? 9, end?.yM ?? 9];
          expect(Math.min(x, y, 6 - x, 4 - y)).toBeLessThan(1e-6);
        }
      }
    }
  });

  it('join pieces given in any order', () => {
    const lines = joinPieces([1, 0, 2, 0, 0, 0, 1, 0, 5, 5, 6, 5, 6, 5, 5, 6, 5, 6, 5, 5]);
    expect(lines.map((line) => [line.closed, line.points.length])).toEqual([
      [false, 3],
      [true, 3],
    ]);
  });
});

describe('sections, doorways and grid', () => {
  it('a section’s area under the level is the integral of depth along it', () => {
    const floor = floorOf(
      ROOM,
      gridReadings(6, 4, 6, 4, (x) => 0.005 * x),
    );
    const choice = levelChoice({ levelM: 0.02, leastThicknessM: 0 });
    const level = settle(floor, choice, { grindPrices: null });
    const section = sectionThrough(floor, level, choice, false, { from: { xM: -1, yM: 2 }, to: { xM: 7, yM: 2 } });
    expect(section.stretches.length).toBe(1);
    const points = section.stretches[0] ?? [];
    const area = points
      .slice(1)
      .reduce((sum, p, i) => sum + ((p.alongM - (points[i]?.alongM ?? 0)) * (p.depthM + (points[i]?.depthM ?? 0))) / 2, 0);
    // Depth runs from 0.02 to 0 at x = 4.
    expect(area).toBeCloseTo(0.5 * 4 * 0.02, 9);
    expect(points[0]?.alongM).toBeCloseTo(1, 9);
  });

  it('a section breaks at a column', () => {
    const plan = planOf(rectangle(6, 4), [xy('2,1 3,1 3,3 2,3')]);
    const floor = floorOf(
      plan,
      gridReadings(6, 4, 3, 4, () => 0),
    );
    const choice = levelChoice();
    const section = sectionThrough(floor, settle(floor, choice, {}, plan), choice, false, { from: { xM: 0, yM: 2 }, to: { xM: 6, yM: 2 } });
    expect(section.stretches.map((points) => [points[0]?.alongM, points[points.length - 1]?.alongM])).toEqual([
      [0, 2],
      [3, 6],
    ]);
    expect(gapsOf(section)).toEqual([{ fromM: 2, toM: 3 }]);
  });

  it('a doorway has its depth and the step from the floor beyond, flooring included', () => {
    const plan: Plan = {
      ...ROOM,
      openings: [opening({ id: 'door1', name: 'Hall', wall: 1, fromM: 1, adjoiningM: 0.02, adjoiningFlooring: 'oak', isWayOut: true })],
    };
    const floor = floorOf(
      plan,
      gridReadings(6, 4, 6, 4, (x, y) => 0.001 * x + 0.002 * y),
    );
    const level = settleLevel(floor, plan, levelChoice({ levelM: 0.03 }), { ...OPTIONS, flooringThicknessM: 0.008 });
    const door = level.doorways[0];
    // Wall 1 is x = 6; the door runs from y = 1 to 1.9.
    expect(door?.depthM).toBeCloseTo(0.03 - 0.006 - 0.0029, 9);
    expect(door?.stepM).toBeCloseTo(0.03 + 0.008 - 0.02, 12);
    expect(door?.extrapolated).toBe(false);
  });

  it('a suggested grid keeps its spacing, stays on the floor and turns at each row’s end', () => {
    const plan = planOf(xy('0,0 6,0 6,2 2.5,2 2.5,5 0,5'), [xy('1,1 1.6,1 1.6,1.6 1,1.6')]);
    const grid = readingGrid(plan);
    expect(grid.spacingM).toBe(gridSpacingM(6 * 2 + 2.5 * 3 - 0.36));
    for (const { xM, yM } of grid.points) {
      expect(xM > 0 && yM > 0 && (yM < 2 ? xM < 6 : xM < 2.5) && yM < 5).toBe(true);
      expect(xM > 1 && xM < 1.6 && yM > 1 && yM < 1.6).toBe(false);
    }
    const ys = [...new Set(grid.points.map((point) => point.yM))];
    const firstRow = grid.points.filter((point) => point.yM === ys[0]).map((point) => point.xM);
    const secondRow = grid.points.filter((point) => point.yM === ys[1]).map((point) => point.xM);
    expect(Math.sign((firstRow[1] ?? 0) - (firstRow[0] ?? 0))).toBe(-Math.sign((secondRow[1] ?? 0) - (secondRow[0] ?? 0)));
    expect(Math.max(...firstRow.slice(1).map((x, i) => Math.abs(x - (firstRow[i] ?? 0))))).toBeLessThanOrEqual(grid.spacingM + 1e-9);
  });
});
