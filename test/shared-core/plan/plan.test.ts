import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { checkDiagonals } from '../../../shared-core/plan/diagonals.ts';
import { movedToWall, nearestWall, placedOpenings, wayOutPoint } from '../../../shared-core/plan/openings.ts';
import { boundsOf, centroidOf, ringAreaM2, ringPerimeterM, signedAreaM2, turned } from '../../../shared-core/plan/polygon.ts';
import { planProblems } from '../../../shared-core/plan/problems.ts';
import { pointInRegion, pointInRoom, regionAreaM2, roomAreaM2, roomPerimeterM } from '../../../shared-core/plan/region.ts';
import { anyComb, anyRegion, hole, L_ROOM, moved, opening, plan, points, RECTANGLE, U_ROOM } from './rooms.ts';

const kinds = (room: Parameters<typeof planProblems>[0]) => planProblems(room, 'us').map((problem) => problem.kind);
const column = points([1, 1], [1.5, 1], [1.5, 1.4], [1, 1.4]);

const isSound = (drawn: Parameters<typeof planProblems>[0]): boolean => planProblems(drawn, 'metric').length === 0;

describe('area, perimeter and centroid', () => {
  it('are exact for a room of straight walls and a column', () => {
    const room = plan(L_ROOM, { holes: [hole('column-1', column)] });
    expect(roomAreaM2(room)).toBeCloseTo(20.25 - 0.2, 12);
    expect(roomPerimeterM(room).wallsM).toBeCloseTo(20, 12);
    expect(roomPerimeterM(room).holesM).toBeCloseTo(1.8, 12);
  });

  it('follow the closed forms of a regular polygon', () => {
    // Area n r² sin(2π/n)/2, side 2 r sin(π/n): elementary geometry.
    const n = 37;
    const ring = points(
      ...Array.from({ length: n }, (_, i): [number, number] => [
        100 + 2 * Math.cos((2 * Math.PI * i) / n),
        2 * Math.sin((2 * Math.PI * i) / n),
      ]),
    );
    expect(ringAreaM2(ring)).toBeCloseTo((n * 4 * Math.sin((2 * Math.PI) / n)) / 2, 10);
    expect(ringPerimeterM(ring)).toBeCloseTo(n * 4 * Math.sin(Math.PI / n), 10);
    expect(centroidOf(ring)?.xM).toBeCloseTo(100, 10);
  });

  it('has the centroid of an L as the weighted mean of its two rectangles', () => {
    const center = centroidOf(L_ROOM);
    expect(center?.xM).toBeCloseTo((15 * 3 + 5.25 * 1.75) / 20.25, 12);
    expect(center?.yM).toBeCloseTo((15 * 1.25 + 5.25 * 3.25) / 20.25, 12);
  });

  it('has a sign for its direction', () => {
    expect(signedAreaM2(RECTANGLE)).toBe(15);
    expect(signedAreaM2([...RECTANGLE].reverse())).toBe(-15);
    expect(signedAreaM2(turned(RECTANGLE, 'counterclockwise'))).toBe(-15);
    expect(centroidOf(points([0, 0], [1, 1], [2, 2]))).toBeNull();
    expect(boundsOf([])).toBeNull();
  });

  it('does not depend on the room’s position, rotation or direction of drawing', () => {
    fc.assert(
      fc.property(anyRegion, fc.double({ min: -360, max: 360, noNaN: true }), fc.integer({ min: -50, max: 50 }), (region, turn, by) => {
        const other = moved(region, turn, by, 2 * by);
        expect(regionAreaM2(other)).toBeCloseTo(regionAreaM2(region), 8);
        expect(ringPerimeterM(other.outline)).toBeCloseTo(ringPerimeterM(region.outline), 8);
        expect(regionAreaM2({ outline: [...region.outline].reverse(), holes: region.holes })).toBeCloseTo(regionAreaM2(region), 10);
        const [own, theirs] = [centroidOf(region.outline, region.holes), centroidOf(other.outline, other.holes)];
        const carried = own === null ? undefined : moved({ outline: [own], holes: [] }, turn, by, 2 * by).outline[0];
        expect(theirs?.xM).toBeCloseTo(carried?.xM ?? Number.NaN, 7);
        expect(theirs?.yM).toBeCloseTo(carried?.yM ?? Number.NaN, 7);
      }),
    );
  });
});

describe('a point in a room', () => {
  it('is inside, outside, in a cutout or on the edge', () => {
    const room = plan(L_ROOM, { holes: [hole('column-1', column)] });
    expect(pointInRoom({ xM: 0.5, yM: 3.5 }, room)).toBe('inside');
    expect(pointInRoom({ xM: 5, yM: 3 }, room)).toBe('outside');
    expect(pointInRoom({ xM: 1.2, yM: 1.2 }, room)).toBe('outside');
    expect(pointInRoom({ xM: 3.5, yM: 3 }, room)).toBe('edge');
    expect(pointInRoom({ xM: 1.5, yM: 1.2 }, room)).toBe('edge');
  });

  it('is where polygon-clipping finds a small square around it', () => {
    fc.assert(
      fc.property(
        fc.oneof(anyRegion, anyComb),
        fc.double({ min: -4, max: 9, noNaN: true }),
        fc.double({ min: -5, max: 8, noNaN: true }),
        (region, xM, yM) => {
          fc.pre(pointInRegion({ xM, yM }, region, 1e-3) !== 'edge');
          const ring = (corners: readonly { xM: number; yM: number }[]) => corners.map((p): [number, number] => [p.xM, p.yM]);
          const square = ring(points([xM - 1e-4, yM - 1e-4], [xM + 1e-4, yM - 1e-4], [xM + 1e-4, yM + 1e-4], [xM - 1e-4, yM + 1e-4]));
          const both = polygonClipping.intersection([ring(region.outline), ...region.holes.map(ring)], [square]);
          expect(pointInRegion({ xM, yM }, region)).toBe(both.length > 0 ? 'inside' : 'outside');
        },
      ),
    );
  });
});

describe('what is wrong with a plan', () => {
  it('is nothing for valid rooms, also with a hearth against a wall', () => {
    const hearth = hole('hearth-1', points([2, 0], [3, 0], [3, 0.5], [2, 0.5]));
    expect(planProblems(plan(L_ROOM, { holes: [hearth, hole('column-1', column)], openings: [opening({})] }), 'us')).toEqual([]);
    expect(isSound(plan(U_ROOM))).toBe(true);
    fc.assert(
      fc.property(fc.oneof(anyRegion, anyComb), (region) =>
        isSound(plan([...region.outline], { holes: region.holes.map((h, i) => hole(`hole-${i}`, [...h])) })),
      ),
    );
  });

  it('says where an outline crosses itself', () => {
    const [problem] = planProblems(plan(points([0, 0], [4, 4], [4, 0], [0, 4])), 'us');
    expect(problem?.kind).toBe('self-crossing');
    expect(problem?.point.xM).toBeCloseTo(2, 12);
    expect(problem?.point.yM).toBeCloseTo(2, 12);
    expect(problem?.message).toMatch(/sides 1 and 3/);
  });

  it('finds a wall that doubles back, a corner that touches a wall, a flat room', () => {
    expect(kinds(plan(points([0, 0], [4, 0], [2, 0], [2, 3])))).toContain('self-crossing');
    expect(kinds(plan(points([0, 0], [4, 0], [4, 3], [2, 0], [0, 3])))).toContain('self-crossing');
    // Whichever of the two sides is the longer, the place is the end of the shorter.
    for (const corners of [points([0, 0], [4, 0], [3, 0], [3, 3]), points([3, 3], [3, 0], [4, 0], [0, 0])]) {
      const back = planProblems(plan(corners), 'us').find(({ message }) => message.includes('doubles back'));
      expect(back?.point).toEqual({ xM: 3, yM: 0 });
    }
    expect(kinds(plan(points([0, 0], [1, 0])))).toEqual(['few-corners']);
    expect(kinds(plan([]))).toEqual(['few-corners']);
    expect(kinds(plan(points([0, 0], [4, 0], [4, 0.0001], [4, 3])))).toEqual(['repeated-corner']);
  });

  it('finds cutouts outside, across a wall, over one another', () => {
    const squareAt = (x: number, y: number, size = 1) => points([x, y], [x + size, y], [x + size, y + size], [x, y + size]);
    expect(kinds(plan(RECTANGLE, { holes: [hole('hole-a', squareAt(8, 8))] }))).toEqual(['hole-outside']);
    expect(kinds(plan(RECTANGLE, { holes: [hole('hole-a', squareAt(4.5, 1))] }))).toEqual(['hole-crosses-wall']);
    expect(kinds(plan(RECTANGLE, { holes: [hole('hole-a', squareAt(1, 1)), hole('hole-b', squareAt(1.5, 1.5))] }))).toEqual([
      'holes-overlap',
    ]);
    expect(kinds(plan(RECTANGLE, { holes: [hole('hole-a', squareAt(1, 1)), hole('hole-b', squareAt(1.2, 1.2, 0.2))] }))).toEqual([
      'holes-overlap',
    ]);
    expect(kinds(plan(RECTANGLE, { holes: [hole('hole-a', squareAt(1, 1)), hole('hole-b', squareAt(1, 1))] }))).toEqual(['holes-overlap']);
    expect(kinds(plan(RECTANGLE, { holes: [hole('hole-a', squareAt(1, 1)), hole('hole-b', squareAt(2, 1))] }))).toEqual([]);
    expect(kinds(plan(U_ROOM, { holes: [hole('hole-a', points([1, 1], [6, 1], [6, 2], [1, 2]))] }))).toEqual(['hole-crosses-wall']);
  });

  it('finds openings that do not fit their wall, in the company’s units', () => {
    const [wide] = planProblems(plan(RECTANGLE, { openings: [opening({ wall: 1, widthM: 3.6576 })] }), 'us');
    expect(wide?.kind).toBe('opening-too-wide');
    expect(wide?.message).toBe('“Door” is 12′ 0″ wide and its wall is 9′ 10⅛″ long. Make it narrower or choose another wall.');
    expect(kinds(plan(RECTANGLE, { openings: [opening({ fromM: 4.5 })] }))).toEqual(['opening-too-wide']);
    expect(kinds(plan(RECTANGLE, { openings: [opening({ wall: 4 })] }))).toEqual(['opening-wall-missing']);
    expect(kinds(plan(RECTANGLE, { openings: [opening({}), opening({ id: 'door-2', fromM: 1 })] }))).toEqual(['openings-overlap']);
  });
});

describe('openings', () => {
  it('move to another wall at their distance from the corner, or as far along as a shorter wall lets them', () => {
    // RECTANGLE is 5 m by 3 m.
    const room = plan(RECTANGLE, { openings: [] });
    const door = opening({ fromM: 3.5, widthM: 0.9 });
    expect(movedToWall(room, door, 2)).toEqual({ ...door, wall: 2 });
    const short = movedToWall(room, door, 1);
    expect(short.fromM).toBeCloseTo(3 - 0.9, 9);
    expect(planProblems(plan(RECTANGLE, { openings: [short] }), 'us')).toEqual([]);
    expect(movedToWall(room, opening({ fromM: 3.5, widthM: 3.6 }), 1).fromM).toBe(0);
  });

  it('are points on their wall and face into the room, whichever way the outline runs', () => {
    const [door] = placedOpenings(plan(RECTANGLE, { openings: [opening({ fromM: 1, widthM: 0.8 })] }));
    expect([door?.from.xM, door?.to.xM, door?.middle.xM]).toEqual([1, expect.closeTo(1.8, 12), expect.closeTo(1.4, 12)]);
    expect(door?.inward.y).toBe(1);
    const [same] = placedOpenings(plan([...RECTANGLE].reverse(), { openings: [opening({ wall: 2 })] }));
    expect(same?.inward.y).toBe(1);
  });

  it('give the exit: the marked one, or the only one', () => {
    const two = [opening({}), opening({ id: 'door-2', wall: 2 })];
    expect(wayOutPoint(plan(RECTANGLE, { openings: two }))).toBeNull();
    expect(wayOutPoint(plan(RECTANGLE, { openings: [opening({}), opening({ id: 'door-2', wall: 2, isWayOut: true })] }))?.yM).toBe(3);
    expect(wayOutPoint(plan(RECTANGLE, { openings: [opening({})] }))?.yM).toBe(0);
  });

  it('are put on the wall nearest to a point', () => {
    expect(nearestWall(plan(RECTANGLE), { xM: 4.8, yM: 2 })).toEqual({
      wall: 1,
      point: { xM: 5, yM: 2 },
      alongM: 2,
      offM: expect.closeTo(0.2, 12),
    });
    expect(nearestWall(plan([]), { xM: 0, yM: 0 })).toBeNull();
  });
});

describe('diagonals', () => {
  it('agree in a square room and show one that leans', () => {
    const checks = checkDiagonals(
      {
        outline: points([0, 0], [4, 0], [4, 3], [0, 3]),
        diagonals: [
          { from: 0, to: 2, lengthM: 5.003 },
          { from: 1, to: 3, lengthM: 5.06 },
          { from: 0, to: 9, lengthM: 1 },
        ],
      },
      'metric',
    );
    expect(checks.map((check) => check.message === null)).toEqual([true, false]);
    expect(checks[1]?.message).toMatch(/corner 2 to corner 4 is 0\.06 m longer/);
  });
});
