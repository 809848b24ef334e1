/** Positions of the access notes' letters, stored in the property's coordinates and drawn in a room's, m. */
import type { Point } from '../../shared-core/book/fields.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { isInside } from '../../shared-core/drawing/ring-clip.ts';
import type { HouseNote } from '../../shared-core/drawing/house-labels.ts';

/** Distance of a letter from its corner, m. */
const FROM_CORNER_M = 0.6;
/** Minimum distance between two letters, m. */
const APART_M = 0.9;

const turnOf = (room: Room): { cos: number; sin: number } => {
  const rad = (room.plan.placedAt.turnDeg * Math.PI) / 180;
  return { cos: Math.cos(rad), sin: Math.sin(rad) };
};

/** Converts a room's point to the property's coordinates. */
function inHouse(room: Room, { xM, yM }: Point): Point {
  const { cos, sin } = turnOf(room);
  const { placedAt } = room.plan;
  return { xM: placedAt.xM + xM * cos - yM * sin, yM: placedAt.yM + xM * sin + yM * cos };
}

/** Converts a property's point to a room's coordinates. */
function inRoom(room: Room, point: Point): Point {
  const { cos, sin } = turnOf(room);
  const [x, y] = [point.xM - room.plan.placedAt.xM, point.yM - room.plan.placedAt.yM];
  return { xM: x * cos + y * sin, yM: y * cos - x * sin };
}

const holds = (room: Room, own: Point): boolean =>
  isInside(own.xM, own.yM, [
    room.plan.outline.flatMap((p) => [p.xM, p.yM]),
    ...room.plan.holes.map((h) => h.corners.flatMap((p) => [p.xM, p.yM])),
  ]);

export function roomAt(rooms: readonly Room[], point: Point | null): Room | null {
  return point === null ? null : (rooms.find((room) => room.plan.outline.length >= 3 && holds(room, inRoom(room, point))) ?? null);
}

/** A free place for a letter in a corner of a room, in the property's coordinates; null while the room is not drawn. */
export function letterPlace(room: Room, occupied: readonly Point[]): Point | null {
  const { outline } = room.plan;
  const places = outline.flatMap((corner, i): Point[] => {
    const [before, after] = [outline[(i + outline.length - 1) % outline.length], outline[(i + 1) % outline.length]];
    if (before === undefined || after === undefined) return [];
    const [a, b] = [along(corner, before), along(corner, after)];
    const own = { xM: corner.xM + a.xM + b.xM, yM: corner.yM + a.yM + b.yM };
    return holds(room, own) ? [inHouse(room, own)] : [];
  });
  const isFree = (place: Point): boolean => occupied.every((t) => Math.hypot(t.xM - place.xM, t.yM - place.yM) > APART_M);
  return places.find(isFree) ?? places[0] ?? null;
}

/** Along the wall by the letter's distance, or half the wall if that is less. */
function along(from: Point, to: Point): Point {
  const length = Math.hypot(to.xM - from.xM, to.yM - from.yM);
  const share = length === 0 ? 0 : Math.min(0.5, FROM_CORNER_M / length);
  return { xM: (to.xM - from.xM) * share, yM: (to.yM - from.yM) * share };
}

export function letterNotes(property: Property, rooms: readonly Room[]): HouseNote[] {
  return property.access.flatMap((note, i): HouseNote[] => {
    const room = note.letter === '' ? null : roomAt(rooms, note.point);
    if (room === null || note.point === null) return [];
    return [{ id: `access-${i}`, roomId: room.id, ...inRoom(room, note.point), letter: note.letter, text: '' }];
  });
}

/** Moves the letters in a room along with it. */
export function movedLetters(property: Property, room: Room, placedAt: Room['plan']['placedAt']): Property {
  const moved = { ...room, plan: { ...room.plan, placedAt } };
  return {
    ...property,
    access: property.access.map((note) =>
      note.point === null || roomAt([room], note.point) === null ? note : { ...note, point: inHouse(moved, inRoom(room, note.point)) },
    ),
  };
}
