/** Rooms of a house drawn together to one scale: the full plan with its notes, and the small key plan. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan } from '../book/plan-fields.ts';
import { boundsOf, isInside, type Box, type Rings, clipPolyline } from './ring-clip.ts';
import { groupMark, hatchMark, lineMark, pathMark, ringMark, stippleMark } from './ink.ts';
import { boxCorners, isInBox, reserveRings, startSheet, type LabelSheet, type TurnedBox } from './labels.ts';
import { placeBlock, type Lettering } from './lettering.ts';
import type { Drawing, Hatch, Mark } from './marks.ts';
import { dimensionChain, keyAndScale, linesOf, noteMarks, overallDimensions, type HouseNote, type HouseSheet } from './house-labels.ts';
import { openingLabels } from './plan-labels.ts';
import { openingsOnSheet, offsetRing, type OpeningOnSheet, wallMarks } from './plan-walls.ts';
import { roomiestPoint } from './region-reaching.ts';
import { stippleDots } from './stipple.ts';
import { cutNames, SANS, SANS_BOLD, SERIF_ITALIC, textWidthPx } from './type-metrics.ts';

/** `ours` poured by us, `now` in the current job, `plain` not part of our work; `covered` shows its flooring's hatch. */
export type RoomLook = 'ours' | 'now' | 'plain' | 'covered';

/** A room of the house plan. */
export interface HouseRoom {
  readonly id: string;
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings' | 'placedAt'>;
  readonly look: RoomLook;
  readonly hatch: Hatch | null;
  /** Gap between dots where poured, px; wide (8) for a pour of long ago. */
  readonly gapPx?: number;
  /** The name first (bold), then plain lines; a line that begins with an asterisk is italic. */
  readonly lines: readonly string[];
  readonly isPicked?: boolean;
  /** The placed part, where only part of the room is placed; only this part is stippled. In the room's own meters. */
  readonly placed?: readonly (readonly Point[])[];
  /** Joints between pours, in the room's own meters; dashed. */
  readonly joints?: readonly { readonly from: Point; readonly to: Point }[];
  /** Expansion joints and active cracks that go on through the flooring, in the room's own meters; heavy. */
  readonly honored?: readonly (readonly Point[])[];
  readonly label: string;
}

/** Input of `houseDrawing`; sizes in drawing units. */
export interface HouseInput extends HouseSheet {
  readonly rooms: readonly HouseRoom[];
  readonly notes: readonly HouseNote[];
  readonly hasDimensions: boolean;
  /** Writes the names of openings that lead out of the rooms drawn. */
  readonly hasOpeningNames?: boolean;
  /** In a narrow box, the house may turn a quarter where that makes it larger. */
  readonly mayTurn?: boolean;
  /** `chain` measures each room along the bottom of the house where its words fit; `overall` (the default) measures only the whole house. */
  readonly dimensions?: 'overall' | 'chain';
  readonly lengthText: (lengthM: number) => string;
}

type Placed = (xM: number, yM: number) => [number, number];

/** A room's transform in the house: rotated around its own origin, then moved. */
function placing(plan: HouseRoom['plan']): Placed {
  const turn = (plan.placedAt.turnDeg * Math.PI) / 180;
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return (x, y) => [plan.placedAt.xM + x * c - y * s, plan.placedAt.yM + x * s + y * c];
}

function housed(room: HouseRoom): { room: HouseRoom; ring: number[]; holes: number[][] } {
  const place = placing(room.plan);
  return {
    room,
    ring: room.plan.outline.flatMap((p) => place(p.xM, p.yM)),
    holes: room.plan.holes.map((h) => h.corners.flatMap((p) => place(p.xM, p.yM))),
  };
}

interface Fit {
  readonly k: number;
  readonly dx: number;
  readonly dy: number;
}

function fitted(rings: Rings, into: Box): Fit | null {
  const b = boundsOf(rings);
  if (!(b.width > 0 && b.height > 0 && into.width > 0 && into.height > 0)) return null;
  const k = Math.min(into.width / b.width, into.height / b.height);
  return { k, dx: into.x + (into.width - b.width * k) / 2 - b.x * k, dy: into.y + (into.height - b.height * k) / 2 - b.y * k };
}

function onSheet(fit: Fit, ring: readonly number[]): number[] {
  return ring.map((v, i) => (i % 2 === 0 ? v * fit.k + fit.dx : v * fit.k + fit.dy));
}

/** A house turns upright only when it is longer than wide by at least this factor. */
const TURNS_FROM = 1.15;

function turnedRoom(room: HouseRoom): HouseRoom {
  const { xM, yM, turnDeg } = room.plan.placedAt;
  return { ...room, plan: { ...room.plan, placedAt: { xM: -yM, yM: xM, turnDeg: turnDeg + 90 } } };
}

/** Draws the house. Rooms without an outline are left out; a house without any gives an empty drawing. */
export function houseDrawing(input: HouseInput): Drawing {
  if (input.mayTurn === true) {
    const box = boundsOf(input.rooms.filter((r) => r.plan.outline.length >= 3).map((r) => housed(r).ring));
    const isWiderBox = input.widthPx > input.heightPx;
    const turns = Math.max(box.width, box.height) > TURNS_FROM * Math.min(box.width, box.height) && box.width > box.height !== isWiderBox;
    return houseDrawing({ ...input, mayTurn: false, rooms: turns ? input.rooms.map(turnedRoom) : input.rooms });
  }
  const rooms = input.rooms.filter((r) => r.plan.outline.length >= 3).map(housed);
  const isChain = input.dimensions === 'chain';
  const margin = !input.hasDimensions
    ? { left: 16, top: 16, right: 16, bottom: 16 }
    : isChain
      ? { left: 52, top: 12, right: 12, bottom: 40 }
      : { left: 34, top: 40, right: 58, bottom: 72 };
  const keyPx = input.key ? 40 : 0;
  const fit = fitted(
    rooms.map((r) => r.ring),
    {
      x: margin.left,
      y: margin.top,
      width: input.widthPx - margin.left - margin.right,
      height: input.heightPx - margin.top - margin.bottom - keyPx,
    },
  );
  const blank = { width: input.widthPx, height: input.heightPx, marks: [] };
  if (!fit) return blank;
  const marks: Mark[] = [];
  const topMarks: Mark[] = [];
  const sheet = startSheet({ x: 1, y: 1, width: input.widthPx - 2, height: input.heightPx - 2 });
  const drawn = rooms.map((r) => ({ ...r, ring: onSheet(fit, r.ring), holes: r.holes.map((h) => onSheet(fit, h)) }));
  const walls = houseWalls(
    drawn.map((r) => ({ ring: r.ring, openings: openingsOnSheet({ leftPx: 0, topPx: 0, pxPerM: 1 }, turnedPlan(r.room, fit)) })),
  );
  marks.push(...walls.under);
  reserveRings(
    sheet,
    drawn.flatMap((r) => [r.ring, ...r.holes]),
  );
  sheet.lines.push(...linesOf([...walls.under, ...walls.over]));
  for (const r of drawn) sheet.lines.push(...jointLines(r.room, fit), ...honoredLines(r.room, fit));
  // Notes reserve their places first, because a note must be at the place it is about.
  for (const note of input.notes) {
    const room = input.rooms.find((r) => r.id === note.roomId);
    if (!room) continue;
    const [hx, hy] = placing(room.plan)(note.xM, note.yM);
    topMarks.push(...noteMarks(note, hx * fit.k + fit.dx, hy * fit.k + fit.dy, sheet));
  }
  for (const r of drawn) {
    const area: Rings = [r.ring, ...r.holes];
    const names = nameIn(r.room, area, sheet);
    const clear = names.boxes;
    const inside: Mark[] = [];
    if (r.room.look === 'ours')
      inside.push(
        stippleMark(
          stippleDots({
            rings: r.room.placed === undefined ? area : placedLines(r.room, fit, r.room.placed),
            gapAt: () => r.room.gapPx ?? 8,
            isKeptClear: (x, y) => clear.some((b) => isInBox(x, y, b, 1)),
          }),
        ),
      );
    const hatch = r.room.look === 'now' ? 'wide' : r.room.look === 'covered' ? r.room.hatch : null;
    if (hatch) inside.push(hatchMark([...area, ...clear.map(boxCorners).filter((c) => isWithin(c, area))], hatch));
    if (r.room.look === 'now' || r.room.isPicked === true) inside.push(ringMark(r.ring, { pen: 'cut' }));
    for (const line of jointLines(r.room, fit)) inside.push(lineMark(line, { pen: 'seen', dash: 'not-yet' }));
    for (const line of honoredLines(r.room, fit)) inside.push(lineMark(line, { pen: 'cut' }));
    for (const h of r.holes) inside.push(ringMark(h, { pen: 'seen', fill: 'paper' }));
    marks.push(groupMark(`room:${r.room.id}`, r.room.label, [...inside, ...names.marks]));
  }
  marks.push(...walls.over);
  const b = boundsOf(drawn.map((r) => r.ring));
  if (input.hasDimensions)
    marks.push(...(isChain ? dimensionChain : overallDimensions)(drawn, b, (px) => input.lengthText(px / fit.k), sheet));
  marks.push(...keyAndScale(input, fit.k, margin, sheet));
  if (input.hasOpeningNames === true) {
    const openingWords = ({ name }: Opening): string[] => (name.trim() === '' ? [] : [name.trim()]);
    const outlines = drawn.map((r) => r.ring);
    marks.push(...openingLabels({ openingWords, hasDimensions: input.hasDimensions }, walls.outside, sheet, outlines));
  }
  return { width: input.widthPx, height: input.heightPx, marks: [...marks, ...topMarks] };
}

/** Lines or rings of a room, converted to the drawing. */
function placedLines(room: HouseRoom, fit: Fit, lines: readonly (readonly Point[])[]): number[][] {
  const place = placing(room.plan);
  return lines.map((line) =>
    onSheet(
      fit,
      line.flatMap((p) => place(p.xM, p.yM)),
    ),
  );
}
const jointLines = (room: HouseRoom, fit: Fit): number[][] =>
  placedLines(
    room,
    fit,
    (room.joints ?? []).map(({ from, to }) => [from, to]),
  );
const honoredLines = (room: HouseRoom, fit: Fit): number[][] => placedLines(room, fit, room.honored ?? []);

function isWithin(corners: readonly number[], area: Rings): boolean {
  return corners.every((v, i) => i % 2 === 1 || isInside(v, corners[i + 1] ?? 0, area));
}

/** The plan with its outline converted to the drawing; openings keep their position as a share of the wall. */
function turnedPlan(room: HouseRoom, fit: Fit): Pick<Plan, 'outline' | 'openings'> {
  const place = placing(room.plan);
  return {
    outline: room.plan.outline.map((p) => {
      const [x, y] = place(p.xM, p.yM);
      return { xM: x * fit.k + fit.dx, yM: y * fit.k + fit.dy };
    }),
    openings: room.plan.openings.map((o) => ({ ...o, fromM: o.fromM * fit.k, widthM: o.widthM * fit.k })),
  };
}

/** Places of a room's name around the middle of its largest clear part, px. */
const NAME_ASIDE_PX = [
  [0, 0],
  [0, -30],
  [0, 30],
  [-30, 0],
  [30, 0],
  [0, -60],
  [0, 60],
] as const;

function nameIn(room: HouseRoom, area: Rings, sheet: LabelSheet): { marks: Mark[]; boxes: TurnedBox[] } {
  if (room.lines.length === 0) return { marks: [], boxes: [] };
  const roomiest = roomiestPoint(area, (x, y) => isInside(x, y, area));
  const b = boundsOf(area);
  const faces = room.lines.map((line, i) => (i === 0 ? SANS_BOLD : line.startsWith('*') ? SERIF_ITALIC : SANS));
  const texts = room.lines.map((line) => (line.startsWith('*') ? line.slice(1) : line));
  const widest = Math.max(...texts.map((t, i) => textWidthPx(t, 15, faces[i] ?? SANS)));
  const turn = widest > b.width - 10 && b.height > b.width ? -90 : 0;
  const rad = (turn * Math.PI) / 180;
  const [name = ''] = texts;
  const shortened = cutNames(name, [turn === 0 ? b.width : b.height, 2 * roomiest.clear]);
  // A room too small for all its lines drops those in the middle: its name and the last line matter most. A name too long is cut.
  const counts = texts.slice(1).map((_, dropped) => texts.length - dropped);
  const names = [name, ...shortened];
  const trials = [...names.flatMap((shown) => counts.map((count) => ({ shown, count }))), ...names.map((shown) => ({ shown, count: 1 }))];
  const blocks = trials.flatMap(({ shown, count }) => {
    const kept = [0, ...texts.keys()].filter((k, i) => i === 0 || k > texts.length - count);
    return NAME_ASIDE_PX.map(([dx, dy]) =>
      kept.slice(0, count).map((line, i): Lettering => {
        const offsetPx = 5 - ((count - 1) * 19) / 2 + i * 19;
        const face = faces[line] ?? SANS;
        return {
          x: roomiest.x + dx - Math.sin(rad) * offsetPx,
          y: roomiest.y + dy + Math.cos(rad) * offsetPx,
          text: line === 0 ? shown : (texts[line] ?? ''),
          anchor: 'middle',
          face,
          turnDeg: turn,
          ...(face === SERIF_ITALIC ? { ink: 'ink2' } : {}),
        };
      }),
    );
  });
  const before = sheet.taken.length;
  const marks = placeBlock(sheet, blocks, (box) => isWithin(boxCorners(box), area)) ?? [];
  return { marks, boxes: sheet.taken.slice(before) };
}

/** The key plan: rooms of the job, small, the selected one hatched with a heavy outline, and the section's cut if any. */
export function keyPlan(
  rooms: readonly Pick<HouseRoom, 'id' | 'plan' | 'isPicked' | 'label'>[],
  widthPx: number,
  heightPx: number,
  cut: readonly { readonly xM: number; readonly yM: number }[] = [],
): Drawing {
  const housedRooms = rooms.filter((r) => r.plan.outline.length >= 3).map((r) => housed({ ...r, look: 'plain', hatch: null, lines: [] }));
  const fit = fitted(
    housedRooms.map((r) => r.ring),
    { x: 3, y: 3, width: widthPx - 6, height: heightPx - 6 },
  );
  if (!fit) return { width: widthPx, height: heightPx, marks: [] };
  const marks: Mark[] = [...housedRooms]
    .sort((p, q) => Number(p.room.isPicked ?? false) - Number(q.room.isPicked ?? false))
    .map((r) => {
      const ring = onSheet(fit, r.ring);
      return groupMark(
        `room:${r.room.id}`,
        r.room.label,
        r.room.isPicked === true
          ? [hatchMark([ring], 'wall'), pathMark([ring], true, { pen: 'seen' })]
          : [ringMark(ring, { pen: 'thin', ink: 'ink2' })],
      );
    });
  const picked = housedRooms.find((r) => r.room.isPicked === true);
  if (cut.length >= 2 && picked) {
    const place = placing(picked.room.plan);
    marks.push(
      lineMark(
        onSheet(
          fit,
          cut.flatMap((p) => place(p.xM, p.yM)),
        ),
        { pen: 'thin', dash: 'cut' },
      ),
    );
  }
  return { width: widthPx, height: heightPx, marks };
}

const WALL_PX = 9;
/** How far beyond a wall's face to look for the next room, px: more than the width of the wall drawn between two rooms. */
const NEXT_ROOM_PX = 6;

/** A room's outline and openings on the drawing. */
interface WalledRoom {
  readonly ring: readonly number[];
  readonly openings: readonly OpeningOnSheet[];
}

/** Marks under every room, each room's walls over its own floor and its neighbors' floors, and the openings that lead to no other room. */
function houseWalls(rooms: readonly WalledRoom[]): { readonly under: Mark[]; readonly over: Mark[]; readonly outside: OpeningOnSheet[] } {
  const under: Mark[] = [];
  const faces: Mark[] = [];
  const doors: Mark[] = [];
  const outside: OpeningOnSheet[] = [];
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
      const leadsOut = !isShared(o);
      if (leadsOut) outside.push(o);
      const parts = [
        lineMark(line, { pen: 'pour', ink: 'paper' }),
        ...(leadsOut
          ? [
              lineMark([o.x0, o.y0, o.x0 + o.nx * WALL_PX, o.y0 + o.ny * WALL_PX], { pen: 'seen' }),
              lineMark([o.x1, o.y1, o.x1 + o.nx * WALL_PX, o.y1 + o.ny * WALL_PX], { pen: 'seen' }),
            ]
          : []),
        lineMark(line, { pen: 'thin', dash: 'not-yet' }),
      ];
      doors.push(groupMark(`opening:${o.opening.id}`, '', parts));
    }
  });
  under.push(...rooms.map((room) => ringMark(room.ring, { pen: null, fill: 'paper' })));
  return { under, over: [...faces, ...doors], outside };
}
