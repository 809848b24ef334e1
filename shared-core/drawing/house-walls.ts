/** Walls of several rooms drawn together: one band around the house, one heavy line between adjoining rooms, and open doorways between them. */
import { clipPolyline, isInside } from './ring-clip.ts';
import { groupMark, lineMark, ringMark } from './ink.ts';
import type { Mark } from './marks.ts';
import { offsetRing, type OpeningOnSheet, wallMarks } from './plan-walls.ts';

const WALL_PX = 9;
/** How far beyond a wall's face to look for the next room, px: more than the width of the wall drawn between two rooms. */
const NEXT_ROOM_PX = 6;

/** A room's outline and openings on the drawing. */
export interface WalledRoom {
  readonly ring: readonly number[];
  readonly openings: readonly OpeningOnSheet[];
}

/** Marks to draw under every room, and each room's walls to draw over its own floor and its neighbors' floors. */
export function houseWalls(rooms: readonly WalledRoom[]): { readonly under: Mark[]; readonly over: Mark[] } {
  const under: Mark[] = [];
  const faces: Mark[] = [];
  const doors: Mark[] = [];
  rooms.forEach((room, i) => {
    const others = rooms.filter((_, k) => k !== i);
    const isShared = (o: OpeningOnSheet): boolean => {
      const x = (o.x0 + o.x1) / 2 + o.nx * NEXT_ROOM_PX;
      const y = (o.y0 + o.y1) / 2 + o.ny * NEXT_ROOM_PX;
      return others.some((other) => isInside(x, y, [other.ring]));
    };
    const options = { wallPx: WALL_PX, beyondPx: 0, hatchBeyond: () => null, edges: false } as const;
    for (const mark of wallMarks(room.ring, room.openings, options)) {
      if (mark.kind === 'hatch') under.push(mark);
      else if (mark.kind === 'path' && mark.pen === 'witness') {
        // The line between two overlapping bands is not a wall.
        const wallPieces = others.reduce<readonly (readonly number[])[]>(
          (lines, other) => lines.flatMap((xy) => clipPolyline(xy, [offsetRing(other.ring, WALL_PX - 0.5)], 'outside')),
          mark.rings.map((ring) => ring.xy),
        );
        under.push(...wallPieces.map((xy) => lineMark(xy, { pen: 'witness' })));
      } else if (mark.kind === 'path') faces.push(mark);
    }
    for (const o of room.openings) {
      const line = [o.x0, o.y0, o.x1, o.y1];
      const parts = [
        lineMark(line, { pen: 'pour', ink: 'paper' }),
        ...(isShared(o)
          ? []
          : [
              lineMark([o.x0, o.y0, o.x0 + o.nx * WALL_PX, o.y0 + o.ny * WALL_PX], { pen: 'seen' }),
              lineMark([o.x1, o.y1, o.x1 + o.nx * WALL_PX, o.y1 + o.ny * WALL_PX], { pen: 'seen' }),
            ]),
        lineMark(line, { pen: 'thin', dash: 'not-yet' }),
      ];
      doors.push(groupMark(`opening:${o.opening.id}`, '', parts));
    }
  });
  under.push(...rooms.map((room) => ringMark(room.ring, { pen: null, fill: 'paper' })));
  return { under, over: [...faces, ...doors] };
}
