/**
 * What is computed from three known rooms, as last approved: a guard against a change that nobody meant. Areas and lengths worked out by
 * hand are checked in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/plan/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../shared-core/book/fields.ts';
import { baysOf } from '../../../shared-core/plan/bays.ts';
import { checkDiagonals } from '../../../shared-core/plan/diagonals.ts';
import {
  boxOf,
  movedBy,
  outOfWallM,
  snapped,
  stepped,
  withBay,
  withCornerAt,
  withCornerIn,
  withoutCorner,
  withWallMoved,
} from '../../../shared-core/plan/edit-plan.ts';
import { roomLanes } from './room-lanes.ts';
import { nearestWall, placedOpenings, wayOutPoint } from '../../../shared-core/plan/openings.ts';
import { areaInRoomM2, overlapM2 } from '../../../shared-core/plan/overlap.ts';
import { drawnPart, stretchOf } from '../../../shared-core/plan/part-of-room.ts';
import { centroidOf } from '../../../shared-core/plan/polygon.ts';
import { planProblems } from '../../../shared-core/plan/problems.ts';
import { pointInRoom, roomAreaM2, roomPerimeterM, roomRegion } from '../../../shared-core/plan/region.ts';
import { mendOneSide, sidesThatMend, spreadOverSides, walkSides } from '../../../shared-core/plan/tape.ts';
import { missingLengths, tapeOfOutline } from '../../../shared-core/plan/tape-room.ts';
import { unlikelySize } from '../../../shared-core/plan/unlikely-size.ts';
import { factLines } from '../fact-lines.ts';
import { hole, L_ROOM, opening, plan, points, RECTANGLE, U_ROOM } from './rooms.ts';

const column = hole('column', points([1, 1], [1.4, 1], [1.4, 1.4], [1, 1.4]));
const roomOf = (outline: Point[]) =>
  plan(outline, {
    holes: [column],
    openings: [
      opening({ id: 'in', wall: 0, fromM: 0.4, isWayOut: true }),
      opening({ id: 'next', wall: 1, fromM: 1 }),
      opening({ id: 'far', wall: outline.length - 1, fromM: 2, kind: 'sliding-door' }),
    ],
    diagonals: [
      { from: 0, to: 2, lengthM: 5.83 },
      { from: 1, to: 3, lengthM: 5.95 },
    ],
  });

describe('plans', () => {
  it.each([
    ['rectangle', RECTANGLE],
    ['L', L_ROOM],
    ['U', U_ROOM],
    ['counterclockwise', [...L_ROOM].reverse()],
    ['crossed', points([0, 0], [4, 3], [4, 0], [0, 3])],
    ['tiny', points([0, 0], [0.2, 0], [0.2, 0.3])],
  ] as const)('%s', async (name, outline) => {
    const room = roomOf([...outline]);
    const tape = tapeOfOutline(room.outline);
    const off = tape.sides.map((side, i) => (i === 1 ? { ...side, lengthM: side.lengthM + 0.05 } : side));
    const lines = factLines({
      area: [roomAreaM2(room), roomPerimeterM(room), centroidOf(room.outline, [column.corners])],
      problems: planProblems(room, 'us'),
      size: unlikelySize(room.outline, 'us'),
      diagonals: checkDiagonals(room, 'us'),
      corner: withCornerAt(room, 1, { xM: 5.5, yM: 0.2 }).outline,
      wall: withWallMoved(room, 0, 0.3).outline,
      'corner in': withCornerIn(room, 0, 1.5),
      'corner out': withoutCorner(room, 1),
      'bay at the start': withBay(room, 0, 'bump-out', { fromM: 0, widthM: 0.5, deepM: 0.4 }),
      'bay within': withBay(room, 0, 'bump-out', { fromM: 1, widthM: 0.5, deepM: 0.4 }),
      'bay before the door': withBay(room, 0, 'notch', { fromM: 0, widthM: 0.2, deepM: 0.2 }),
      'bay over the door': withBay(room, 0, 'bump-out', { fromM: 0.2, widthM: 1.5, deepM: 0.3 }),
      openings: [placedOpenings(room), wayOutPoint(room)],
      nearest: points([0.2, 0.5], [3, 2], [6, 4]).map((point) => [
        nearestWall(room, point),
        pointInRoom(point, room),
        outOfWallM(room, 0, point),
      ]),
      'on the edge': points([0, 0], [2.5, 0], [1, 1], [1.2, 1.2]).map((point) => pointInRoom(point, room)),
      overlap: [
        overlapM2(room.outline, points([1, 1], [3, 1], [3, 5], [1, 5])),
        areaInRoomM2(room, points([0.5, 0.5], [2, 0.5], [2, 2], [0.5, 2])),
      ],
      part: drawnPart(room, points([0.5, 0.5], [9, 0.5], [9, 2], [0.5, 2])),
      stretch: stretchOf(room, points([0, 0], [2, 0], [2, 3], [0, 3])),
      bays: baysOf(roomRegion(room), [{ from: { xM: 2, yM: -1 }, to: { xM: 2, yM: 9 } }]),
      ...Object.fromEntries([0, 30, 90].map((angle) => [`lanes at ${angle}`, roomLanes(room, 0.9, angle)])),
      tape: [tape, walkSides(off), sidesThatMend(off), spreadOverSides(off), mendOneSide(off, 1, 'us'), mendOneSide(off, 0, 'metric')],
      missing: missingLengths(
        tape.sides.map((side) => side.turnDeg),
        tape.sides.map((side, i) => (i === 0 || i === 1 ? null : side.lengthM)),
      ),
      box: [boxOf(room.outline), boxOf(points([0, 0], [2, 0], [2, 1], [0, 1])), movedBy(room.outline, 1, -2)],
      snapped: [
        snapped({ xM: 1.04, yM: 2.9 }, room.outline, 0.1, 0.25),
        snapped({ xM: 4.95, yM: 2.6 }, room.outline, 0.1, 0.25),
        stepped(1.37, 0.25),
      ],
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);
  });
});
