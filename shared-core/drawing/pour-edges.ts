/** Edges on the plan of a pour: direction of each lane, age of each wet edge when the next batch meets it, possible cold joints. */
import type { Point } from '../book/fields.ts';
import type { PourLayout } from '../pour/layout.ts';
import type { ColdJoint } from '../pour/cold-joints.ts';
import { joinKey, type Join, type JoinAge } from '../pour/joins.ts';
import { between } from '../plan/point.ts';
import { isInside, type Rings } from './ring-clip.ts';
import { groupMark, lineMark, pathMark, ringMark, textMark } from './ink.ts';
import { breakAtBoxes, type LabelSheet, placeFirst, reserve, textBox } from './labels.ts';
import { placeAlways } from './lettering.ts';
import type { Mark } from './marks.ts';
import { isBoxIn } from './plan-floor.ts';
import { toSheet, type PlanFit } from './plan-walls.ts';
import { SANS_BOLD, SANS } from './type-metrics.ts';

/** A lane's start and fill direction, on the room's axes; `toward` is a unit vector. */
export interface LaneWay {
  readonly id: string;
  readonly from: Point;
  readonly toward: { readonly x: number; readonly y: number };
}

/** The age of an edge, where it is oldest when the next batch meets it. */
export interface EdgeFigure {
  readonly id: string;
  readonly label: string;
  readonly point: Point;
  readonly text: string;
  /** Past the healing time: bold, in chalk. */
  readonly isCold: boolean;
}

/** A stretch of a join past its healing time, with its letter. */
export interface JoinWatched {
  readonly id: string;
  readonly letter: string;
  readonly line: readonly [Point, Point];
  readonly point: Point;
}

const ARROW_PX = 15;
const FIGURE_PX = 15;
/** How far from a lane's start its number may stand. */
const NUMBER_AHEAD_PX = Array.from({ length: 16 }, (_, k) => 34 + 8 * k);

/** Where each lane of a room begins and which way it runs. */
export function laneWays(layout: PourLayout, roomId: string): LaneWay[] {
  return layout.lanes.flatMap((lane): LaneWay[] => {
    if (lane.roomId !== roomId) return [];
    const corners = lane.pieces.flatMap((piece) => piece.outline);
    const along = (p: Point) => p.xM * lane.axes.ux + p.yM * lane.axes.uy;
    const across = (p: Point) => p.yM * lane.axes.ux - p.xM * lane.axes.uy;
    const sign = lane.forward ? 1 : -1;
    const first = Math.min(...corners.map((p) => sign * along(p)));
    // The middle of the lane's starting end: corners within 0.1 m of it.
    const end = corners.filter((p) => sign * along(p) - first < 0.1).sort((a, b) => across(a) - across(b));
    const [low, high] = [end[0], end.at(-1)];
    if (low === undefined || high === undefined) return [];
    return [{ id: String(lane.number), from: between(low, high, 0.5), toward: { x: sign * lane.axes.ux, y: sign * lane.axes.uy } }];
  });
}

/** The room of a join; for a doorway, the room that is poured later. */
export function roomOfJoin(layout: PourLayout, join: Join): string {
  const lane = join.kind === 'batch' ? (layout.batches[join.newer - 1]?.lane ?? 0) : join.newer;
  return layout.lanes[lane - 1]?.roomId ?? '';
}

/** Names a join in a sentence: `lane 2 beside lane 3`, `batch 4 to batch 5`, `through the doorway, lane 3 to lane 6`. */
export function joinWords(join: Pick<Join, 'kind' | 'newer' | 'older'>): string {
  if (join.kind === 'batch') return `batch ${join.older} to batch ${join.newer}`;
  return join.kind === 'doorway'
    ? `through the doorway, lane ${join.older} to lane ${join.newer}`
    : `lane ${join.older} beside lane ${join.newer}`;
}

/** The maximum age of each edge between lanes of a room, for the plan; `text` formats minutes. */
export function edgeFigures(
  layout: PourLayout,
  roomId: string,
  ages: readonly JoinAge[],
  healingMin: number,
  text: (minutes: number) => string,
): EdgeFigure[] {
  return ages
    .filter((age) => age.join.kind !== 'batch' && roomOfJoin(layout, age.join) === roomId)
    .map((age) => ({
      id: joinKey(age.join),
      label: `${joinWords(age.join)}: ${text(age.mostMin)} old when met`,
      point: age.point,
      text: text(age.mostMin),
      isCold: age.mostMin > healingMin,
    }));
}

/** A possible cold joint as it is drawn: all of the stretch that was met too late. */
export function joinWatched(joint: ColdJoint, letter: string): JoinWatched {
  return { id: joinKey(joint), letter, line: [joint.from, joint.to], point: joint.point };
}

/** Letters for joins to watch in order: A, B, … */
export const joinLetter = (n: number): string => (n < 26 ? String.fromCharCode(65 + n) : String(n + 1));

/** A lane's start on the drawing, and the way it is filled from there. */
function startOf(
  { from, toward }: LaneWay,
  fit: PlanFit,
): { readonly x: number; readonly y: number; readonly ux: number; readonly uy: number } {
  const [x, y] = toSheet(fit, from);
  const [tx, ty] = toSheet(fit, { xM: from.xM + toward.x, yM: from.yM + toward.y });
  const d = Math.hypot(tx - x, ty - y);
  return { x, y, ux: (tx - x) / d, uy: (ty - y) / d };
}

/** Arrows at the start of each lane. Their places are reserved, so that figures avoid them. */
export function wayMarks(ways: readonly LaneWay[], fit: PlanFit, sheet: LabelSheet): Mark[] {
  return ways.map((way) => {
    const { x, y, ux, uy } = startOf(way, fit);
    const [x0, y0, x1, y1] = [x + 5 * ux, y + 5 * uy, x + (5 + ARROW_PX) * ux, y + (5 + ARROW_PX) * uy];
    reserve(sheet, { x: (x0 + x1) / 2, y: (y0 + y1) / 2, halfWidth: ARROW_PX / 2 + 2, halfHeight: 5, turn: Math.atan2(uy, ux) });
    const head = [x1, y1, x1 - 6 * ux - 3 * uy, y1 - 6 * uy + 3 * ux, x1 - 6 * ux + 3 * uy, y1 - 6 * uy - 3 * ux];
    return groupMark(`way:${way.id}`, `lane ${way.id} is filled from here`, [
      lineMark([x0, y0, x1 - 5 * ux, y1 - 5 * uy], { pen: 'seen' }),
      ringMark(head, { pen: 'thin', fill: 'ink' }),
    ]);
  });
}

/** The number of each lane in bold, as close before its arrow as is free within the lane; none where the lane is too narrow. */
export function laneNumbers(ways: readonly LaneWay[], fit: PlanFit, lanes: Rings, sheet: LabelSheet): Mark[] {
  const setting = { anchor: 'middle' as const, sizePx: FIGURE_PX, face: SANS_BOLD };
  return ways.flatMap((way) => {
    const { x, y, ux, uy } = startOf(way, fit);
    const candidates = NUMBER_AHEAD_PX.map((ahead) => {
      const at = { x: x + ahead * ux, y: y + ahead * uy + FIGURE_PX * 0.34 };
      return { ...at, box: textBox(at.x, at.y, way.id, { ...setting, air: 1 }) };
    });
    const place = placeFirst(sheet, candidates, (box) => lanes.some((lane) => isBoxIn(box, [lane])));
    return place === null ? [] : [textMark(place.x, place.y, way.id, setting)];
  });
}

/** Ages on the edges, each at its oldest point or a little beside it where that is taken; left out where nothing is free. */
export function figureMarks(figures: readonly EdgeFigure[], fit: PlanFit, room: Rings, sheet: LabelSheet): Mark[] {
  return figures.flatMap((figure): Mark[] => {
    const [x, y] = toSheet(fit, figure.point);
    const setting = { anchor: 'middle' as const, sizePx: FIGURE_PX, face: figure.isCold ? SANS_BOLD : SANS };
    const candidates = [0, 16, -16, 30, -30, 46, -46]
      .flatMap((offset) => [
        { x, y: y + offset },
        { x: x + offset, y },
      ])
      .filter((at) => [-FIGURE_PX, FIGURE_PX].every((off) => isInside(at.x, at.y + off, room)))
      .map((at) => {
        const baseY = at.y + FIGURE_PX * 0.34;
        return { x: at.x, y: baseY, box: textBox(at.x, baseY, figure.text, { ...setting, air: 1 }) };
      });
    const place = placeFirst(sheet, candidates);
    if (place === null) return [];
    const text = textMark(place.x, place.y, figure.text, { ...setting, ink: figure.isCold ? 'chalk' : 'ink' });
    return [groupMark(`edge-age:${figure.id}`, figure.label, [text])];
  });
}

/** A join to watch with the position of its letter on the drawing, and the leader to it where it is not on the join. */
type WatchedOnSheet = {
  readonly join: JoinWatched;
  readonly line: readonly number[];
  readonly x: number;
  readonly y: number;
  readonly leader: readonly Mark[];
};

/**
 * Places the letter of each join to watch at its oldest point, as close to it along the stretch as is free, or else beside it with a leader,
 * because the list names it.
 */
export function placeWatched(joins: readonly JoinWatched[], fit: PlanFit, sheet: LabelSheet): WatchedOnSheet[] {
  const boxAt = (x: number, y: number) => ({ x, y, halfWidth: 11, halfHeight: 11, turn: 0 });
  return joins.flatMap((join): WatchedOnSheet[] => {
    const line = [...toSheet(fit, join.line[0]), ...toSheet(fit, join.line[1])];
    const [ax = 0, ay = 0, bx = 0, by = 0] = line;
    const [px, py] = toSheet(fit, join.point);
    const candidates = Array.from({ length: 17 }, (_, k) => {
      const toward = k % 2 === 0 ? [ax, ay] : [bx, by];
      const share = Math.ceil(k / 2) / 8;
      const [x, y] = [px + ((toward[0] ?? 0) - px) * share, py + ((toward[1] ?? 0) - py) * share];
      return { box: boxAt(x, y), leader: [] };
    });
    const placed = placeFirst(sheet, candidates) ?? placeAlways(sheet, { x: (ax + bx) / 2, y: (ay + by) / 2 }, boxAt);
    return placed === null ? [] : [{ join, line, x: placed.box.x, y: placed.box.y, leader: placed.leader }];
  });
}

/** Joins to watch: a heavy line along the stretch, with gaps at its letter and at every other label. */
export function watchMarks(joins: readonly WatchedOnSheet[], sheet: LabelSheet): Mark[] {
  return joins.map(({ join, line, x, y, leader }) =>
    groupMark(`watch:${join.id}`, `possible cold joint ${join.letter}`, [
      pathMark(breakAtBoxes(line, sheet.taken), false, { pen: 'cut', ink: 'chalk' }),
      ...leader,
      textMark(x, y + 5, join.letter, { anchor: 'middle', sizePx: 16, face: SANS_BOLD, ink: 'chalk' }),
    ]),
  );
}
