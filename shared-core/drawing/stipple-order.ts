/** The order in which the dots of the stipple appear. */
import { dotX, dotY, MEAN_OVER_GAP_PX, SHARE, spread, TILE_PX } from './stipple-cells.ts';

/**
 * Farthest-point ordering on a torus: each new dot goes into the largest remaining hole. A random tenth of the distance breaks up
 * the rows that the exact rule would form. It takes about 0.1 s, so the built page has the list made (`build/vite.config.ts`).
 * @returns the cells of the tile that hold a dot, by rank
 */
export function stippleOrder(): Uint32Array {
  const size = TILE_PX;
  const cells = size * size;
  const distances = new Float32Array(cells).fill(1e9);
  const bias = new Float32Array(cells);
  const px = new Float32Array(cells);
  const py = new Float32Array(cells);
  for (let c = 0; c < cells; c += 1) {
    bias[c] = 0.86 + 0.28 * spread(c);
    px[c] = dotX(c);
    py[c] = dotY(c);
  }
  // Buckets by distance, filled lazily: a cell is checked again only when its bucket is reached.
  const finest = 16;
  const buckets: number[][] = Array.from({ length: size * finest }, () => []);
  const count = Math.ceil((size * size * SHARE) / (2.35 + MEAN_OVER_GAP_PX) ** 2);
  const order = new Uint32Array(count);
  let top = -1;
  const level = (c: number): number => Math.min(size * finest - 1, Math.floor((distances[c] ?? 0) * (bias[c] ?? 1) * finest));
  const addDot = (n: number, c: number): void => {
    const x = px[c] ?? 0;
    const y = py[c] ?? 0;
    order[n] = c;
    // No cell is farther from its nearest dot than this, so a new dot cannot be nearest to any cell beyond it.
    const reach = n === 0 ? size : Math.ceil((top + 1) / finest / 0.86) + 2;
    const r = Math.min(size / 2, reach);
    const cx = Math.floor(x);
    const cy = Math.floor(y);
    for (let dy = -r; dy < r; dy += 1) {
      const row = ((cy + dy + size) % size) * size;
      for (let dx = -r; dx < r; dx += 1) {
        const cell = row + ((cx + dx + size) % size);
        let ex = Math.abs((px[cell] ?? 0) - x);
        let ey = Math.abs((py[cell] ?? 0) - y);
        if (ex > size / 2) ex = size - ex;
        if (ey > size / 2) ey = size - ey;
        const d = Math.sqrt(ex * ex + ey * ey);
        if (d < (distances[cell] ?? 0)) distances[cell] = d;
      }
    }
  };
  addDot(0, Math.floor(cells / 2) + 77);
  for (let c = 0; c < cells; c += 1) buckets[level(c)]?.push(c);
  top = buckets.length - 1;
  for (let n = 1; n < count; n += 1) {
    for (;;) {
      const bucket = buckets[top];
      const c = bucket?.pop();
      if (c === undefined) {
        top -= 1;
        continue;
      }
      const currentLevel = level(c);
      if (currentLevel < top) {
        buckets[currentLevel]?.push(c);
        continue;
      }
      addDot(n, c);
      break;
    }
  }
  return order;
}
