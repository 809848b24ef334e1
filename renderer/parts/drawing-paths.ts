import { DASHES, type Ink, type Mark, PEN_WIDTH, type PathMark, type Ring } from '../../shared-core/drawing/marks.ts';

const round = (v: number): string => (Math.round(v * 100) / 100).toString();

export function linePath(xy: readonly number[], closed: boolean): string {
  let d = '';
  for (let i = 0; i + 1 < xy.length; i += 2) d += `${i === 0 ? 'M' : 'L'}${round(xy[i] ?? 0)} ${round(xy[i + 1] ?? 0)}`;
  return closed && d !== '' ? `${d}Z` : d;
}

export function ringsPath(rings: readonly Ring[]): string {
  return rings.map((ring) => linePath(ring.xy, ring.closed)).join('');
}

const dots = new WeakMap<readonly number[], string>();

/** All dots as strokes of no length with round ends, so that they are one element. Written once per drawing. */
export function dotsPath(xy: readonly number[]): string {
  const known = dots.get(xy);
  if (known !== undefined) return known;
  let d = '';
  for (let i = 0; i + 1 < xy.length; i += 2) d += `M${round(xy[i] ?? 0)} ${round(xy[i + 1] ?? 0)}h0`;
  dots.set(xy, d);
  return d;
}

export function inkColor(ink: Ink): string {
  return ink === 'ink2' ? 'var(--ink-2)' : `var(--${ink})`;
}

export function strokeOf(mark: PathMark): Record<string, string | number> {
  if (mark.pen === null) return { stroke: 'none' };
  return {
    stroke: inkColor(mark.ink),
    strokeWidth: PEN_WIDTH[mark.pen],
    ...(mark.dash === null ? {} : { strokeDasharray: DASHES[mark.dash].join(' ') }),
  };
}

/** The center of a list of marks, for moving between groups by arrow keys; null when it is empty. */
export function middleOf(marks: readonly Mark[]): { readonly x: number; readonly y: number } | null {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  const take = (xy: readonly number[]) => {
    for (let i = 0; i + 1 < xy.length; i += 2) {
      const x = xy[i] ?? 0;
      const y = xy[i + 1] ?? 0;
      box.x0 = Math.min(box.x0, x);
      box.x1 = Math.max(box.x1, x);
      box.y0 = Math.min(box.y0, y);
      box.y1 = Math.max(box.y1, y);
    }
  };
  const walk = (list: readonly Mark[]) => {
    for (const mark of list) {
      if (mark.kind === 'group') walk(mark.marks);
      else if (mark.kind === 'text') take([mark.x, mark.y]);
      else if (mark.kind === 'stipple') take(mark.xy);
      else for (const ring of mark.rings) take(ring.xy);
    }
  };
  walk(marks);
  return box.x0 > box.x1 ? null : { x: (box.x0 + box.x1) / 2, y: (box.y0 + box.y1) / 2 };
}

export interface Place {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

/** The arrow keys, each with its direction on the screen. */
export const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowDown: [0, 1],
  ArrowUp: [0, -1],
};

/** The nearest place in an arrow key's direction, straight ahead before sideways; null for none or another key. */
export function placeThatWay(places: readonly Place[], from: Place, key: string): Place | null {
  const way = ARROWS[key];
  if (way === undefined) return null;
  let best: Place | null = null;
  let bestCost = Infinity;
  for (const place of places) {
    const dx = place.x - from.x;
    const dy = place.y - from.y;
    const distance = dx * way[0] + dy * way[1];
    if (place.name === from.name || distance <= 0.5) continue;
    const cost = distance + 2.5 * Math.abs(dx * way[1] - dy * way[0]);
    if (cost < bestCost) {
      best = place;
      bestCost = cost;
    }
  }
  return best;
}
