/** Problems of a plan, each with a message and its place, so that the user can see where. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { formatLength } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { placeOpening, wallOf } from './openings.ts';
import { between, distanceM, nearestOnSegment, SAME_PLACE_M, sidesOf, cross } from './point.ts';
import { pointInRing } from './region.ts';
import { ringAreaM2 } from './polygon.ts';

export type PlanProblemKind =
  | 'few-corners'
  | 'repeated-corner'
  | 'self-crossing'
  | 'no-area'
  | 'hole-outside'
  | 'hole-crosses-wall'
  | 'holes-overlap'
  | 'opening-wall-missing'
  | 'opening-too-wide'
  | 'openings-overlap'
  | 'diagonal-corner-missing';

/** One problem, its message and its place on the plan; `subjectId` is the cutout or opening concerned, null for the outline. */
export type PlanProblem = {
  readonly kind: PlanProblemKind;
  readonly message: string;
  readonly point: Point;
  readonly subjectId: string | null;
};

const ORIGIN: Point = { xM: 0, yM: 0 };

type Ring = { readonly corners: readonly Point[]; readonly name: string; readonly id: string | null };

/** Problems of a single ring: too few corners, two at the same point, a self-crossing, no area. */
export function ringProblems({ corners, name, id }: Ring): readonly PlanProblem[] {
  const problem = (kind: PlanProblemKind, message: string, point: Point): PlanProblem => ({ kind, message, point, subjectId: id });
  if (corners.length < 3) {
    const count = corners.length === 0 ? 'no corners yet' : corners.length === 1 ? '1 corner' : `${corners.length} corners`;
    return [problem('few-corners', `${name} has ${count}. It needs at least 3.`, corners[0] ?? ORIGIN)];
  }
  const problems: PlanProblem[] = [];
  for (const [i, a] of corners.entries()) {
    for (const [j, b] of corners.entries()) {
      if (j <= i || distanceM(a, b) >= SAME_PLACE_M) continue;
      problems.push(problem('repeated-corner', `${name}: corners ${i + 1} and ${j + 1} are at the same point. Move or delete one.`, a));
    }
  }
  if (problems.length > 0) return problems;
  const sides = sidesOf(corners);
  const last = sides.length - 1;
  for (const [i, side] of sides.entries()) {
    for (const [j, other] of sides.entries()) {
      if (j <= i) continue;
      const isNext = j === i + 1 || (i === 0 && j === last);
      const shared = j === i + 1 ? side.to : side.from;
      const ends = j === i + 1 ? [side.from, other.to] : [side.to, other.from];
      const point = isNext ? doublingBack(shared, ends[0], ends[1]) : meetingOf(side.from, side.to, other.from, other.to);
      if (point === null) continue;
      const fault = isNext ? 'doubles back over itself' : 'crosses or touches itself';
      problems.push(problem('self-crossing', `${name} ${fault} where sides ${i + 1} and ${j + 1} meet. Move a corner.`, point));
    }
  }
  if (problems.length === 0 && ringAreaM2(corners) < SAME_PLACE_M ** 2) {
    problems.push(problem('no-area', `${name} has no area. Its corners are on one line.`, corners[0] ?? ORIGIN));
  }
  return problems;
}

/** Detects two adjacent sides that fold onto each other: the nearer end is on the other side. */
function doublingBack(shared: Point, a: Point | undefined, b: Point | undefined): Point | null {
  if (a === undefined || b === undefined) return null;
  const [near, far] = distanceM(shared, a) < distanceM(shared, b) ? [a, b] : [b, a];
  return nearestOnSegment(near, shared, far).offM < SAME_PLACE_M ? near : null;
}

function firstCrossing(a: readonly Point[], b: readonly Point[]): Point | null {
  for (const side of sidesOf(a)) {
    for (const other of sidesOf(b)) {
      const point = crossingOf(side.from, side.to, other.from, other.to);
      if (point !== null) return point;
    }
  }
  return null;
}

/** Corners and points along the sides: enough to locate a ring that crosses nothing. */
function samples(ring: readonly Point[]): readonly Point[] {
  return sidesOf(ring).flatMap(({ from, to }) => [from, between(from, to, 0.25), between(from, to, 0.5), between(from, to, 0.75)]);
}

function holeProblems(plan: Plan): readonly PlanProblem[] {
  const problems: PlanProblem[] = [];
  const named = plan.holes.map((hole) => ({ ...hole, label: hole.name.trim() === '' ? `The cutout (${hole.kind})` : `“${hole.name}”` }));
  for (const [index, hole] of named.entries()) {
    const holeFaults = ringProblems({ corners: hole.corners, name: hole.label, id: hole.id });
    problems.push(...holeFaults);
    if (holeFaults.length > 0) continue;
    const crossesAt = firstCrossing(hole.corners, plan.outline);
    const points = samples(hole.corners);
    const outside = points.find((p) => pointInRing(p, plan.outline, SAME_PLACE_M) === 'outside');
    const isIn = points.some((p) => pointInRing(p, plan.outline, SAME_PLACE_M) === 'inside');
    if (crossesAt !== null || (outside !== undefined && isIn)) {
      const message = `${hole.label} crosses a wall. Move it inside the room, or draw the wall around it.`;
      problems.push({ kind: 'hole-crosses-wall', message, point: crossesAt ?? outside ?? ORIGIN, subjectId: hole.id });
    } else if (outside !== undefined) {
      problems.push({
        kind: 'hole-outside',
        message: `${hole.label} is outside the room. Move it inside or delete it.`,
        point: outside,
        subjectId: hole.id,
      });
    }
    for (const other of named.slice(index + 1)) {
      if (other.corners.length < 3) continue;
      const point =
        firstCrossing(hole.corners, other.corners) ??
        samples(hole.corners).find((p) => pointInRing(p, other.corners, SAME_PLACE_M) === 'inside') ??
        samples(other.corners).find((p) => pointInRing(p, hole.corners, SAME_PLACE_M) === 'inside') ??
        (isSameRing(hole.corners, other.corners) ? hole.corners[0] : undefined);
      if (point === undefined) continue;
      const message = `${hole.label} and ${other.label} overlap. Move one of them.`;
      problems.push({ kind: 'holes-overlap', message, point, subjectId: hole.id });
    }
  }
  return problems;
}

function isSameRing(a: readonly Point[], b: readonly Point[]): boolean {
  return a.every((p) => pointInRing(p, b, SAME_PLACE_M) === 'edge') && b.every((p) => pointInRing(p, a, SAME_PLACE_M) === 'edge');
}

function openingProblems(plan: Plan, units: UnitSystem, locale: string | undefined): readonly PlanProblem[] {
  const problems: PlanProblem[] = [];
  for (const [index, opening] of plan.openings.entries()) {
    const name = opening.name.trim() === '' ? `The opening (${opening.kind.replace('-', ' ')})` : `“${opening.name}”`;
    const wall = wallOf(plan, opening.wall);
    if (wall === null) {
      const message = `${name} is in wall ${opening.wall + 1}, but the room has ${plan.outline.length} walls. Choose its wall again.`;
      problems.push({ kind: 'opening-wall-missing', message, point: plan.outline[0] ?? ORIGIN, subjectId: opening.id });
      continue;
    }
    const point = placeOpening(plan, opening)?.middle ?? wall.from;
    const [width, length] = [formatLength(opening.widthM, units, locale), formatLength(wall.lengthM, units, locale)];
    if (opening.widthM > wall.lengthM + SAME_PLACE_M) {
      const message = `${name} is ${width} wide and its wall is ${length} long. Make it narrower or choose another wall.`;
      problems.push({ kind: 'opening-too-wide', message, point: between(wall.from, wall.to, 0.5), subjectId: opening.id });
    } else if (opening.fromM + opening.widthM > wall.lengthM + SAME_PLACE_M) {
      const most = formatLength(wall.lengthM - opening.widthM, units, locale);
      const message = `${name} runs past the end of its wall, which is ${length} long. Start it at most ${most} from the corner.`;
      problems.push({ kind: 'opening-too-wide', message, point: wall.to, subjectId: opening.id });
    }
    for (const other of plan.openings.slice(index + 1)) {
      const gapM = Math.max(opening.fromM, other.fromM) - Math.min(opening.fromM + opening.widthM, other.fromM + other.widthM);
      if (other.wall !== opening.wall || gapM > -SAME_PLACE_M) continue;
      const message = `${name} and ${other.name.trim() === '' ? 'another opening' : `“${other.name}”`} overlap in one wall. Move one of them.`;
      problems.push({ kind: 'openings-overlap', message, point, subjectId: opening.id });
    }
  }
  return problems;
}

/**
 * All problems of a plan, worst first; empty when there are none. A cutout may touch a wall or another cutout, as a
 * hearth does, but may not cross one.
 */
export function planProblems(plan: Plan, units: UnitSystem, locale?: string): readonly PlanProblem[] {
  const outline = ringProblems({ corners: plan.outline, name: 'The outline', id: null });
  const diagonals = plan.diagonals
    .filter(({ from, to }) => plan.outline[from] === undefined || plan.outline[to] === undefined || from === to)
    .map(({ from, to }): PlanProblem => {
      const message = `A diagonal from corner ${from + 1} to corner ${to + 1} is recorded, but the room has no such corners. Record it again.`;
      return { kind: 'diagonal-corner-missing', message, point: plan.outline[0] ?? ORIGIN, subjectId: null };
    });
  if (outline.length > 0) return [...outline, ...openingProblems(plan, units, locale), ...diagonals];
  return [...holeProblems(plan), ...openingProblems(plan, units, locale), ...diagonals];
}

/** The crossing point inside both segments; null when they only touch, are apart or overlap along a line. */
function crossingOf(a: Point, b: Point, c: Point, d: Point): Point | null {
  const [abc, abd, cda, cdb] = [cross(a, b, c), cross(a, b, d), cross(c, d, a), cross(c, d, b)];
  const slackAb = SAME_PLACE_M * distanceM(a, b);
  const slackCd = SAME_PLACE_M * distanceM(c, d);
  const partsAb = Math.abs(abc) > slackAb && Math.abs(abd) > slackAb && abc > 0 !== abd > 0;
  const partsCd = Math.abs(cda) > slackCd && Math.abs(cdb) > slackCd && cda > 0 !== cdb > 0;
  return partsAb && partsCd ? between(a, b, cda / (cda - cdb)) : null;
}

/** The crossing point, or an end of one segment that is on the other. */
function meetingOf(a: Point, b: Point, c: Point, d: Point): Point | null {
  const touches = [
    { point: c, off: nearestOnSegment(c, a, b).offM },
    { point: d, off: nearestOnSegment(d, a, b).offM },
    { point: a, off: nearestOnSegment(a, c, d).offM },
    { point: b, off: nearestOnSegment(b, c, d).offM },
  ];
  return crossingOf(a, b, c, d) ?? touches.find(({ off }) => off < SAME_PLACE_M)?.point ?? null;
}
