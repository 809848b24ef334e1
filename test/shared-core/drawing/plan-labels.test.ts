/** Labels of a plan do not overlap each other or a line, and stay on the drawing, over generated rooms, sizes and sets of labels. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Mark as FloorMark, Opening } from '../../../shared-core/book/plan-fields.ts';
import { floorField } from '../../../shared-core/drawing/floor-field.ts';
import { planDrawing, type PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import type { PlanInput, PlanSpot } from '../../../shared-core/drawing/plan-input.ts';
import { ringOnSheet } from '../../../shared-core/drawing/plan-walls.ts';
import { checkLabels, pathsOf, textsOf } from './check-labels.ts';
import { IN, lengthText } from './sample-room.ts';
import { opening } from '../plan/rooms.ts';

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const polygon = (corners: readonly (readonly [number, number])[]): Point[] => corners.map(([xM, yM]) => ({ xM, yM }));

/** Rectangles, Ls and rooms with a notch and a cut-off corner, m. */
const outlines: fc.Arbitrary<Point[]> = fc
  .record({
    w: share(0.8, 14),
    h: share(0.8, 14),
    u: share(0.2, 0.7),
    v: share(0.2, 0.7),
    kind: fc.constantFrom('rectangle', 'L', 'notched'),
  })
  .map(({ w, h, u, v, kind }) =>
    polygon(
      kind === 'rectangle'
        ? [
            [0, 0],
            [w, 0],
            [w, h],
            [0, h],
          ]
        : kind === 'L'
          ? [
              [0, 0],
              [w * u, 0],
              [w * u, h * v],
              [w, h * v],
              [w, h],
              [0, h],
            ]
          : [
              [0, h * 0.2],
              [w * 0.15, 0],
              [w * u, 0],
              [w * u, h * 0.25 * v],
              [w * (u + 0.15), h * 0.25 * v],
              [w * (u + 0.15), 0],
              [w, 0],
              [w, h],
              [0, h],
            ],
    ),
  );
const places = fc.array(fc.tuple(share(0.02, 0.98), share(0.02, 0.98)), { maxLength: 60 });
const OPENING_WORDS = [['Kitchen, tile, ⅜″ down', 'feather'], ['Dining room'], ['Front door sill,', '⅞″ up: dam'], []] as const;

const rooms = fc.record({
  outline: outlines,
  size: fc.constantFrom([860, 560], [620, 480], [420, 320], [354, 300], [330, 520]),
  shows: fc.constantFrom<PlanInput['shows'][]>('depth', 'height', 'read', 'prep', 'cure'),
  spots: places,
  bump: fc.tuple(share(0, 1), share(0, 1), share(-0.03, 0.03), share(0.5, 3)),
  openings: fc.array(fc.record({ wall: fc.nat(8), from: share(0, 0.7), width: share(0.6, 1.2), words: fc.nat(3) }), { maxLength: 4 }),
  notes: fc.array(fc.tuple(share(0.05, 0.95), share(0.05, 0.95), fc.constantFrom('', 'crack', 'grind', 'cold joint')), { maxLength: 8 }),
  cracks: fc.array(fc.tuple(share(0.05, 0.95), share(0.05, 0.95), share(0.05, 0.95), share(0.05, 0.95)), { maxLength: 3 }),
  names: fc.constantFrom<readonly string[]>([], ['Hall'], ['Lower back entry', 'open to foot traffic May 28']),
  hasSection: fc.boolean(),
  hasTitle: fc.boolean(),
  isGround: fc.boolean(),
  hasDimensions: fc.boolean(),
});
type GeneratedRoom = typeof rooms extends fc.Arbitrary<infer R> ? R : never;

function planOf(room: GeneratedRoom): PlanInput {
  const { outline, shows, bump } = room;
  const w = Math.max(...outline.map((p) => p.xM));
  const h = Math.max(...outline.map((p) => p.yM));
  const [width = 0, height = 0] = room.size;
  const [bx, by, high, wide] = bump;
  const heightAt = (x: number, y: number): number =>
    0.004 * x + high * Math.exp(-(((x - bx * w) / wide) ** 2) - ((y - by * h) / wide) ** 2);
  const openings = room.openings
    .filter((o) => o.wall < outline.length)
    .map((o, i): Opening => {
      const a = outline[o.wall];
      const b = outline[(o.wall + 1) % outline.length];
      const long = Math.hypot((b?.xM ?? 0) - (a?.xM ?? 0), (b?.yM ?? 0) - (a?.yM ?? 0));
      return opening({
        id: `${i}-${o.words}`,
        wall: o.wall,
        fromM: o.from * long,
        widthM: Math.min(o.width, long * 0.3),
        name: '',
        adjoiningM: 0,
        edge: i % 2 === 0 ? 'dam' : 'feather',
      });
    });
  const level = 0.02;
  return {
    plan: { outline, holes: [], openings },
    widthPx: width,
    heightPx: height,
    shows,
    lengthText,
    floor: floorField(outline, heightAt, 0, 1500),
    newFloor: level,
    grindToM: room.isGround ? 0.012 : null,
    ...(room.isGround ? { grindNote: 'Grind first: ⅜″ off the top, 8 sq ft' } : {}),
    spots: room.spots.map(
      ([u, v], i): PlanSpot => ({ id: String(i), xM: u * w, yM: v * h, text: i % 3 === 0 ? '½' : '1 15⁄16', label: '' }),
    ),
    contours: { everyM: 0.25 * IN, heavyEveryM: IN, text: (m) => String(Math.round(m / IN / 0.25) / 4) },
    openingWords: (o) => OPENING_WORDS[Number(o.id.split('-')[1])] ?? [],
    hatchBeyond: (o) => (o.id.endsWith('1') ? 'tile' : null),
    hasDimensions: room.hasDimensions,
    mayTurn: width < 480,
    ...(room.hasTitle ? { title: { text: 'Hall: pour depth', caption: '30 readings with the laser on May 6.' }, hasKey: true } : {}),
    scale: { lengthM: 1.524, text: '5 ft' },
    ...(room.hasSection
      ? {
          section: {
            letter: 'A',
            points: [
              { xM: 0, yM: h * 0.8 },
              { xM: w, yM: h * 0.8 },
            ],
          },
        }
      : {}),
    ...(shows === 'cure' ? { names: room.names, pouredGapPx: 6 } : {}),
    ...(shows === 'prep'
      ? {
          notes: room.notes.map(([u, v, text], i) => ({ id: String(i), figure: String(i + 1), text, point: { xM: u * w, yM: v * h } })),
          floorMarks: room.cracks.map(
            ([u0, v0, u1, v1], i): FloorMark =>
              ({
                id: String(i),
                kind: 'crack',
                shape: 'line',
                points: [
                  { xM: u0 * w, yM: v0 * h },
                  { xM: u1 * w, yM: v1 * h },
                ],
                widthM: null,
                moves: 'still',
                note: '',
              }) as unknown as FloorMark,
          ),
          hasPerimeterStrip: true,
        }
      : {}),
  };
}

/** A rectangle cut into lanes and batches, some of them slivers. */
const pours = fc.record({
  w: share(2, 12),
  h: share(2, 9),
  size: fc.constantFrom([860, 560], [420, 320], [330, 420]),
  lanes: fc.array(share(0.04, 1), { minLength: 1, maxLength: 6 }),
  batches: fc.array(share(0.04, 1), { minLength: 1, maxLength: 6 }),
  placed: fc.nat(8),
  isPourMode: fc.boolean(),
  hasEdges: fc.boolean(),
});

function pourOf(pour: typeof pours extends fc.Arbitrary<infer R> ? R : never): PlanInput {
  const { w, h } = pour;
  const [widthPx = 0, heightPx = 0] = pour.size;
  const spans = (parts: readonly number[], long: number): [number, number][] => {
    const whole = parts.reduce((sum, p) => sum + p, 0);
    let from = 0;
    return parts.map((p) => [from, (from += (p / whole) * long)]);
  };
  const ring = (x0: number, y0: number, x1: number, y1: number): Point[] =>
    polygon([
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ]);
  const lanes = spans(pour.lanes, h);
  const batches = lanes.flatMap(([y0, y1]) => spans(pour.batches, w).map(([x0, x1]) => ring(x0, y0, x1, y1)));
  const edges = lanes.slice(1).map(
    ([y]) =>
      [
        { xM: 0, yM: y },
        { xM: w, yM: y },
      ] as const,
  );
  return {
    plan: { outline: ring(0, 0, w, h), holes: [], openings: [] },
    widthPx,
    heightPx,
    shows: 'lanes',
    lengthText,
    hasDimensions: !pour.isPourMode,
    marginPx: { left: 60, top: 60, right: 60, bottom: 60 },
    pour: {
      lanes: lanes.map(([y0, y1], i) => ({ id: String(i), corners: ring(0, y0, w, y1), text: `lane ${i + 1}` })),
      batches: batches.map((corners, i) => ({
        id: String(i),
        text: String(i + 1),
        corners,
        state: i < pour.placed ? 'placed' : i === pour.placed ? 'next' : 'ahead',
        gapPx: 6,
      })),
      wetEdges: pour.hasEdges ? [] : edges.slice(0, 1),
      isPourMode: pour.isPourMode,
      ...(pour.hasEdges
        ? {
            figures: edges.map(([a, b], i) => ({
              id: String(i),
              label: '',
              point: { xM: (a.xM + b.xM) / 2, yM: a.yM },
              text: '18 min',
              isCold: i === 1,
            })),
            // Three of them along one edge, and three that are only points of it.
            watched: edges
              .slice(0, 1)
              .flatMap(([a, b]) =>
                [...'ABCDEF'].map((letter) => ({ id: letter, letter, line: [letter < 'D' ? a : b, b] as const, point: b })),
              ),
          }
        : {}),
    },
  };
}

const wallsOf = (drawing: PlanDrawing, outline: readonly Point[]): number[][] =>
  drawing.fit === null ? [] : [ringOnSheet(drawing.fit, outline)];

describe('the labels of a plan', () => {
  it('overlap no other label and no line, cross no wall and stay on the drawing', () => {
    fc.assert(
      fc.property(rooms, (room) => {
        const drawing = planDrawing(planOf(room));
        checkLabels(drawing, wallsOf(drawing, room.outline));
      }),
      { numRuns: 100 },
    );
  });

  it('put every reading on one side of its cross, or leave out cross and figure', () => {
    fc.assert(
      fc.property(rooms, (room) => {
        const drawing = planDrawing(planOf(room));
        const offsets = drawing.marks.flatMap((mark) => {
          if (mark.kind !== 'group' || !mark.name.startsWith('reading:')) return [];
          const cross = mark.marks.find((m) => m.kind === 'path');
          const figure = mark.marks.find((m) => m.kind === 'text');
          expect(cross?.kind, 'a cross').toBe('path');
          expect(figure?.kind, 'a figure').toBe('text');
          if (cross?.kind !== 'path' || figure?.kind !== 'text') return [];
          const xs = cross.rings.flatMap(({ xy }) => xy.filter((_, i) => i % 2 === 0));
          const ys = cross.rings.flatMap(({ xy }) => xy.filter((_, i) => i % 2 === 1));
          const x = (Math.min(...xs) + Math.max(...xs)) / 2;
          const y = (Math.min(...ys) + Math.max(...ys)) / 2;
          return [`${figure.anchor} ${Math.round(figure.x - x)} ${Math.round(figure.y - y)}`];
        });
        expect(new Set(offsets).size).toBeLessThanOrEqual(1);
      }),
      { numRuns: 60 },
    );
  });

  it('of a pour are separate too, with leaders that do not cross', () => {
    fc.assert(
      fc.property(pours, (pour) => {
        const input = pourOf(pour);
        const drawing = planDrawing(input);
        checkLabels(drawing, wallsOf(drawing, input.plan.outline));
        const letters = textsOf(drawing).flatMap(({ mark, group }) => (group.startsWith('watch:') ? [mark.text] : []));
        expect(letters).toEqual((input.pour?.watched ?? []).map(({ letter }) => letter));
        const leaders = pathsOf(drawing).flatMap(({ mark, group }) => (group.startsWith('beside:') ? mark.rings.map(({ xy }) => xy) : []));
        for (const [i, [ax = 0, ay = 0, bx = 0, by = 0]] of leaders.entries())
          for (const [cx = 0, cy = 0, dx = 0, dy = 0] of leaders.slice(0, i)) {
            const den = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx);
            const t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / den;
            const u = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / den;
            expect(den !== 0 && t > 0 && t < 1 && u > 0 && u < 1, 'two leaders cross').toBe(false);
          }
      }),
      { numRuns: 40 },
    );
  });
});
