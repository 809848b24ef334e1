import { Delaunay } from 'd3-delaunay';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { heightAt } from '../../../shared-core/survey/surface.ts';
import { manyCorners, numbers, type XY } from './floors.ts';
import { type Readings, floorOf, reliefOf, expectClose, scattered } from './volumes.ts';

describe('independent checks', () => {
  const outline = manyCorners(24, 8, 6);
  const wave = (x: number, y: number): number => 0.006 * Math.sin(1.3 * x) * Math.cos(0.9 * y) + 0.001 * x;
  const onFloor = scattered(90, 8, 6, 3, wave).filter(([x, y]) => y > 0.65 && y < 5.25 && x > 0);
  // None within a hand's width of another, which would be one spot read twice.
  const readings = onFloor.filter(([x, y], i) => onFloor.slice(0, i).every(([a, b]) => Math.hypot(x - a, y - b) > 0.1));
  const floor = floorOf(outline, readings);

  it('interpolates as d3-delaunay’s triangles do, found by testing every triangle', () => {
    const mesh = Delaunay.from(readings.map(([x, y]) => [x, y] as [number, number]));
    const next = numbers(5);
    let checked = 0;
    for (let i = 0; i < 400; i += 1) {
      const x = next() * 8;
      const y = next() * 6;
      const height = heightAt(floor.surface, x, y);
      const expected = inTriangles(mesh.triangles, readings, x, y);
      expect(height.extrapolated).toBe(expected === null);
      if (expected === null) continue;
      expect(Math.abs(height.zM - expected)).toBeLessThan(1e-12);
      checked += 1;
    }
    expect(checked).toBeGreaterThan(200);
  });

  it('cuts triangles to the room as polygon-clipping does: area and volume agree', () => {
    const room: [number, number][] = outline.map(([x, y]) => [x, y]);
    const { surface } = floor;
    let area = 0;
    let moment = 0;
    for (let t = 0; t < surface.triangleCount; t += 1) {
      const ids = [0, 1, 2].map((c) => surface.triangles[3 * t + c] ?? 0);
      const ring = ids.map((i): [number, number] => [surface.xM[i] ?? 0, surface.yM[i] ?? 0]);
      for (const polygon of polygonClipping.intersection([ring], [room])) {
        for (const [index, piece] of polygon.entries()) {
          const sign = index === 0 ? 1 : -1;
          const { a, cx, cy } = centroid(piece);
          area += sign * Math.abs(a);
          moment += sign * Math.abs(a) * heightAt(surface, cx, cy).zM;
        }
      }
    }
    let ownArea = 0;
    let ownMoment = 0;
    for (let k = 0; k < floor.mosaic.count; k += 1) {
      if ((floor.mosaic.cell[k] ?? 0) >= surface.triangleCount) continue;
      const a = floor.mosaic.areaM2[k] ?? 0;
      ownArea += a;
      ownMoment += (a * ((floor.mosaic.xyz[9 * k + 2] ?? 0) + (floor.mosaic.xyz[9 * k + 5] ?? 0) + (floor.mosaic.xyz[9 * k + 8] ?? 0))) / 3;
    }
    expectClose(ownArea, area, 1e-9);
    expect(Math.abs(ownMoment - moment)).toBeLessThan(1e-9 * area);
  });

  it('has as its area the room’s, readings or not', () => {
    let area = 0;
    outline.forEach(([x, y], i) => {
      const [u, v] = outline[(i + 1) % outline.length] ?? [0, 0];
      area += (x * v - u * y) / 2;
    });
    expectClose(floor.areaM2, Math.abs(area));
  });

  it('agrees with a fine grid of heights to the grid’s own error', () => {
    const levelM = 0.004;
    const step = 0.04;
    let sum = 0;
    for (let x = step / 2; x < 8; x += step) {
      for (let y = step / 2; y < 6; y += step) {
        if (inside(outline, x, y)) sum += Math.max(0, levelM - heightAt(floor.surface, x, y).zM) * step * step;
      }
    }
    const exact = reliefOf(floor).below(levelM).volumeM3;
    expect(Math.abs(sum - exact) / exact).toBeLessThan(4e-3);
  });

  it('grows with the level as fast as the area it covers', () => {
    const relief = reliefOf(floor);
    for (const levelM of [-0.003, 0.0007, 0.003, 0.006, 0.01]) {
      const step = 1e-6;
      const slope = (relief.below(levelM + step).volumeM3 - relief.below(levelM - step).volumeM3) / (2 * step);
      expectClose(slope, relief.below(levelM).areaM2, 1e-6);
    }
  });

  it('finds the greatest and least height among all points of the room', () => {
    let high = Number.NEGATIVE_INFINITY;
    let low = Number.POSITIVE_INFINITY;
    for (let x = 0.005; x < 8; x += 0.02) {
      for (let y = 0.005; y < 6; y += 0.05) {
        if (!inside(outline, x, y)) continue;
        const z = heightAt(floor.surface, x, y).zM;
        high = Math.max(high, z);
        low = Math.min(low, z);
      }
    }
    expect(floor.highestM).toBeGreaterThanOrEqual(high - 1e-12);
    expect(floor.lowestM).toBeLessThanOrEqual(low + 1e-12);
    expect(floor.highestM - high).toBeLessThan(3e-4);
    expect(low - floor.lowestM).toBeLessThan(3e-4);
  });
});

function inside(outline: readonly XY[], x: number, y: number): boolean {
  let odd = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length] ?? [0, 0];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  });
  return odd;
}

function inTriangles(triangles: ArrayLike<number>, readings: Readings, x: number, y: number): number | null {
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [readings[triangles[t] ?? 0], readings[triangles[t + 1] ?? 0], readings[triangles[t + 2] ?? 0]];
    if (!a || !b || !c) continue;
    const det = (b[1] - c[1]) * (a[0] - c[0]) + (c[0] - b[0]) * (a[1] - c[1]);
    const u = ((b[1] - c[1]) * (x - c[0]) + (c[0] - b[0]) * (y - c[1])) / det;
    const v = ((c[1] - a[1]) * (x - c[0]) + (a[0] - c[0]) * (y - c[1])) / det;
    if (u >= 0 && v >= 0 && u + v <= 1) return u * a[2] + v * b[2] + (1 - u - v) * c[2];
  }
  return null;
}

function centroid(ring: readonly (readonly [number, number])[]): { a: number; cx: number; cy: number } {
  let [a, cx, cy] = [0, 0, 0];
  const [x0, y0] = ring[0] ?? [0, 0];
  for (let i = 0; i + 1 < ring.length; i += 1) {
    const [x1, y1] = ring[i] ?? [0, 0];
    const [x2, y2] = ring[i + 1] ?? [0, 0];
    const part = ((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)) / 2;
    a += part;
    cx += (part * (x0 + x1 + x2)) / 3;
    cy += (part * (y0 + y1 + y2)) / 3;
  }
  return { a, cx: cx / a, cy: cy / a };
}
