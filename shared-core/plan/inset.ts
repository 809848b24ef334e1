/** Offsets a ring inward by a constant distance, as for a perimeter strip. */
import type { Point } from '../book/fields.ts';
import type { Parsed } from '../measure/parsed.ts';
import { meetingOf } from './crossing.ts';
import { sidesOf } from './point.ts';
import { signedAreaM2, turned } from './polygon.ts';

/**
 * Moves a ring inward (outward when negative) with mitered corners. Refused when a side would vanish or reverse,
 * which cannot happen with a thin strip along a room's walls.
 * @param ring a valid outline in either direction
 * @param distanceM distance inward, meters
 * @returns one corner for each corner of the outline, in clockwise order
 */
export function insetRing(ring: readonly Point[], distanceM: number): Parsed<readonly Point[]> {
  const clockwise = turned(ring, 'clockwise');
  const sides = sidesOf(clockwise).map(({ from, to }) => {
    const lengthM = Math.hypot(to.xM - from.xM, to.yM - from.yM);
    return { from, to, x: (to.xM - from.xM) / lengthM, y: (to.yM - from.yM) / lengthM };
  });
  if (sides.length < 3) return { ok: false, message: 'Draw at least 3 corners.' };
  const corners: Point[] = [];
  for (const [i, side] of sides.entries()) {
    const before = sides[(i + sides.length - 1) % sides.length];
    if (before === undefined) continue;
    const sine = before.x * side.y - before.y * side.x;
    const cosine = before.x * side.x + before.y * side.y;
    if (cosine < -0.999) return { ok: false, message: `Corner ${i + 1} is too sharp for a strip along the walls.` };
    const along = (distanceM * sine) / (1 + cosine);
    corners.push({
      xM: side.from.xM - side.y * distanceM + side.x * along,
      yM: side.from.yM + side.x * distanceM + side.y * along,
    });
  }
  const keepsWay = sidesOf(corners).every(({ from, to }, i) => {
    const side = sides[i];
    return side !== undefined && (to.xM - from.xM) * side.x + (to.yM - from.yM) * side.y > 0;
  });
  const moved = sidesOf(corners);
  const crosses = moved.some((one, i) =>
    moved.some((other, j) => {
      const isNeighbor = j - i < 2 || (i === 0 && j === moved.length - 1);
      return !isNeighbor && meetingOf(one.from, one.to, other.from, other.to) !== null;
    }),
  );
  if (!keepsWay || crosses || signedAreaM2(corners) <= 0) return { ok: false, message: 'The room is too narrow for a strip this wide.' };
  return { ok: true, value: corners };
}
