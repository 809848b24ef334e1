/** Doorways of rooms poured together: which openings face each other, and the age of the edge through an open one. */
import { describe, expect, it } from 'vitest';
import type { Opening, Plan } from '../../../shared-core/book/plan-fields.ts';
import { facingDoorways, openDoorways } from '../../../shared-core/pour/open-doorways.ts';
import { planPour, type PourRoom } from '../../../shared-core/pour/room-bays.ts';
import { joinAges } from '../../../shared-core/pour/joins.ts';
import { opening as openingOf } from '../plan/rooms.ts';
import { steadyLaying } from './steady-laying.ts';
import { box } from './floors.ts';

const opening = (id: string, wall: number, fromM: number, widthM = 1): Opening => openingOf({ id, name: id, wall, fromM, widthM });
/** A rectangle from its own corner, placed on the property plan; walls run top, right, bottom, left. */
const plan = (w: number, h: number, place: readonly [number, number, number], openings: readonly Opening[]): Plan => ({
  outline: [...box(0, 0, w, h).outline],
  holes: [],
  openings: [...openings],
  placedAt: { xM: place[0], yM: place[1], turnDeg: place[2] },
  diagonals: [],
});

// No opening is the exit, so lanes fill from their low end. Two rooms 4 m wide, the den beyond a wall of 0.15 m below the hall; the doorway
// is 0.5 m to 1.5 m from the left.
const hall = { roomId: 'hall', plan: plan(4, 2, [0, 0, 0], [opening('to the den', 2, 2.5), opening('to the porch', 0, 1)]) };
const den = { roomId: 'den', plan: plan(4, 2, [0, 2.15, 0], [opening('to the hall', 0, 0.5), opening('to the yard', 2, 0.5)]) };
/** The same den drawn from its opposite corner and rotated; its place is unchanged. */
const denTurned = { roomId: 'den', plan: plan(4, 2, [4, 4.15, 180], [opening('to the hall', 2, 0.5), opening('to the yard', 0, 2.5)]) };
const PAIR = { roomId: 'hall', openingId: 'to the den', toRoomId: 'den', toOpeningId: 'to the hall' };

describe('doorways that face each other', () => {
  it('are found through a wall, however the rooms are drawn, and no others', () => {
    expect(facingDoorways([hall, den])).toEqual([PAIR]);
    expect(facingDoorways([hall, denTurned])).toEqual([PAIR]);
    const apart = { ...den, plan: { ...den.plan, placedAt: { xM: 0, yM: 6, turnDeg: 0 } } };
    expect(facingDoorways([hall, apart])).toEqual([]);
  });

  it('run in the same direction on both sides', () => {
    const [door] = openDoorways([hall, den], [PAIR]);
    expect(door?.sides[0]).toEqual({ roomId: 'hall', from: { xM: 1.5, yM: 2 }, to: { xM: 0.5, yM: 2 } });
    expect(door?.sides[1]).toEqual({ roomId: 'den', from: { xM: 1.5, yM: 0 }, to: { xM: 0.5, yM: 0 } });
  });

  it('are left out when a room or an opening is gone, and within one room', () => {
    expect(openDoorways([hall], [PAIR])).toEqual([]);
    expect(openDoorways([hall, den], [{ ...PAIR, toOpeningId: 'gone' }])).toEqual([]);
    expect(openDoorways([hall, den], [{ ...PAIR, toRoomId: 'hall', toOpeningId: 'to the den' }])).toEqual([]);
  });
});

describe('a wet edge through a doorway', () => {
  const DEPTH = 0.01;
  const M3_A_MIN = 0.01;
  const pourPlan = { laneWidthM: 2, angleDeg: 0, wayOutId: null, joints: [] };
  const laid = (rooms: readonly (typeof hall)[], isOpen: boolean) => {
    const pourRooms = rooms.map((r): PourRoom => ({ ...r, name: r.roomId, pourPlan, depth: DEPTH }));
    const layout = planPour(pourRooms, {
      pattern: 'one-way',
      bagYieldM3: 0.02,
      bagsPerBatch: 1,
      doorways: isOpen ? openDoorways(rooms, [PAIR]) : [],
    });
    if (!layout.ok) throw new Error(layout.problem.kind);
    return joinAges(layout.value.joins, steadyLaying(layout.value.batches, M3_A_MIN)).filter((a) => a.join.kind === 'doorway');
  };

  it('is as old as the time between the two rooms passing it: calculated by hand', () => {
    // Each room is one lane of 4 m by 2 m, 0.08 m³ and so 8 min, filled from the low end. The hall passes x after 2x min, the den after 8 +
    // 2x: 8 min everywhere along the doorway.
    const [age] = laid([hall, den], true);
    expect(age?.mostMin).toBeCloseTo(8, 2);
    // The rotated den fills from its other end and passes the hall's x after 8 + 2 (4 - x), so the oldest place is the jamb at x = 0.5: 8 +
    // 7 - 1 = 14 min.
    const [turned] = laid([hall, denTurned], true);
    expect(turned?.mostMin).toBeCloseTo(14, 1);
  });

  it('is none when the doorway is dammed', () => {
    expect(laid([hall, den], false)).toEqual([]);
  });

  it('has the same age whichever room is first, when both fill alike', () => {
    expect(laid([den, hall], true)[0]?.mostMin).toBeCloseTo(8, 2);
  });
});
