import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillTo } from '../../../shared-core/survey/fill.ts';
import { mosaicOf } from '../../../shared-core/survey/mosaic.ts';
import { type FloorRead } from '../../../shared-core/survey/read-floor.ts';
import { reliefFrom } from '../../../shared-core/survey/relief.ts';
import { roomRings } from '../../../shared-core/survey/room-rings.ts';
import { gridReadings, numbers, planOf, rectangle, type XY } from './floors.ts';
import { type Readings, LEVEL, floorOf, reliefOf, volume, expectClose } from './volumes.ts';
import { xy, xyz } from '../../outlines.ts';

const ELL = xy('0,0 6,0 6,2 2.5,2 2.5,5 0,5');
const COLUMN = xy('1,0.8 1.4,0.8 1.4,1.3 1,1.3');

describe('volume to a level, against calculus', () => {
  it('is width × depth × average depth under a plane that the level clears', () => {
    const tilted = gridReadings(6, 4, 4, 3, (x, y) => 0.002 * x - 0.003 * y);
    // The average of 0.002 x − 0.003 y over 6 by 4 is 0.006 − 0.006.
    expectClose(volume(rectangle(6, 4), tilted, 0.02), 24 * 0.02);
  });

  it('is a prism where a ramp rises out of the pour', () => {
    const ramp = gridReadings(6, 4, 5, 3, (x) => 0.01 * x);
    // z = x / 100 leaves the level 0.025 at x = 2.5: a triangle 2.5 by 0.025 over 4 m.
    expectClose(volume(rectangle(6, 4), ramp, 0.025), 0.5 * 2.5 * 0.025 * 4);
    expectClose(reliefOf(floorOf(rectangle(6, 4), ramp)).below(0.025).areaM2, 2.5 * 4);
  });

  it('is the box less the pyramid inside', () => {
    const pyramid: Readings = [...rectangle(3, 3).map(([x, y]) => [x, y, 0] as const), [1.5, 1.5, 0.09]];
    expectClose(volume(rectangle(3, 3), pyramid, 0.09), 9 * 0.09 - (9 * 0.09) / 3);
    // To a third of its height: the box less a frustum whose top side is 2.
    const frustum = (0.03 / 3) * (9 + 4 + 6);
    expectClose(volume(rectangle(3, 3), pyramid, 0.03), 9 * 0.03 - frustum);
  });

  it('is the box less the hip roof inside', () => {
    // Base 5 by 2, ridge 3 long, 0.05 high: the wedge h·b·(2a + c) / 6 with a = 5, c = 3 (geometry of the right wedge).
    const hip: Readings = xyz(
      '0,0,0 5,0,0 5,2,0 0,2,0 1,1,0.05 4,1,0.05 2,1,0.05 3,1,0.05 2,0,0 3,0,0 2,2,0 3,2,0 1,0,0 4,0,0 1,2,0 4,2,0',
    );
    expectClose(volume(rectangle(5, 2), hip, 0.05), 5 * 2 * 0.05 - (0.05 * 2 * (2 * 5 + 3)) / 6);
  });

  it('follows the triangles over a saddle: a square’s four corners and its middle', () => {
    const saddle: Readings = xyz('0,0,0.02 2,0,-0.02 2,2,0.02 0,2,-0.02 1,1,0');
    // Each of the four triangles has corners +0.02, −0.02, 0 and area 1. Below zero: half of it, mean depth 0.02 / 3.
    expectClose(volume(rectangle(2, 2), saddle, 0), 4 * 0.5 * (0.02 / 3));
    expectClose(volume(rectangle(2, 2), saddle, 0.02), 4 * 0.02);
  });

  it('excludes the column of an L-shaped room', () => {
    const plane = (x: number, y: number): number => 0.001 * x + 0.002 * y;
    const corner: [number, number, number] = [2.5, 5, plane(2.5, 5)];
    const readings = [...gridReadings(6, 5, 6, 5, plane), corner].filter(([x, y]) => x <= 2.5 || y <= 2);
    const area = 6 * 2 + 2.5 * 3 - 0.4 * 0.5;
    const momentX = 12 * 3 + 7.5 * 1.25 - 0.2 * 1.2;
    const momentY = 12 * 1 + 7.5 * 3.5 - 0.2 * 1.05;
    expectClose(volume(ELL, readings, 0.03, [COLUMN]), 0.03 * area - 0.001 * momentX - 0.002 * momentY);
    expectClose(floorOf(ELL, readings, [COLUMN]).areaM2, area);
  });

  it('keeps the nearest reading’s height beyond the readings, out to the walls', () => {
    const inner: Readings = xyz('1,1,0.01 3,1,0.01 3,2,0.03 1,2,0.03');
    // 4 by 3 room: z is 0.01 over the meter below y = 1, rises over the meter between, 0.03 above.
    expectClose(volume(rectangle(4, 3), inner, 0.03), 4 * (1 * 0.02 + 0.5 * 0.02));
    expectClose(floorOf(rectangle(4, 3), inner).extrapolatedShare, 10 / 12);
  });

  it('approaches a smooth bowl four times closer as the spacing halves', () => {
    const bowl = (x: number, y: number): number => 0.004 * ((x - 2) ** 2 + (y - 2) ** 2);
    // ∫ over 4 by 4 of 0.004 r²: 0.004 · 2 · 4 · ∫ (x − 2)² dx = 0.004 · 8 · 16 / 3.
    const exact = 0.04 * 16 - (0.004 * 8 * 16) / 3;
    const errors = [4, 8, 16, 32].map((n) => Math.abs(volume(rectangle(4, 4), gridReadings(4, 4, n, n, bowl), 0.04) - exact));
    for (let i = 1; i < errors.length; i += 1) {
      const ratio = (errors[i - 1] ?? 0) / (errors[i] ?? 1);
      expect(ratio).toBeGreaterThan(3.9);
      expect(ratio).toBeLessThan(4.1);
    }
  });
});

const readingsArb = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 299 }), fc.integer({ min: 1, max: 199 }), fc.integer({ min: -40, max: 40 })), {
    minLength: 4,
    maxLength: 40,
  })
  .map((list) => {
    const seen = new Map(list.map(([x, y, z]) => [`${x},${y}`, [x / 50 + y / 7919, y / 50 + x / 6007, z / 1000] as const]));
    return [...seen.values()];
  })
  .filter((list) => list.length >= 4 && spread(list) > 0.3);

function spread(list: Readings): number {
  const xs = list.map(([x]) => x);
  const ys = list.map(([, y]) => y);
  const [a, b] = [list[0], list[1]];
  if (!a || !b) return 0;
  const across = list.map(
    ([x, y]) => Math.abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / Math.hypot(b[0] - a[0], b[1] - a[1]),
  );
  return Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), Math.max(...across));
}

describe('what does not change a volume', () => {
  const room = xy('-0.2,-0.2 6.4,-0.2 6.4,3 4,3 4,4.4 -0.2,4.4');

  it('moving the room and its readings together', () => {
    fc.assert(
      fc.property(readingsArb, fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 }), (readings, dx, dy) => {
        const moved = readings.map(([x, y, z]) => [x + dx / 8, y + dy / 8, z] as const);
        const before = volume(room, readings, 0.05);
        expectClose(
          volume(
            room.map(([x, y]) => [x + dx / 8, y + dy / 8]),
            moved,
            0.05,
          ),
          before,
          1e-9,
        );
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  it('turning the room and its readings together', () => {
    fc.assert(
      fc.property(readingsArb, fc.double({ min: 0, max: 6.28, noNaN: true }), (readings, angle) => {
        const turn = ([x, y]: XY): [number, number] => [
          x * Math.cos(angle) - y * Math.sin(angle),
          x * Math.sin(angle) + y * Math.cos(angle),
        ];
        const turned = readings.map(([x, y, z]) => [...turn([x, y]), z] as const);
        expectClose(volume(room.map(turn), turned, 0.01), volume(room, readings, 0.01), 1e-8);
      }),
      { numRuns: 60, seed: 12 },
    );
  });

  it('the order of the readings', () => {
    fc.assert(
      fc.property(readingsArb, fc.integer({ min: 1, max: 1000 }), (readings, seed) => {
        const next = numbers(seed);
        const shuffled = readings
          .map((reading) => ({ reading, key: next() }))
          .sort((a, b) => a.key - b.key)
          .map((one) => one.reading);
        expectClose(volume(room, shuffled, 0.02), volume(room, readings, 0.02), 1e-9);
      }),
      { numRuns: 60, seed: 13 },
    );
  });

  it('drawing the room as two rooms that share a wall', () => {
    fc.assert(
      fc.property(readingsArb, fc.double({ min: 0.5, max: 5.5, noNaN: true }), (readings, cut) => {
        const whole = rectangle(6.3, 4.2);
        const leftPart: XY[] = [
          [0, 0],
          [cut, 0],
          [cut + 0.3, 4.2],
          [0, 4.2],
        ];
        const right: XY[] = [
          [cut, 0],
          [6.3, 0],
          [6.3, 4.2],
          [cut + 0.3, 4.2],
        ];
        // Readings outside a part would be excluded, so one floor is cut both ways.
        const floor = floorOf(
          rectangle(6.3, 4.2),
          readings.filter(([x, y]) => x > 0 && x < 6.3 && y > 0 && y < 4.2),
        );
        const parts = [leftPart, right].map((part) => volumeOver(floor, part, 0.015)).reduce((a, b) => a + b, 0);
        expectClose(parts, volumeOver(floor, whole, 0.015), 1e-9);
      }),
      { numRuns: 60, seed: 14 },
    );
  });
});

function volumeOver(floor: FloorRead, outline: readonly XY[], levelM: number): number {
  const room = roomRings(planOf(outline));
  if (!room) throw new Error('no room');
  return reliefFrom(mosaicOf(floor.surface, room), LEVEL).below(levelM).volumeM3;
}

describe('a plane set from the highest place', () => {
  it('leaves nothing thin, also over a flat top and where a reading is slightly beyond a slanted wall', () => {
    // Three readings on the slanted side of a right triangle with sides of 3 and 4 m; the center one is the highest.
    const outline = xy('0,0 4,0 0,3');
    // Nearer to a corner it is that corner read twice.
    for (let k = 4; k < 197; k += 1) {
      const t = k / 200;
      const readings: [number, number, number][] = [
        [0, 0, 0],
        [4, 0, 0],
        [0, 3, 0],
        [4 * (1 - t), 3 * t, 0.0107],
      ];
      const floor = floorOf(outline, readings);
      expect(floor.highestM).toBeCloseTo(0.0107, 12);
      const fill = fillTo(reliefOf(floor), floor.highestM + 0.003, { leastThicknessM: 0.003, grindMostM: 0 });
      expect(fill.leastDepthM).toBeCloseTo(0.003, 12);
    }
  });
});
