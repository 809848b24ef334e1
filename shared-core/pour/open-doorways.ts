/** Doorways between rooms poured together: finds openings opposite each other, through which a wet edge runs. */
import type { PourPlan } from '../book/job.ts';
import type { Plan } from '../book/plan-fields.ts';
import { placeOpening, placedOpenings, type PlacedOpening } from '../plan/openings.ts';
import { signedAreaM2 } from '../plan/polygon.ts';
import type { DoorwaySide, OpenDoorway } from './lane.ts';

export type DoorwayRoom = { readonly roomId: string; readonly plan: Pick<Plan, 'outline' | 'openings' | 'placedAt'> };
/** Two openings that form the two sides of one doorway. */
export type DoorwayPair = NonNullable<PourPlan['openDoorways']>[number];

/** Thicker than any wall with its jambs; openings farther apart are not one doorway. */
const MOST_WALL_M = 0.6;

type InHouse = { readonly x: number; readonly y: number; readonly inX: number; readonly inY: number };

/** An opening's middle and its direction into the room on the house's axes. */
function inHouse({ placedAt }: DoorwayRoom['plan'], placed: PlacedOpening): InHouse {
  const turn = (placedAt.turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const { middle, inward } = placed;
  return {
    x: placedAt.xM + middle.xM * c - middle.yM * s,
    y: placedAt.yM + middle.xM * s + middle.yM * c,
    inX: inward.x * c - inward.y * s,
    inY: inward.x * s + inward.y * c,
  };
}

/** Openings of two rooms that face each other across a wall, nearest first. */
export function facingDoorways(rooms: readonly DoorwayRoom[]): DoorwayPair[] {
  const candidates: { readonly pair: DoorwayPair; readonly offM: number }[] = [];
  rooms.forEach((a, i) => {
    for (const b of rooms.slice(i + 1)) {
      for (const p of placedOpenings(a.plan)) {
        for (const q of placedOpenings(b.plan)) {
          const [doorA, doorB] = [inHouse(a.plan, p), inHouse(b.plan, q)];
          const offM = Math.hypot(doorA.x - doorB.x, doorA.y - doorB.y);
          if (offM > MOST_WALL_M || doorA.inX * doorB.inX + doorA.inY * doorB.inY > -0.7) continue;
          candidates.push({ pair: { roomId: a.roomId, openingId: p.opening.id, toRoomId: b.roomId, toOpeningId: q.opening.id }, offM });
        }
      }
    }
  });
  return candidates.sort((a, b) => a.offM - b.offM).map(({ pair }) => pair);
}

/** The doorways of a pour that stay open, on the axes of each room; pairs with deleted rooms or openings are skipped. */
export function openDoorways(rooms: readonly DoorwayRoom[], pairs: readonly DoorwayPair[]): OpenDoorway[] {
  return pairs.flatMap((pair): OpenDoorway[] => {
    const a = sideOf(rooms, pair.roomId, pair.openingId);
    const b = sideOf(rooms, pair.toRoomId, pair.toOpeningId);
    if (a === null || b === null || pair.roomId === pair.toRoomId) return [];
    // Outlines with the same direction run along a shared wall in opposite directions.
    const doorB = a.isLeft === b.isLeft ? { ...b.side, from: b.side.to, to: b.side.from } : b.side;
    return [{ sides: [a.side, doorB] }];
  });
}

function sideOf(
  rooms: readonly DoorwayRoom[],
  roomId: string,
  openingId: string,
): { readonly side: DoorwaySide; readonly isLeft: boolean } | null {
  const room = rooms.find((r) => r.roomId === roomId);
  const opening = room?.plan.openings.find((o) => o.id === openingId);
  const placed = room === undefined || opening === undefined ? null : placeOpening(room.plan, opening);
  if (room === undefined || placed === null) return null;
  return { side: { roomId, from: placed.from, to: placed.to }, isLeft: signedAreaM2(room.plan.outline) >= 0 };
}
