import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Region } from '../../../shared-core/plan/region.ts';
import { pointInRegion } from '../../../shared-core/plan/region.ts';
import type { FillPattern, PourLayout } from '../../../shared-core/pour/layout.ts';
import { layOut } from '../../../shared-core/pour/layout.ts';
import { joinAges } from '../../../shared-core/pour/joins.ts';
import { lanesOfRegion } from '../../../shared-core/plan/lanes.ts';
import { bay, box, laidOut, rectangle } from './floors.ts';
import { points } from '../../outlines.ts';
import { steadyLaying } from './steady-laying.ts';

const RATE = 0.01; // m³ per minute: at 10 mm deep, a square meter per minute.

const laneAges = (layout: PourLayout) =>
  joinAges(layout.joins, steadyLaying(layout.batches, RATE))
    .filter((age) => age.join.kind === 'lane')
    .map((age) => age.mostMin);

describe('joinAges of a hand-worked layout', () => {
  it('is twice a lane’s time back and forth, and a lane’s time one way', () => {
    // Lanes of 4 m²: four minutes each.
    for (const age of laneAges(laidOut([bay('r', rectangle(4, 3, 3))], 0.007))) expect(age).toBeCloseTo(8, 6);
    for (const age of laneAges(laidOut([bay('r', rectangle(4, 3, 3))], 0.007, 'one-way'))) expect(age).toBeCloseTo(4, 6);
  });

  it('counts only where the lanes of an L touch', () => {
    // Lane 1: x 0 to 4 in 4 min. Lane 2, turned, of the short leg x 0 to 2: passes x = 0 at 6 min, 6 old; x = 2 at 4, 2 old.
    const layout = laidOut([bay('ell', [[box(0, 0, 4, 1)], [box(0, 1, 2, 2)]])], 0.02);
    const [age] = joinAges(layout.joins, steadyLaying(layout.batches, RATE));
    expect(age?.mostMin).toBeCloseTo(6, 6);
    expect(age?.join.lengthM).toBeCloseTo(2, 6);
    expect(age?.point.xM).toBeCloseTo(0, 6);
  });

  it('is halved by a dam that halves the lanes', () => {
    const bays = [bay('near', rectangle(2, 2, 2)), bay('far', rectangle(2, 2, 2, 2))];
    const ages = laneAges(laidOut(bays, 0.01));
    expect(ages).toHaveLength(2);
    for (const age of ages) expect(age).toBeCloseTo(4, 6);
  });

  it('is the wait between two batches end to end', () => {
    const layout = laidOut([bay('r', rectangle(4, 1, 1))], 0.02);
    const [age] = joinAges(layout.joins, { startMin: [0, 9], endMin: [2, 11] });
    expect(age?.join.kind).toBe('batch');
    expect(age?.mostMin).toBe(7);
  });

  it('continues through an open doorway, and not through a dammed one', () => {
    const bays = [bay('hall', rectangle(4, 1, 1)), bay('den', [[box(0, 1.1, 4, 2.1)]])];
    const side = (roomId: string) => ({ roomId, from: { xM: 0.5, yM: 1.05 }, to: { xM: 1.3, yM: 1.05 } });
    const doorway = { sides: [side('hall'), side('den')] as const };
    const choice = { bays, pattern: 'one-way', bagYieldM3: 0.02, bagsPerBatch: 1 } as const;
    const open = layOut({ ...choice, doorways: [doorway] });
    const dammed = layOut({ ...choice, doorways: [] });
    if (!open.ok || !dammed.ok) throw new Error('laid out');
    const age = joinAges(open.value.joins, steadyLaying(open.value.batches, RATE)).find((a) => a.join.kind === 'doorway');
    expect(age?.mostMin).toBeCloseTo(4, 3);
    expect(dammed.value.joins.some((s) => s.kind === 'doorway')).toBe(false);
  });
});

/** The same pour replayed on a raster: each cell is passed when the running volume reaches it; ages across lane edges only. */
function rasterMost(layout: PourLayout, cellM: number): number {
  const corners = layout.lanes.flatMap((s) => s.pieces.flatMap((p) => p.outline));
  const left = Math.min(...corners.map((p) => p.xM));
  const top = Math.min(...corners.map((p) => p.yM));
  const columns = Math.round((Math.max(...corners.map((p) => p.xM)) - left) / cellM);
  const rows = Math.round((Math.max(...corners.map((p) => p.yM)) - top) / cellM);
  const laneOf = new Int32Array(columns * rows);
  const passed = new Float64Array(columns * rows);
  let poured = 0;
  for (const lane of layout.lanes) {
    const order = lane.forward ? [...Array(columns).keys()] : [...Array(columns).keys()].reverse();
    for (const c of order) {
      const cells: number[] = [];
      for (let r = 0; r < rows; r++) {
        const point = { xM: left + (c + 0.5) * cellM, yM: top + (r + 0.5) * cellM };
        if (lane.pieces.some((p) => pointInRegion(point, p) === 'inside')) cells.push(r * columns + c);
      }
      const volume = cells.length * cellM * cellM * 0.01;
      for (const cell of cells) {
        laneOf[cell] = lane.number;
        passed[cell] = (poured + volume / 2) / RATE;
      }
      poured += volume;
    }
  }
  let most = 0;
  for (let r = 0; r + 1 < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const a = r * columns + c;
      const b = a + columns;
      const both = (laneOf[a] ?? 0) > 0 && (laneOf[b] ?? 0) > 0 && laneOf[a] !== laneOf[b];
      if (both) most = Math.max(most, Math.abs((passed[a] ?? 0) - (passed[b] ?? 0)));
    }
  }
  return most;
}

describe('joinAges against a raster replay of the same pour', () => {
  const ell: Region = {
    outline: points('0,0 5,0 5,1.5 2.5,1.5 2.5,4 0,4'),
    holes: [box(1, 0.6, 1.4, 1).outline],
  };
  const trapezoid: Region = {
    outline: points('0,0 6,0 4,3 1,3'),
    holes: [],
  };

  it.each([
    ['L with a column', ell, 1, 'back-and-forth'],
    ['L with a column', ell, 0.5, 'one-way'],
    ['trapezoid', trapezoid, 0.75, 'back-and-forth'],
    ['trapezoid', trapezoid, 1, 'one-way'],
  ] as const)('agrees on the maximum age: %s, lanes %#', (_, region, widthM, pattern: FillPattern) => {
    const lanes = lanesOfRegion(region, widthM, 0, null);
    const layout = laidOut([bay('r', lanes)], 0.017, pattern);
    const exact = Math.max(...laneAges(layout));
    const cell = 0.025;
    // A cell's own time, and the half row beside a slanted wall.
    expect(Math.abs(rasterMost(layout, cell) - exact)).toBeLessThan(0.2);
  });
});

describe('joinAges of any rectangle', () => {
  const sides = fc.record({
    lengthM: fc.double({ min: 1, max: 12, noNaN: true }),
    widthM: fc.double({ min: 1, max: 8, noNaN: true }),
    count: fc.integer({ min: 2, max: 8 }),
    batchM3: fc.double({ min: 0.008, max: 0.06, noNaN: true }),
  });

  it('one way is half of back and forth', () => {
    fc.assert(
      fc.property(sides, ({ lengthM, widthM, count, batchM3 }) => {
        const floor = [bay('r', rectangle(lengthM, widthM, count))];
        const both = Math.max(...laneAges(laidOut(floor, batchM3)));
        const one = Math.max(...laneAges(laidOut(floor, batchM3, 'one-way')));
        expect(one).toBeCloseTo(both / 2, 4);
      }),
      { numRuns: 60 },
    );
  });

  it('narrower lanes never raise a joint’s age at the same rate', () => {
    fc.assert(
      fc.property(sides, fc.constantFrom<FillPattern>('one-way', 'back-and-forth'), ({ lengthM, widthM, count, batchM3 }, pattern) => {
        const wide = Math.max(...laneAges(laidOut([bay('r', rectangle(lengthM, widthM, count))], batchM3, pattern)));
        const narrow = Math.max(...laneAges(laidOut([bay('r', rectangle(lengthM, widthM, count + 1))], batchM3, pattern)));
        expect(narrow).toBeLessThanOrEqual(wide + 1e-6);
      }),
      { numRuns: 60 },
    );
  });
});
