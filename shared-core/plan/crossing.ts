/** Finds where two segments cross or touch, within the tolerance for one point. */
import type { Point } from '../book/fields.ts';
import { between, cross, distanceM, nearestOnSegment, SAME_PLACE_M } from './point.ts';

/** The crossing point inside both segments; null when they only touch, are apart or overlap along a line. */
export function crossingOf(a: Point, b: Point, c: Point, d: Point): Point | null {
  const [abc, abd, cda, cdb] = [cross(a, b, c), cross(a, b, d), cross(c, d, a), cross(c, d, b)];
  const slackAb = SAME_PLACE_M * distanceM(a, b);
  const slackCd = SAME_PLACE_M * distanceM(c, d);
  const partsAb = Math.abs(abc) > slackAb && Math.abs(abd) > slackAb && abc > 0 !== abd > 0;
  const partsCd = Math.abs(cda) > slackCd && Math.abs(cdb) > slackCd && cda > 0 !== cdb > 0;
  return partsAb && partsCd ? between(a, b, cda / (cda - cdb)) : null;
}

/** The crossing point, or an end of one segment that is on the other. */
export function meetingOf(a: Point, b: Point, c: Point, d: Point): Point | null {
  const touches = [
    { point: c, off: nearestOnSegment(c, a, b).offM },
    { point: d, off: nearestOnSegment(d, a, b).offM },
    { point: a, off: nearestOnSegment(a, c, d).offM },
    { point: b, off: nearestOnSegment(b, c, d).offM },
  ];
  return crossingOf(a, b, c, d) ?? touches.find(({ off }) => off < SAME_PLACE_M)?.point ?? null;
}
