/**
 * How far a volume may be off: the scatter of single readings, an error they all share, and what the floor does between
 * and beyond them. Each part is one standard deviation; they are independent and add as squares. The method is ours; what
 * it rests on is written beside each step.
 */
import type { Range } from '../book/fields.ts';
import type { Departures, Neighbors } from './leave-one-out.ts';
import type { Mosaic } from './mosaic.ts';
import { positiveShare } from './positive-share.ts';
import type { Relief } from './relief.ts';
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** One standard deviation of each cause, cubic meters, and the range they make. */
export type VolumeRange = {
  readonly rangeM3: Range;
  readonly readingM3: number;
  readonly systematicM3: number;
  readonly sparseM3: number;
  readonly extrapolatedM3: number;
  readonly togetherM3: number;
};

/** The range is meant to hold nine times in ten: 1.645 standard deviations either side (normal distribution). */
export const RANGE_DEVIATIONS = 1.645;

/**
 * A reading left out is missed by the floor's bend over twice the spacing. On a square grid over a floor of constant bend
 * that miss is exactly three times the mean error of the triangles: for z = x² + y² and spacing 1, leaving out gives 1 and the
 * triangles' mean is 2/3 − 1/3.
 */
export const LEFT_OUT_TO_BETWEEN = 1 / 3;

/** Roughness of the floor as the readings tell it, meters: what scatter alone does not explain. */
export type Roughness = {
  /** Mean departure between readings: a bowl is overfilled or underfilled everywhere alike. */
  readonly biasM: number;
  readonly scatterM: number;
  /** Root mean square at the hull, where the nearest reading stood in. */
  readonly edgeM: number;
};

/** Splits the departures into what the floor does and what the staff does. */
export function roughnessOf(departures: Departures, readingErrorM: number): Roughness {
  let sum = 0;
  let squares = 0;
  let count = 0;
  let edgeSquares = 0;
  let edges = 0;
  for (let i = 0; i < departures.departureM.length; i += 1) {
    const d = real(departures.departureM, i);
    if (!Number.isFinite(d)) continue;
    if (departures.beyond[i]) {
      edgeSquares += d * d;
      edges += 1;
    } else {
      sum += d;
      squares += d * d;
      count += 1;
    }
  }
  // A reading scatters by σ², and its prediction by σ²/2 more: on a square grid it is the mean of two readings.
  const noise2 = (3 / 2) * readingErrorM ** 2;
  const biasM = count === 0 ? 0 : sum / count;
  const between2 = count === 0 ? 0 : Math.max(0, squares / count - biasM ** 2 - noise2);
  return {
    biasM: Math.sqrt(Math.max(0, biasM ** 2 - (count === 0 ? 0 : noise2 / count))),
    scatterM: Math.sqrt(between2),
    edgeM: edges === 0 ? Math.sqrt(between2) : Math.sqrt(Math.max(0, edgeSquares / edges - noise2)),
  };
}

/** What the range needs beside the volume. */
export type RangeTerms = {
  readonly volumeM3: number;
  readonly levelM: number;
  /** The level was taken from the highest reading, so that one's error moves the whole plane. */
  readonly hangsOnHighest: boolean;
  readonly readingErrorM: number;
  readonly systematicErrorM: number;
};

/** The range of the volume under a level. */
export function volumeRange(surface: Surface, mosaic: Mosaic, relief: Relief, roughness: Roughness, terms: RangeTerms): VolumeRange {
  const pull = new Float64Array(surface.spotCount);
  const own = new Float64Array(surface.spotCount);
  let covered = 0;
  let edgeM2 = 0;
  const weights: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < mosaic.count; k += 1) {
    const part = positiveShare(
      terms.levelM - real(relief.w, 3 * k),
      terms.levelM - real(relief.w, 3 * k + 1),
      terms.levelM - real(relief.w, 3 * k + 2),
    );
    if (part.share === 0) continue;
    const area = real(mosaic.areaM2, k) * part.share;
    const cell = whole(mosaic.cell, k);
    const p = 9 * k;
    const { xyz } = mosaic;
    const xM = part.u1 * real(xyz, p) + part.u2 * real(xyz, p + 3) + part.u3 * real(xyz, p + 6);
    const yM = part.u1 * real(xyz, p + 1) + part.u2 * real(xyz, p + 4) + part.u3 * real(xyz, p + 7);
    spotWeights(surface, cell, xM, yM, weights);
    for (let c = 0; c < 3; c += 1) {
      const spot = whole(surface.cellSpots, 3 * cell + c);
      const share = area * (weights[c] ?? 0);
      pull[spot] = real(pull, spot) + share;
      if (cell < surface.triangleCount) own[spot] = real(own, spot) + share;
    }
    covered += area;
    if (cell >= surface.triangleCount) edgeM2 += area;
  }
  if (terms.hangsOnHighest) {
    let highest = 0;
    for (let i = 1; i < surface.spotCount; i += 1) if (real(surface.zM, i) > real(surface.zM, highest)) highest = i;
    pull[highest] = real(pull, highest) - covered;
  }
  let pull2 = 0;
  let own2 = 0;
  for (let i = 0; i < surface.spotCount; i += 1) {
    pull2 += real(pull, i) ** 2;
    own2 += real(own, i) ** 2;
  }
  const readingM3 = terms.readingErrorM * Math.sqrt(pull2);
  const systematicM3 = terms.systematicErrorM * covered;
  const between = Math.max(0, covered - edgeM2);
  // Bias works on the whole area, scatter on each reading's own part of it independently.
  const sparseM3 = LEFT_OUT_TO_BETWEEN * Math.hypot(roughness.biasM * between, roughness.scatterM * Math.sqrt(own2));
  // Beyond the hull the miss grows from nothing to a whole departure: half of it on average, and four sides of the room
  // miss independently.
  const extrapolatedM3 = (roughness.edgeM * edgeM2 * 0.5) / Math.sqrt(4);
  const togetherM3 = Math.hypot(readingM3, systematicM3, sparseM3, extrapolatedM3);
  const reach = RANGE_DEVIATIONS * togetherM3;
  return {
    rangeM3: { least: Math.max(0, terms.volumeM3 - reach), likely: terms.volumeM3, most: terms.volumeM3 + reach },
    readingM3,
    systematicM3,
    sparseM3,
    extrapolatedM3,
    togetherM3,
  };
}

/** How much each of a cell's three spots counts at a point of it; the weights add to one. */
export function spotWeights(surface: Surface, cell: number, xM: number, yM: number, into: [number, number, number]): void {
  const a = whole(surface.cellSpots, 3 * cell);
  const b = whole(surface.cellSpots, 3 * cell + 1);
  const c = whole(surface.cellSpots, 3 * cell + 2);
  const { xM: xs, yM: ys } = surface;
  const ux = real(xs, b) - real(xs, a);
  const uy = real(ys, b) - real(ys, a);
  const px = xM - real(xs, a);
  const py = yM - real(ys, a);
  into[2] = 0;
  if (b === c) {
    const length2 = ux * ux + uy * uy;
    into[1] = length2 === 0 ? 0 : Math.min(1, Math.max(0, (px * ux + py * uy) / length2));
    into[0] = 1 - into[1];
    return;
  }
  const vx = real(xs, c) - real(xs, a);
  const vy = real(ys, c) - real(ys, a);
  const twice = ux * vy - uy * vx;
  into[1] = twice === 0 ? 0 : (px * vy - py * vx) / twice;
  into[2] = twice === 0 ? 0 : (ux * py - uy * px) / twice;
  into[0] = 1 - into[1] - into[2];
}

/** A place where another reading would help, and how much of the doubt about the floor's shape it would take away. */
export type WorthReading = { readonly xM: number; readonly yM: number; readonly share: number };

/**
 * Where more readings would narrow the range most. Every cell of the surface is given the doubt area × roughness of its own
 * spots, squared; the places that gather most of it within one spacing are taken one after another.
 */
export function worthReading(
  surface: Surface,
  mosaic: Mosaic,
  departures: Departures,
  neighbors: Neighbors,
  readingErrorM: number,
  how = 3,
): WorthReading[] {
  const cells = surface.cellStart.length - 1;
  const area = new Float64Array(cells);
  const atX = new Float64Array(cells);
  const atY = new Float64Array(cells);
  for (let k = 0; k < mosaic.count; k += 1) {
    const cell = whole(mosaic.cell, k);
    const a = real(mosaic.areaM2, k);
    const p = 9 * k;
    area[cell] = real(area, cell) + a;
    atX[cell] = real(atX, cell) + (a * (real(mosaic.xyz, p) + real(mosaic.xyz, p + 3) + real(mosaic.xyz, p + 6))) / 3;
    atY[cell] = real(atY, cell) + (a * (real(mosaic.xyz, p + 1) + real(mosaic.xyz, p + 4) + real(mosaic.xyz, p + 7))) / 3;
  }
  const doubt = new Float64Array(cells);
  let total = 0;
  for (let cell = 0; cell < cells; cell += 1) {
    const a = real(area, cell);
    if (a < 1e-6) continue;
    atX[cell] = real(atX, cell) / a;
    atY[cell] = real(atY, cell) / a;
    let squares = 0;
    for (let c = 0; c < 3; c += 1) squares += real(departures.departureM, whole(surface.cellSpots, 3 * cell + c)) ** 2;
    const between = cell < surface.triangleCount ? LEFT_OUT_TO_BETWEEN : 0.5;
    doubt[cell] = a * a * between * between * (squares / 3 + readingErrorM ** 2);
    total += real(doubt, cell);
  }
  if (!(total > 0) || neighbors.onHull.length === 0) return [];
  const spacing = Math.sqrt(mosaic.areaTotalM2 / Math.max(1, surface.spotCount));
  const found: WorthReading[] = [];
  for (let turn = 0; turn < how; turn += 1) {
    const leaders = leading(doubt, 40);
    let best: { cell: number; gathered: number } | null = null;
    for (const cell of leaders) {
      let gathered = 0;
      for (let other = 0; other < cells; other += 1) {
        const d = real(doubt, other);
        if (d > 0 && (real(atX, other) - real(atX, cell)) ** 2 + (real(atY, other) - real(atY, cell)) ** 2 <= spacing ** 2) gathered += d;
      }
      if (!best || gathered > best.gathered) best = { cell, gathered };
    }
    if (!best || best.gathered <= 0) break;
    const xM = real(atX, best.cell);
    const yM = real(atY, best.cell);
    found.push({ xM, yM, share: best.gathered / total });
    for (let other = 0; other < cells; other += 1) {
      if ((real(atX, other) - xM) ** 2 + (real(atY, other) - yM) ** 2 <= spacing ** 2) doubt[other] = 0;
    }
  }
  return found;
}

function leading(doubt: Float64Array, how: number): number[] {
  const least = Float64Array.from(doubt).sort();
  const from = Math.max(real(least, Math.max(0, least.length - how)), Number.MIN_VALUE);
  const cells: number[] = [];
  for (let cell = 0; cell < doubt.length && cells.length < how; cell += 1) if (real(doubt, cell) >= from) cells.push(cell);
  return cells;
}
