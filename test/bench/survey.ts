/** 2,000 readings in a 40-corner outline: every quantity beside the plainest way, a fine grid over a general-purpose mesh. */
import { Delaunay } from 'd3-delaunay';
import { doBoxesMeet, placeFirst, startSheet, textBox, type TurnedBox } from '../../shared-core/drawing/labels.ts';
import { planDrawing } from '../../shared-core/drawing/plan.ts';
import { worstGap } from '../../shared-core/survey/flatness.ts';
import { profilesOver } from '../../shared-core/survey/profile-lines.ts';
import { type GrindPoint, grindCurve } from '../../shared-core/survey/grind-or-fill.ts';
import { mosaicOf } from '../../shared-core/survey/mosaic.ts';
import { sortReadings } from '../../shared-core/survey/reading-problems.ts';
import { reliefFrom } from '../../shared-core/survey/relief.ts';
import { roomRings } from '../../shared-core/survey/room-rings.ts';
import { surfaceOver } from '../../shared-core/survey/surface.ts';
import { surveyRoom } from '../../shared-core/survey/survey-room.ts';
import { levelChoice, manyCorners, numbers, planOf, surveyOf, type XY } from '../shared-core/survey/floors.ts';
import type { BenchResult } from './agenda.ts';

const CORNERS = 40;
const PRICES = { fillM3: 180_000, grindM2: 900, removeM3: 60_000 };
const GRIND_MOST_M = 0.006;
const LEAST_M = 0.003;
const STRAIGHTEDGE_M = 3.048;
/** Pixel of the grid, m: fine enough for about half a percent of the volume. */
const PIXEL_M = 0.05;
/** Distance from the walls in the grid's search for gaps, m. */
const MARGIN_M = 0.6;

const OPTIONS = {
  units: 'metric',
  grindPrices: PRICES,
  flooringThicknessM: 0,
  flooring: 'tile-large',
  flooringLimits: null,
  country: 'US',
  straightedgeM: STRAIGHTEDGE_M,
} as const;

type Made = { readonly outline: XY[]; readonly points: [number, number, number][] };

/** Readings on a walked grid, each up to a third of a step off. */
function gridSurvey(columns: number, rows: number, width: number, depth: number): Made {
  const next = numbers(7);
  const points: [number, number, number][] = [];
  for (let j = 0; j < rows; j += 1) {
    for (let i = 0; i < columns; i += 1) {
      const x = ((i + 0.5 + 0.6 * (next() - 0.5)) * width) / columns;
      const y = 0.6 + ((j + 0.5 + 0.6 * (next() - 0.5)) * (depth - 1.3)) / rows;
      points.push([x, y, 0.004 * Math.sin(x) * Math.cos(0.8 * y) + 0.0005 * x + 0.0005 * (next() - 0.5)]);
    }
  }
  return { outline: manyCorners(CORNERS, width, depth), points };
}

/** Shortest time of several runs after one to warm up, because other load only adds time. */
function timed<T>(runs: number, work: () => T): { ms: number; value: T } {
  let value = work();
  let ms = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i += 1) {
    const start = performance.now();
    value = work();
    ms = Math.min(ms, performance.now() - start);
  }
  return { ms, value };
}

type Grid = { readonly columns: number; readonly rows: number; readonly z: Float64Array };

/** Heights at pixel centers: nearest reading of the mesh, then the triangle around it that contains the point. */
function gridOf(floor: Made, width: number, depth: number): Grid {
  const mesh = Delaunay.from(floor.points.map(([x, y]): [number, number] => [x, y]));
  const around: number[][] = floor.points.map(() => []);
  for (let t = 0; t < mesh.triangles.length; t += 1) around[mesh.triangles[t] ?? 0]?.push(Math.floor(t / 3));
  const columns = Math.round(width / PIXEL_M);
  const rows = Math.round(depth / PIXEL_M);
  const z = new Float64Array(columns * rows).fill(Number.NaN);
  let near = 0;
  for (let j = 0; j < rows; j += 1) {
    for (let i = 0; i < columns; i += 1) {
      const [x, y] = [(i + 0.5) * PIXEL_M, (j + 0.5) * PIXEL_M];
      if (!isInside(floor.outline, x, y)) continue;
      near = mesh.find(x, y, near);
      z[j * columns + i] = heightNear(floor, mesh, around, near, x, y);
    }
  }
  return { columns, rows, z };
}

function heightNear(floor: Made, mesh: Delaunay<[number, number]>, around: number[][], near: number, x: number, y: number): number {
  const neighbors = [near, ...mesh.neighbors(near)];
  for (const site of neighbors) {
    for (const t of around[site] ?? []) {
      const [a, b, c] = [0, 1, 2].map((k) => floor.points[mesh.triangles[3 * t + k] ?? 0]);
      if (!a || !b || !c) continue;
      const det = (b[1] - c[1]) * (a[0] - c[0]) + (c[0] - b[0]) * (a[1] - c[1]);
      const u = ((b[1] - c[1]) * (x - c[0]) + (c[0] - b[0]) * (y - c[1])) / det;
      const v = ((c[1] - a[1]) * (x - c[0]) + (a[0] - c[0]) * (y - c[1])) / det;
      if (u >= 0 && v >= 0 && u + v <= 1) return u * a[2] + v * b[2] + (1 - u - v) * c[2];
    }
  }
  return floor.points[near]?.[2] ?? Number.NaN;
}

function isInside(outline: readonly XY[], x: number, y: number): boolean {
  let odd = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i, i += 1) {
    const [ax, ay] = outline[i] ?? [0, 0];
    const [bx, by] = outline[j] ?? [0, 0];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  }
  return odd;
}

function gridVolume(grid: Grid, levelM: number): number {
  let sum = 0;
  for (const z of grid.z) if (z < levelM) sum += (levelM - z) * PIXEL_M * PIXEL_M;
  return sum;
}

function gridGrind(grid: Grid, highestM: number, planes: readonly GrindPoint[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (const plane of planes) {
    const cut = highestM - plane.groundMostM;
    let cost = 0;
    for (const z of grid.z) {
      if (Number.isNaN(z)) continue;
      cost += PRICES.fillM3 * Math.max(LEAST_M, cut + LEAST_M - z) + (z > cut ? PRICES.grindM2 + PRICES.removeM3 * (z - cut) : 0);
    }
    best = Math.min(best, cost * PIXEL_M * PIXEL_M);
  }
  return best;
}

/**
 * Along lines 0.3 m apart in eight directions, sampled at the pixel: the highest chord over every sample of every window. The margin avoids
 * the thin triangles along walls, which the exact search excludes by their shape.
 */
function gridGap(grid: Grid, width: number, depth: number): number {
  const samples = Math.round(STRAIGHTEDGE_M / PIXEL_M);
  let worst = 0;
  const reach = Math.hypot(width, depth);
  for (let k = 0; k < 8; k += 1) {
    const [cos, sin] = [Math.cos((k * Math.PI) / 8), Math.sin((k * Math.PI) / 8)];
    for (let v = -reach; v < reach; v += 0.3) {
      let line: number[] = [];
      for (let u = -reach; u < reach; u += PIXEL_M) {
        const [x, y] = [u * cos - v * sin, u * sin + v * cos];
        const [i, j] = [Math.floor(x / PIXEL_M), Math.floor(y / PIXEL_M)];
        const z =
          x > MARGIN_M && y > 2 * MARGIN_M && x < width - MARGIN_M && y < depth - 2 * MARGIN_M
            ? (grid.z[j * grid.columns + i] ?? Number.NaN)
            : Number.NaN;
        if (!Number.isNaN(z)) line.push(z);
        else if (line.length > 0) {
          worst = Math.max(worst, lineGap(line, samples));
          line = [];
        }
      }
    }
  }
  return worst;
}

function lineGap(line: readonly number[], samples: number): number {
  let worst = 0;
  for (let from = 0; from + 2 < line.length; from += 1) {
    const to = Math.min(line.length - 1, from + samples);
    const hull: number[] = [];
    for (let i = from; i <= to; i += 1) {
      for (;;) {
        const m = hull[hull.length - 1];
        const l = hull[hull.length - 2];
        if (m === undefined || l === undefined) break;
        if (((line[m] ?? 0) - (line[l] ?? 0)) * (i - l) > ((line[i] ?? 0) - (line[l] ?? 0)) * (m - l)) break;
        hull.pop();
      }
      hull.push(i);
    }
    for (let h = 0; h + 1 < hull.length; h += 1) {
      const [a, b] = [hull[h] ?? 0, hull[h + 1] ?? 0];
      for (let i = a + 1; i < b; i += 1) {
        worst = Math.max(worst, (line[a] ?? 0) + ((i - a) / (b - a)) * ((line[b] ?? 0) - (line[a] ?? 0)) - (line[i] ?? 0));
      }
    }
    if (to === line.length - 1) break;
  }
  return worst;
}

const inSheet = (box: TurnedBox): boolean =>
  box.x >= box.halfWidth && box.x <= 900 - box.halfWidth && box.y >= box.halfHeight && box.y <= 675 - box.halfHeight;

const heldMb = (): number => {
  const use = process.memoryUsage();
  return (use.heapUsed + use.arrayBuffers) / 1e6;
};

/** Measures, and checks that both ways agree within the grid's error. */
export function run(): BenchResult {
  const [width, depth] = [20, 15];
  const floor = gridSurvey(50, 40, width, depth);
  const plan = planOf(floor.outline);
  const survey = surveyOf(floor.points);
  const room = roomRings(plan);
  if (!room) throw new Error('The outline has no area.');
  const { spots } = sortReadings(survey, room, 'metric');
  const before = heldMb();
  const surface = timed(9, () => surfaceOver(spots, 2 * width));
  if (!surface.value) throw new Error('The readings span no area.');
  const over = surface.value;
  const mosaic = timed(9, () => mosaicOf(over, room));
  const relief = timed(9, () => reliefFrom(mosaic.value, { slopeX: 0, slopeY: 0 }));
  const levelM = relief.value.highestM + LEAST_M;
  const volume = timed(99, () => relief.value.below(levelM).volumeM3);
  const curve = timed(9, () => grindCurve(relief.value, LEAST_M, GRIND_MOST_M, PRICES));
  const lines = timed(9, () => profilesOver(over, room));
  const gap = timed(9, () => worstGap(lines.value, STRAIGHTEDGE_M));
  const ownMb = heldMb() - before;
  const gridBefore = heldMb();
  const grid = timed(1, () => gridOf(floor, width, depth));
  const plainVolume = timed(3, () => gridVolume(grid.value, levelM));
  const plainCurve = timed(1, () => gridGrind(grid.value, relief.value.highestM, curve.value.points));
  const plainGap = timed(1, () => gridGap(grid.value, width, depth));
  const gridMb = heldMb() - gridBefore;
  const apart = (a: number, b: number): number => Math.abs(a - b) / Math.abs(b);
  if (apart(plainVolume.value, volume.value) > 0.02) throw new Error('The grid’s volume is not the exact one.');
  if (apart(plainCurve.value, curve.value.cheapest.cost) > 0.02) throw new Error('The grid’s cheapest plane is not the exact one.');
  if (plainGap.value > gap.value.gapM * 1.02 + 0.0002) throw new Error('The grid found a wider gap than the exact search.');
  // A new record each time: the answer is cached by the survey's record.
  const all = timed(9, () => surveyRoom(plan, { ...survey }, levelChoice({ grindMostM: GRIND_MOST_M }), OPTIONS));
  const small = gridSurvey(20, 10, 10, 7);
  const smallPlan = planOf(small.outline);
  const smallSurvey = surveyOf(small.points);
  const few = timed(19, () => surveyRoom(smallPlan, { ...smallSurvey }, levelChoice({ grindMostM: GRIND_MOST_M }), OPTIONS));
  const boxes = floor.points.map(([x, y]) => textBox(45 * x, 45 * y, '12.5', { sizePx: 17, air: 1 }));
  const placed = timed(5, () => {
    const sheet = startSheet({ x: 0, y: 0, width: 900, height: 675 });
    return boxes.filter((box) => placeFirst(sheet, [{ box }]) !== null).length;
  });
  const plainPlaced = timed(3, () => {
    const taken: TurnedBox[] = [];
    for (const box of boxes) if (inSheet(box) && !taken.some((other) => doBoxesMeet(other, box))) taken.push(box);
    return taken.length;
  });
  if (placed.value !== plainPlaced.value) throw new Error('The figures do not stand where the plain way puts them.');
  const drawing = timed(5, () =>
    planDrawing({
      plan,
      widthPx: 900,
      heightPx: 675,
      shows: 'read',
      lengthText: String,
      spots: floor.points.map(([xM, yM, zM], i) => ({ id: String(i), xM, yM, text: (1000 * zM).toFixed(1), label: '' })),
    }),
  );
  const prepared = surface.ms + mosaic.ms + relief.ms;
  const gapMs = lines.ms + gap.ms;
  const plain = (ms: number, label: string) => ({ what: label, ms, ratio: null });
  return {
    title: `Survey: 2,000 readings, ${CORNERS} corners, against a ${PIXEL_M * 1000} mm grid`,
    rows: [
      plain(grid.ms, 'grid of heights over a general-purpose mesh'),
      { what: 'surface, cut to the room, sorted', ms: prepared, ratio: grid.ms / prepared },
      plain(plainVolume.ms, 'volume to a level, summed over the grid'),
      { what: 'volume to a level, exact', ms: volume.ms, ratio: plainVolume.ms / volume.ms },
      plain(plainCurve.ms, `grinding against filling, ${curve.value.points.length} planes over the grid`),
      { what: 'grinding against filling, exact, with its least-cost plane', ms: curve.ms, ratio: plainCurve.ms / curve.ms },
      plain(plainGap.ms, 'gap under 10 ft, windows over grid lines'),
      { what: 'gap under 10 ft, exact along lines', ms: gapMs, ratio: plainGap.ms / gapMs },
      plain(plainPlaced.ms, 'a place for 2,000 figures, each tried against all placed'),
      { what: 'a place for 2,000 figures, tried against those near', ms: placed.ms, ratio: plainPlaced.ms / placed.ms },
      plain(drawing.ms, 'the plan with 2,000 readings, as marks'),
      plain(all.ms, 'everything a screen needs, 2,000 readings (aim: under 150 ms)'),
      plain(few.ms, 'everything a screen needs, 200 readings (aim: under 16 ms)'),
    ],
    notes: [
      `Held in memory: ${ownMb.toFixed(1)} MB by the exact way, ${gridMb.toFixed(1)} MB by the grid (heap and buffers, not swept).`,
      `The grid is ${(100 * apart(plainVolume.value, volume.value)).toFixed(2)} % off in volume and ${(1000 * (gap.value.gapM - plainGap.value)).toFixed(2)} mm short in gap.`,
    ],
  };
}
