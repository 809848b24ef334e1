/**
 * Floor heights on a fine grid, smoothed for display only: the creases between triangulated readings are rounded. Volumes never use it.
 * Built once per survey; dragging the finish elevation only subtracts from it.
 */
import type { Point } from '../book/fields.ts';

/** Heights in meters at grid corners, row by row. */
export interface FloorField {
  readonly x0M: number;
  readonly y0M: number;
  readonly stepM: number;
  readonly columns: number;
  readonly rows: number;
  readonly heights: Float64Array;
}

/**
 * Samples heights over the outline's bounds and smooths them.
 * @param heightAtM height in meters at a place; must be defined everywhere in the bounds (outside the readings, the nearest one). A null or NaN takes its neighbor's value.
 * @param spacingM approximate distance between readings: creases are rounded over a quarter of it; 0 smooths only the grid.
 * @param cells approximate number of grid cells.
 */
export function floorField(
  outline: readonly Point[],
  heightAtM: (xM: number, yM: number) => number | null,
  spacingM = 0,
  cells = 7000,
): FloorField | null {
  if (outline.length < 3) return null;
  const xs = outline.map((p) => p.xM);
  const ys = outline.map((p) => p.yM);
  const left = Math.min(...xs);
  const top = Math.min(...ys);
  const width = Math.max(...xs) - left;
  const height = Math.max(...ys) - top;
  if (!(width > 0 && height > 0)) return null;
  const stepM = Math.sqrt((width * height) / cells);
  const columns = Math.ceil(width / stepM) + 3;
  const rows = Math.ceil(height / stepM) + 3;
  const x0M = left - stepM;
  const y0M = top - stepM;
  const heights = new Float64Array(columns * rows);
  let last = 0;
  for (let j = 0; j < rows; j += 1) {
    for (let i = 0; i < columns; i += 1) {
      const h = heightAtM(x0M + i * stepM, y0M + j * stepM);
      if (h !== null && Number.isFinite(h)) last = h;
      heights[j * columns + i] = last;
    }
  }
  // Each pass spreads values by half a cell squared. What the first round removes from peaks and hollows is smoothed and added back.
  const passes = Math.max(2, Math.min(MOST_PASSES, Math.round(2 * ((0.25 * spacingM) / stepM) ** 2)));
  const rowAbove = new Float64Array(columns);
  const smooth = (from: Float64Array): Float64Array => {
    const out = from.slice();
    for (let pass = 0; pass < passes; pass += 1) soften(out, columns, rowAbove);
    return out;
  };
  const first = smooth(heights);
  if (passes === 2) return { x0M, y0M, stepM, columns, rows, heights: first };
  const residual = smooth(heights.map((h, k) => h - (first[k] ?? 0)));
  return { x0M, y0M, stepM, columns, rows, heights: first.map((h, k) => h + (residual[k] ?? 0)) };
}

const MOST_PASSES = 36;

/**
 * Weights 1, 2, 1 along the rows, then along the columns, in place: a new array for each pass takes ten times as long.
 * @param rowAbove room for one row
 */
function soften(heights: Float64Array, columns: number, rowAbove: Float64Array): void {
  for (let start = 0; start < heights.length; start += columns) {
    const end = start + columns - 1;
    let here = heights[start] ?? 0;
    let before = here;
    for (let k = start; k < end; k += 1) {
      const after = heights[k + 1] ?? 0;
      heights[k] = (before + 2 * here + after) / 4;
      before = here;
      here = after;
    }
    heights[end] = (before + 2 * here + here) / 4;
  }
  rowAbove.set(heights.subarray(0, columns));
  for (let start = 0; start < heights.length; start += columns) {
    const toBelow = start + columns < heights.length ? columns : 0;
    for (let i = 0; i < columns; i += 1) {
      const here = heights[start + i] ?? 0;
      heights[start + i] = ((rowAbove[i] ?? 0) + 2 * here + (heights[start + i + toBelow] ?? 0)) / 4;
      rowAbove[i] = here;
    }
  }
}

/** The same grid with new values: `value(height, xM, yM)`. */
export function mapField(field: FloorField, value: (heightM: number, xM: number, yM: number) => number): FloorField {
  const heights = new Float64Array(field.heights.length);
  for (let j = 0; j < field.rows; j += 1) {
    for (let i = 0; i < field.columns; i += 1) {
      const k = j * field.columns + i;
      heights[k] = value(field.heights[k] ?? 0, field.x0M + i * field.stepM, field.y0M + j * field.stepM);
    }
  }
  return { ...field, heights };
}

/** The value at a place, interpolated between grid corners; outside the grid, the value at the nearest edge. */
export function fieldAt(field: FloorField, xM: number, yM: number): number {
  const u = Math.max(0, Math.min(field.columns - 1.000001, (xM - field.x0M) / field.stepM));
  const v = Math.max(0, Math.min(field.rows - 1.000001, (yM - field.y0M) / field.stepM));
  const i = Math.floor(u);
  const j = Math.floor(v);
  const fu = u - i;
  const fv = v - j;
  const k = j * field.columns + i;
  const h = field.heights;
  const a = (h[k] ?? 0) * (1 - fu) + (h[k + 1] ?? 0) * fu;
  const b = (h[k + field.columns] ?? 0) * (1 - fu) + (h[k + field.columns + 1] ?? 0) * fu;
  return a * (1 - fv) + b * fv;
}

/** A line of equal value. Greater values are to the left of its direction with y up, which is to the right on the drawing. */
export interface FieldLine {
  readonly xy: readonly number[];
  readonly closed: boolean;
}

/** All lines where the field equals the value, over the whole grid, in meters. */
export function fieldLines(field: FloorField, value: number): FieldLine[] {
  const { columns, rows, heights } = field;
  // Edge keys: 2k for the edge from corner k to the right, 2k + 1 for the edge downward. Each crossed edge leads to the next.
  const next = new Map<number, number>();
  const isNext = new Set<number>();
  const link = (from: number, to: number): void => {
    next.set(from, to);
    isNext.add(to);
  };
  for (let j = 0; j + 1 < rows; j += 1) {
    for (let i = 0; i + 1 < columns; i += 1) {
      const k = j * columns + i;
      const a = (heights[k] ?? 0) >= value;
      const b = (heights[k + 1] ?? 0) >= value;
      const c = (heights[k + columns + 1] ?? 0) >= value;
      const d = (heights[k + columns] ?? 0) >= value;
      const code = (a ? 1 : 0) | (b ? 2 : 0) | (c ? 4 : 0) | (d ? 8 : 0);
      if (code === 0 || code === 15) continue;
      const top = 2 * k;
      const right = 2 * (k + 1) + 1;
      const bottom = 2 * (k + columns);
      const left = 2 * k + 1;
      // Directed so that the greater values are to the right of the line on the drawing.
      switch (code) {
        case 1:
          link(top, left);
          break;
        case 2:
          link(right, top);
          break;
        case 3:
          link(right, left);
          break;
        case 4:
          link(bottom, right);
          break;
        case 6:
          link(bottom, top);
          break;
        case 7:
          link(bottom, left);
          break;
        case 8:
          link(left, bottom);
          break;
        case 9:
          link(top, bottom);
          break;
        case 11:
          link(right, bottom);
          break;
        case 12:
          link(left, right);
          break;
        case 13:
          link(top, right);
          break;
        case 14:
          link(left, top);
          break;
        default: {
          const middle = ((heights[k] ?? 0) + (heights[k + 1] ?? 0) + (heights[k + columns + 1] ?? 0) + (heights[k + columns] ?? 0)) / 4;
          const isJoined = middle >= value;
          if (code === 5) {
            link(isJoined ? top : top, isJoined ? right : left);
            link(bottom, isJoined ? left : right);
          } else {
            link(left, isJoined ? top : bottom);
            link(right, isJoined ? bottom : top);
          }
        }
      }
    }
  }
  const place = (edge: number): [number, number] => {
    const k = edge >> 1;
    const m = (edge & 1) === 0 ? k + 1 : k + columns;
    const p = heights[k] ?? 0;
    const q = heights[m] ?? 0;
    const t = p === q ? 0.5 : (value - p) / (q - p);
    const i = k % columns;
    const j = Math.floor(k / columns);
    return [field.x0M + (i + ((edge & 1) === 0 ? t : 0)) * field.stepM, field.y0M + (j + ((edge & 1) === 1 ? t : 0)) * field.stepM];
  };
  const lines: FieldLine[] = [];
  const walk = (start: number): void => {
    const xy: number[] = [...place(start)];
    let current: number | undefined = next.get(start);
    next.delete(start);
    while (current !== undefined && current !== start) {
      xy.push(...place(current));
      const after = next.get(current);
      next.delete(current);
      current = after;
    }
    lines.push({ xy, closed: current === start });
  };
  for (const start of [...next.keys()]) if (next.has(start) && !isNext.has(start)) walk(start);
  for (const start of [...next.keys()]) if (next.has(start)) walk(start);
  return lines;
}
