/** Where more readings would narrow the range of the volume most. */
import type { Departures, Neighbors } from './leave-one-out.ts';
import type { Mosaic } from './mosaic.ts';
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/**
 * Leaving a reading out misses the floor's curvature over twice the spacing. On a square grid over a floor of constant
 * curvature that error is exactly three times the mean error of the triangles: for z = x² + y² and spacing 1, leaving out
 * gives 1 and the triangles' mean is 2/3 − 1/3.
 */
export const LEFT_OUT_TO_BETWEEN = 1 / 3;

/** A place where another reading would help, and the share of the uncertainty about the floor's shape it would remove. */
export type WorthReading = { readonly xM: number; readonly yM: number; readonly share: number };

/** Maximum places suggested. */
const PLACES = 3;

/**
 * Where more readings would narrow the range most. Every cell of the surface gets the uncertainty area × roughness of its
 * own spots, squared; the places that collect most of it within one spacing are picked one after another.
 */
export function worthReading(
  surface: Surface,
  mosaic: Mosaic,
  departures: Departures,
  neighbors: Neighbors,
  readingErrorM: number,
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
  const open = new Float64Array(cells);
  let total = 0;
  for (let cell = 0; cell < cells; cell += 1) {
    const a = real(area, cell);
    if (a < 1e-6) continue;
    atX[cell] = real(atX, cell) / a;
    atY[cell] = real(atY, cell) / a;
    let squares = 0;
    for (let c = 0; c < 3; c += 1) squares += real(departures.departureM, whole(surface.cellSpots, 3 * cell + c)) ** 2;
    const between = cell < surface.triangleCount ? LEFT_OUT_TO_BETWEEN : 0.5;
    open[cell] = a * a * between * between * (squares / 3 + readingErrorM ** 2);
    total += real(open, cell);
  }
  if (!(total > 0) || neighbors.onHull.length === 0) return [];
  const spacing = Math.sqrt(mosaic.areaTotalM2 / Math.max(1, surface.spotCount));
  const places: WorthReading[] = [];
  for (let turn = 0; turn < PLACES; turn += 1) {
    const leaders = leading(open, 40);
    let best: { cell: number; gathered: number } | null = null;
    for (const cell of leaders) {
      let gathered = 0;
      for (let other = 0; other < cells; other += 1) {
        const d = real(open, other);
        if (d > 0 && (real(atX, other) - real(atX, cell)) ** 2 + (real(atY, other) - real(atY, cell)) ** 2 <= spacing ** 2) gathered += d;
      }
      if (!best || gathered > best.gathered) best = { cell, gathered };
    }
    if (!best || best.gathered <= 0) break;
    const xM = real(atX, best.cell);
    const yM = real(atY, best.cell);
    places.push({ xM, yM, share: best.gathered / total });
    for (let other = 0; other < cells; other += 1) {
      if ((real(atX, other) - xM) ** 2 + (real(atY, other) - yM) ** 2 <= spacing ** 2) open[other] = 0;
    }
  }
  return places;
}

function leading(open: Float64Array, count: number): number[] {
  const least = Float64Array.from(open).sort();
  const from = Math.max(real(least, Math.max(0, least.length - count)), Number.MIN_VALUE);
  const cells: number[] = [];
  for (let cell = 0; cell < open.length && cells.length < count; cell += 1) if (real(open, cell) >= from) cells.push(cell);
  return cells;
}
