import type { Point } from '../../shared-core/book/fields.ts';
import { boundsOf, centroidOf } from '../../shared-core/plan/polygon.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';

type Surveyed = Extract<SurveyedRoom, { state: 'surveyed' }>;

/** `drawn` is a line drawn on the plan; the others follow from the floor. */
export const SECTION_WORDS = {
  long: 'along the room',
  across: 'across the room',
  worst: 'through the max gap',
  drawn: 'along a line drawn on the plan',
};
export type SectionChoice = keyof typeof SECTION_WORDS;
export const DRAWN_HINT = 'Drag its ends, or select its start and its end.';
export type SectionLine = { readonly from: Point; readonly to: Point };

/** A line through a point in a direction, extended past the room at both ends. */
function through(point: Point, x: number, y: number, reachM: number): SectionLine {
  return { from: { xM: point.xM - x * reachM, yM: point.yM - y * reachM }, to: { xM: point.xM + x * reachM, yM: point.yM + y * reachM } };
}

/** The line of a choice; null where the room has none. */
export function sectionLine(
  choice: SectionChoice,
  outline: readonly Point[],
  surveyed: Surveyed,
  drawn: readonly Point[],
): SectionLine | null {
  const box = boundsOf(outline);
  const middle = centroidOf(outline);
  if (box === null || middle === null) return null;
  const [wide, deep] = [box.rightM - box.leftM, box.bottomM - box.topM];
  const reachM = Math.hypot(wide, deep);
  const { worst } = surveyed.flatness;
  const [a, b] = drawn;
  if (choice === 'drawn' && a !== undefined && b !== undefined) return { from: a, to: b };
  if (choice === 'worst' && worst.point !== null && worst.directionDeg !== null) {
    const angle = (worst.directionDeg * Math.PI) / 180;
    return through(worst.point, Math.cos(angle), Math.sin(angle), reachM);
  }
  const isWide = wide >= deep;
  const level = { from: { xM: box.leftM, yM: middle.yM }, to: { xM: box.rightM, yM: middle.yM } };
  const upright = { from: { xM: middle.xM, yM: box.topM }, to: { xM: middle.xM, yM: box.bottomM } };
  return (choice === 'across') === isWide ? upright : level;
}
