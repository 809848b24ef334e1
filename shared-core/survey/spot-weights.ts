/** Weights of the spots around a place in its height. */
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** Weight of each of a cell's three spots at a point of it; the weights add to one. */
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
