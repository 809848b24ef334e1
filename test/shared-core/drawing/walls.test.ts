/** Plans to scale, their walls and the dots of new underlayment: positions by hand, spacing by the statistics of point patterns. */
import { describe, expect, it } from 'vitest';
import type { Opening } from '../../../shared-core/book/plan-fields.ts';
import { depthKey, keyHeightPx, planKey } from '../../../shared-core/drawing/plan-key.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import {
  coverBoxes,
  fitPlan,
  offsetRing,
  openingsOnSheet,
  perimeterStrip,
  ringOnSheet,
  toRoom,
  toSheet,
  wallMarks,
} from '../../../shared-core/drawing/plan-walls.ts';
import { boundsOf, clipPolyline, distanceToEdge, isInside, lineFamily, ringArea } from '../../../shared-core/drawing/ring-clip.ts';
import { dotsForGap, gapForDepthPx, gapForDryingPx, stippleDots } from '../../../shared-core/drawing/stipple.ts';
import { TILE_PX } from '../../../shared-core/drawing/stipple-cells.ts';
import { floorField } from '../../../shared-core/drawing/floor-field.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { markWords } from './mark-words.ts';
import { hall, hallInput, IN } from './sample-room.ts';

const points = (...xy: (readonly [number, number])[]) => xy.map(([xM, yM]) => ({ xM, yM }));
const ROOM = points([0, 0], [4, 0], [4, 3], [0, 3]);
const SQUARE = [0, 0, 100, 0, 100, 60, 0, 60];
const L_SHAPE = [0, 0, 100, 0, 100, 40, 40, 40, 40, 100, 0, 100];
const door = (rest: Partial<Opening> = {}): Opening => ({
  id: 'door',
  kind: 'doorway',
  wall: 0,
  fromM: 1,
  widthM: 1,
  name: 'Entry',
  adjoiningM: 0,
  adjoiningFlooring: '',
  edge: 'dam',
  isWayOut: false,
  ...rest,
});

describe('a plan to scale', () => {
  it('fits its box, in the middle or at its start', () => {
    // 4 by 3 m into 500 by 300 px: 100 px a meter, 100 px to spare across.
    const box = { x: 10, y: 20, width: 500, height: 300 };
    expect(fitPlan(ROOM, box)).toEqual({ leftPx: 60, topPx: 20, pxPerM: 100 });
    expect(fitPlan(ROOM, box, 'start')).toEqual({ leftPx: 10, topPx: 20, pxPerM: 100 });
    expect(fitPlan(ROOM, { ...box, width: 200 })).toEqual({ leftPx: 10, topPx: 95, pxPerM: 50 });
    expect(fitPlan(points([1, 1], [5, 1], [5, 4], [1, 4]), box)).toEqual({ leftPx: -40, topPx: -80, pxPerM: 100 });
    for (const none of [ROOM.slice(0, 2), points([0, 0], [4, 0], [2, 0])]) expect(fitPlan(none, box)).toBeNull();
    expect(fitPlan(ROOM, { ...box, width: 0 })).toBeNull();
  });

  it('turns a quarter clockwise, and back for a click', () => {
    // 3 by 4 m once turned; its left edge is the far wall.
    const fit = fitPlan(ROOM, { x: 0, y: 0, width: 300, height: 400 }, 'middle', true);
    if (fit === null) throw new Error('it fits');
    expect(fit).toEqual({ leftPx: 300, topPx: 0, pxPerM: 100, isUpright: true });
    expect(toSheet(fit, { xM: 1, yM: 2 })).toEqual([100, 100]);
    expect(toRoom(fit, 100, 100)).toEqual({ xM: 1, yM: 2 });
    expect(ringOnSheet({ leftPx: 5, topPx: 6, pxPerM: 10 }, ROOM)).toEqual([5, 6, 45, 6, 45, 36, 5, 36]);
    expect(toRoom({ leftPx: 5, topPx: 6, pxPerM: 10 }, 25, 16)).toEqual({ xM: 2, yM: 1 });
  });

  it('has walls the same distance out on every side, whichever way its corners run', () => {
    expect(offsetRing(SQUARE, 8)).toEqual([-8, -8, 108, -8, 108, 68, -8, 68]);
    expect(offsetRing(SQUARE, -8)).toEqual([8, 8, 92, 8, 92, 52, 8, 52]);
    expect(offsetRing([0, 60, 100, 60, 100, 0, 0, 0], 8)).toEqual([-8, 68, 108, 68, 108, -8, -8, -8]);
    expect(offsetRing(L_SHAPE, 5)).toEqual([-5, -5, 105, -5, 105, 45, 45, 45, 45, 105, -5, 105]);
    // At 60 degrees, as in an equilateral triangle, a mitered corner is twice the offset away.
    const triangle = [0, 0, 100, 0, 50, 50 * Math.sqrt(3)];
    expect(Math.hypot(...(offsetRing(triangle, 6).slice(0, 2) as [number, number]))).toBeCloseTo(12, 6);
  });

  it('leaves its openings out of the walls, with a dam, wedges or a line', () => {
    const fit = { leftPx: 0, topPx: 0, pxPerM: 100 };
    const ring = ringOnSheet(fit, ROOM);
    const walls = (opening: Opening, options: { edges?: boolean; isLine?: boolean } = {}) => {
      const openings = openingsOnSheet(fit, { outline: ROOM, openings: [opening] });
      return markWords(wallMarks(ring, openings, { wallPx: 10, beyondPx: 20, hatchBeyond: () => 'tile', edges: true, ...options }));
    };
    const dammed = walls(door());
    expect(dammed[0]).toBe('hatch wall -10,-10 410,-10 410,310 -10,310 / 0,0 400,0 400,300 0,300 / 100,0 200,0 200,-10 100,-10');
    // Outer and inner face, from one side of the doorway round to the other.
    expect(dammed.slice(1, 3)).toEqual([
      'line 200,-10 410,-10 410,310 -10,310 -10,-10 100,-10',
      'line 200,0 400,0 400,300 0,300 0,0 100,0',
    ]);
    expect(dammed.slice(3)).toEqual([
      'hatch tile 100,-6 200,-6 200,-30 100,-30',
      'line 100,0 100,-10 / 200,0 200,-10',
      'filled 100,0.3 200,0.3 200,-5.2 100,-5.2',
    ]);
    const feathered = walls(door({ edge: 'feather' }));
    expect(feathered[3]).toBe('hatch tile 100,-10 200,-10 200,-30 100,-30');
    expect(feathered[5]).toBe('line 100,0 200,0');
    // Eight wedges over 100 px, 7 px long.
    expect(feathered[6]?.split(' / ')).toHaveLength(8);
    expect(feathered[6]).toMatch(/^filled 102\.7,0 109\.9,0 106\.3,-7 /);
    // A pour that stops at its full depth is held by a dam.
    expect(walls(door({ edge: 'stop' }))).toEqual(dammed);
    expect(walls(door(), { edges: false }).slice(5)).toEqual(['not-yet 100,0 200,0']);
    expect(walls(door(), { isLine: true })).toEqual(['line 200,0 400,0 400,300 0,300 0,0 100,0', 'not-yet 100,0 200,0']);
    // An opening at a corner is trimmed to its wall; one on a wall that is gone is left out.
    expect(walls(door({ fromM: 3.5 })).at(-1)).toBe('filled 350,0.3 400,0.3 400,-5.2 350,-5.2');
    expect(walls(door({ wall: 9 }))).toHaveLength(3);
    expect(walls(door({ fromM: 5 }))).toHaveLength(3);
  });

  it('has its isolation strip 5 px inside, open at the doorway', () => {
    const fit = { leftPx: 0, topPx: 0, pxPerM: 100 };
    const openings = openingsOnSheet(fit, { outline: ROOM, openings: [door({ wall: 1 })] });
    expect(markWords([perimeterStrip(ringOnSheet(fit, ROOM), openings)])).toEqual(['not-yet 395,200 395,295 5,295 5,5 395,5 395,100']);
  });

  it('keeps titles off an L by one box for each arm', () => {
    expect(coverBoxes([L_SHAPE], 2)).toEqual([
      { x: -2, y: -2, width: 104, height: 44 },
      { x: -2, y: 38, width: 44, height: 64 },
    ]);
    expect(coverBoxes([], 2)).toEqual([]);
  });
});

describe('areas', () => {
  it('have their bounds, area and edges', () => {
    expect(boundsOf([L_SHAPE, [120, -5]])).toEqual({ x: 0, y: -5, width: 120, height: 105 });
    expect(Math.abs(ringArea(L_SHAPE))).toBe(100 * 40 + 40 * 60);
    expect([
      isInside(20, 80, [L_SHAPE]),
      isInside(80, 80, [L_SHAPE]),
      isInside(20, 20, [L_SHAPE, [10, 10, 30, 10, 30, 30, 10, 30]]),
    ]).toEqual([true, false, false]);
    expect(distanceToEdge(20, 50, [L_SHAPE])).toBe(20);
    // 3 and 4 px past a corner.
    expect(Math.abs(distanceToEdge(103, -4, [SQUARE]))).toBe(5);
  });

  it('cut lines to their inside or outside', () => {
    expect(clipPolyline([-50, 20, 150, 20], [SQUARE])).toEqual([[0, 20, 100, 20]]);
    expect(clipPolyline([-50, 20, 150, 20], [SQUARE], 'outside')).toEqual([
      [-50, 20, 0, 20],
      [100, 20, 150, 20],
    ]);
    expect(clipPolyline([20, 20, 80, 20, 80, 50], [SQUARE])).toEqual([[20, 20, 80, 20, 80, 50]]);
  });

  it('are crossed by lines as far apart as asked', () => {
    const level = lineFamily([SQUARE], 0, 12);
    const ys = level.map((line) => line[1] ?? Number.NaN).sort((a, b) => a - b);
    ys.slice(1).forEach((y, i) => expect(y - (ys[i] ?? 0)).toBeCloseTo(12, 9));
    for (const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] of level) {
      expect(Math.abs(x1 - x0)).toBeCloseTo(100, 9);
      expect(y1).toBeCloseTo(y0, 9);
    }
    for (const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] of lineFamily([SQUARE], Math.PI / 4, 12))
      expect(Math.abs(Math.abs(x1 - x0) - Math.abs(y1 - y0))).toBeLessThan(1e-6);
  });
});

describe('dots', () => {
  const dotsIn = (width: number, height: number, gapPx: number, x = 0, y = 0): [number, number][] => {
    const xy = stippleDots({ rings: [[x, y, x + width, y, x + width, y + height, x, y + height]], gapAt: () => gapPx });
    return xy.flatMap((px, i) => (i % 2 === 0 ? [[px, xy[i + 1] ?? 0] as [number, number]] : []));
  };
  const nearest = (list: readonly [number, number][], [x, y]: readonly [number, number]): number =>
    list.reduce((least, [u, v]) => (u === x && v === y ? least : Math.min(least, Math.hypot(u - x, v - y))), Infinity);

  it('stand their gap and half a pixel apart on average, evenly', () => {
    for (const gapPx of [4, 8]) {
      const list = dotsIn(TILE_PX, TILE_PX, gapPx);
      const inner = list.filter(([x, y]) => x > 110 && x < 210 && y > 110 && y < 210);
      const mean = inner.reduce((sum, dot) => sum + nearest(list, dot), 0) / inner.length;
      expect(Math.abs(mean / (gapPx + 0.5) - 1)).toBeLessThan(0.06);
      // Clark and Evans (1954): the ratio to the mean of a random pattern is 1 for random dots, 2.149 for a triangular grid.
      const ratio = mean * 2 * Math.sqrt(list.length / (318.5 * 318.5));
      expect(ratio).toBeGreaterThan(1.65);
      expect(ratio).toBeLessThan(2.149);
    }
  });

  it('stay whole inside their area, and repeat across the drawing', () => {
    for (const [x, y] of dotsIn(90, 50, 3, 40, 30)) {
      expect(x).toBeGreaterThanOrEqual(40.75);
      expect(x).toBeLessThanOrEqual(129.25);
      expect(y).toBeGreaterThanOrEqual(30.75);
      expect(y).toBeLessThanOrEqual(79.25);
    }
    const moved = (list: readonly [number, number][], by: number) =>
      list.map(([x, y]) => `${(x + by).toFixed(6)},${(y + by).toFixed(6)}`).sort();
    expect(moved(dotsIn(60, 60, 5, TILE_PX + 10, TILE_PX + 10), -TILE_PX)).toEqual(moved(dotsIn(60, 60, 5, 10, 10), 0));
  });

  it('are closer in a deeper pour, and none where nothing is poured', () => {
    expect([0, -0.01, Number.NaN].map(gapForDepthPx)).toEqual([Infinity, Infinity, Infinity]);
    expect(dotsForGap(Infinity)).toBe(0);
    const gaps = [1, 2, 3, 4, 8, 16, 32].map((eighths) => gapForDepthPx((eighths / 8) * IN));
    gaps.slice(1).forEach((gap, i) => expect(gap).toBeLessThan(gaps[i] ?? 0));
    expect([gapForDryingPx(-1), gapForDryingPx(0), gapForDryingPx(0.5), gapForDryingPx(1), gapForDryingPx(2)]).toEqual([
      2.5, 2.5, 6.25, 10, 10,
    ]);
  });

  it('fill a level pour of the plan by its depth', () => {
    const flat = floorField(hall.outline, () => 0);
    const stippled = (depthIn: number): { readonly count: number; readonly areaPx: number } => {
      const drawing = planDrawing({
        ...hallInput(depthIn * IN, 0),
        floor: flat,
        spots: [],
        section: null,
        openingWords: () => [],
        hasDimensions: false,
      });
      const dotsOf = (marks: readonly Mark[]): number =>
        marks.reduce(
          (n, m) => n + (m.kind === 'group' ? (m.name === 'stipple' ? dotsOf(m.marks) : 0) : m.kind === 'stipple' ? m.xy.length / 2 : 0),
          0,
        );
      return {
        count: dotsOf(drawing.marks),
        areaPx: Math.abs(ringArea(ringOnSheet(drawing.fit ?? { leftPx: 0, topPx: 0, pxPerM: 0 }, hall.outline))),
      };
    };
    for (const depthIn of [0.3, 0.7]) {
      const { count, areaPx } = stippled(depthIn);
      // A square grid of the same spacing has a dot for each square; this pattern has 79% of those.
      const expected = (0.79 * areaPx) / (gapForDepthPx(depthIn * IN) + 0.5) ** 2;
      expect(Math.abs(count / expected - 1)).toBeLessThan(0.04);
    }
  });
});

describe('the key', () => {
  const steps = { everyM: 0.25 * IN, heavyEveryM: 0.5 * IN, text: (m: number) => `${Math.round((m / IN) * 4) / 4}` };
  it('has a band for each step, its values where bands meet', () => {
    // 7/8 in. needs four bands of a quarter inch: 100 px each.
    const marks = markWords(depthKey(steps, 0.875 * IN, { x: 10, y: 20, width: 400, height: 26 }));
    expect(marks.filter((line) => line.startsWith('text'))).toEqual([
      'text 10,64 middle 0',
      'text 110,64 middle 0.25',
      'text 210,64 middle 0.5',
      'text 310,64 middle 0.75',
      'text 410,64 middle 1',
    ]);
    expect(marks.slice(0, 2)).toEqual(['filled 10,20 110,20 110,46 10,46', 'filled 110,20 210,20 210,46 110,46']);
    expect(marks.filter((line) => line.startsWith('line'))).toEqual(['line 110,20 110,46', 'line 210,20 210,46', 'line 310,20 310,46']);
    // Bands of 15 px leave room for the first and the last value alone.
    const narrow = markWords(depthKey(steps, 0.875 * IN, { x: 10, y: 20, width: 60, height: 26 }));
    expect(narrow.filter((line) => line.startsWith('text'))).toEqual(['text 10,64 middle 0', 'text 70,64 middle 1']);
  });

  it('goes under a plain room where that leaves the room larger', () => {
    const widths = [true, false].map((hasKey) => {
      const plan = { ...hall, outline: points([0, 0], [5, 0], [5, 6], [0, 6]), openings: [], holes: [] };
      const { fit } = planDrawing({
        ...{ plan, widthPx: 354, heightPx: 460, shows: 'depth', lengthText: String, contours: steps, isSparse: true, hasKey },
        marginPx: { left: 44, top: 44, right: 44, bottom: 44 },
      });
      return [5 * (fit?.pxPerM ?? 0), fit?.topPx ?? 0];
    });
    // Between margins of 44 px a phone has 266 px by 372 px. Bands of 62 px and 8 px, and 8 px at the edge and 52 px at the wall for 44 px of
    // margin, leave 286 px, for 6 m.
    expect(widths.map(([px = 0, topPx]) => [Math.round(px), topPx])).toEqual([
      [Math.round((286 * 5) / 6), 44],
      [266, expect.any(Number)],
    ]);
  });

  it('stands below the title, the scale beside it where that is wide enough', () => {
    const input = {
      shows: 'depth' as const,
      title: { text: 'Hall', caption: 'read' },
      hasKey: true,
      contours: steps,
      scale: { lengthM: 1, text: '1 m' },
    };
    expect([keyHeightPx(input, 479), keyHeightPx(input, 480)]).toEqual([62 + 62 + 46 + 8, 62 + 62 + 8]);
    expect(keyHeightPx({ shows: 'height', corner: { widthPx: 9, heightPx: 30 } }, 600)).toBe(38);
    const fit = { leftPx: 0, topPx: 0, pxPerM: 100 };
    const barAt = (width: number) =>
      markWords(planKey(input, { x: 10, y: 20, width, height: 200 }, fit, 0.5 * IN, null)).filter((line) => line.endsWith(' 1 m'))[0];
    // 300 px: below title and bands. 500 px: the bands take 500 − 24 − 164 and the bar stands 40 px on.
    expect(barAt(300)).toBe('text 115,178 middle 1 m');
    expect(barAt(500)).toBe(`text ${15 + 312 + 40 + 100},116 middle 1 m`);
    expect(barAt(90)).toBeUndefined();
    // Below the bar at 20 + 62 + 62 + 46: all the words, those before the colon in a narrow key, or nothing.
    const hatchedAt = (width: number, height = 300) =>
      markWords(planKey(input, { x: 10, y: 20, width, height }, fit, 0.5 * IN, 'Sand first: ⅜″ off the top')).filter((line) =>
        /start (Sand|off)/.test(line),
      );
    expect(hatchedAt(300)).toEqual(['text 48,208 start Sand first: ⅜″ off the top']);
    expect(hatchedAt(132)).toEqual(['text 48,208 start Sand first: ⅜″', 'text 48,227 start off the top']);
    expect(hatchedAt(132, 200)).toEqual(['text 48,208 start Sand first']);
    expect(hatchedAt(132, 180)).toEqual([]);
  });
});
