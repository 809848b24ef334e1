/** The cure schedule's drawing: each room's pour, its milestones, its promised dates, and its temperature log. */
import { scaleX, type Scale } from './datum.ts';
import { boxMark, circleRing, groupMark, hatchMark, lineMark, ringMark } from './ink.ts';
import { startSheet } from './labels.ts';
import { placeText, reserveMarks, type Lettering } from './lettering.ts';
import type { Mark } from './marks.ts';
import { dryingBar, peg, pointer, rangeMark } from './shapes.ts';
import { SANS_BOLD } from './type-metrics.ts';

/** A milestone of a poured floor; times in days on the scale. */
export interface CureMilestone {
  readonly id: string;
  readonly earliest: number;
  readonly likely: number;
  readonly latest: number;
  /** All promised dates, oldest first; empty when there are none. */
  readonly promised: readonly number[];
  readonly isDone: boolean;
  /** The last promised date is late or at risk. */
  readonly isLate: boolean;
  /** A drying milestone is drawn as a bar of thinning dots. */
  readonly isDrying: boolean;
  readonly label: string;
}

/** One room's temperature log and the temperatures assumed after it. */
export interface CureLog {
  readonly readings: readonly { readonly day: number; readonly tempC: number }[];
  readonly assumedC: number;
  readonly assumedTo: number;
  readonly assumedText: string;
  readonly leastC: number;
  readonly leastText: string;
  /** Spans below the minimum temperature, when curing was paused. */
  readonly stoodStill: readonly { readonly from: number; readonly to: number }[];
}

/** One room of the schedule. */
export interface CureRoom {
  readonly id: string;
  readonly pouredAt: number;
  readonly milestones: readonly CureMilestone[];
  readonly log: CureLog | null;
}

/** A room's row positions on the drawing; the words at the left use the same y values. */
export interface CureRowsAt {
  readonly topY: number;
  readonly rowPx: number;
  readonly scale: Scale;
  /** The current time, in days on the scale. */
  readonly now: number;
}

/** Center y of each milestone of a room, and of its log. */
export function cureRowYs(
  room: Pick<CureRoom, 'milestones' | 'log'>,
  rows: Pick<CureRowsAt, 'topY' | 'rowPx'>,
): { milestones: number[]; logTop: number; bottom: number } {
  const milestones = room.milestones.map((_, i) => rows.topY + (i + 0.5) * rows.rowPx);
  const logTop = rows.topY + room.milestones.length * rows.rowPx + 6;
  return { milestones, logTop, bottom: room.log ? logTop + 40 : logTop };
}

/** A room's marks below the datum. */
export function cureRoomMarks(room: CureRoom, rows: CureRowsAt): Mark[] {
  const { scale } = rows;
  const ys = cureRowYs(room, rows);
  const pourX = scaleX(scale, Math.max(scale.from, Math.min(scale.to, room.pouredAt)));
  const marks: Mark[] = [];
  const clampX = (day: number): number => Math.max(scale.x0, Math.min(scale.x1, scaleX(scale, day)));
  room.milestones.forEach((m, i) => {
    const y = ys.milestones[i] ?? rows.topY;
    const likely = clampX(m.likely);
    const parts: Mark[] = [];
    if (m.isDrying && likely - pourX > 3) {
      parts.push(...dryingBar({ x: pourX + 2, y: y - 8, width: likely - pourX - 2, height: 16 }));
    } else parts.push(lineMark([pourX, y, likely, y], { pen: 'thin', ink: 'line' }));
    if (m.isDone) parts.push(ringMark(circleRing(likely, y, 5), { pen: null, fill: 'ink' }));
    else parts.push(...rangeMark(clampX(m.earliest), likely, clampX(m.latest), y));
    m.promised.forEach((p, k) => {
      const isLast = k === m.promised.length - 1;
      const x = clampX(p);
      parts.push(peg(x, y - 9, m.isLate && (isLast || p < m.likely)));
    });
    marks.push(groupMark(`milestone:${room.id}:${m.id}`, m.label, parts));
  });
  const lastRowY = ys.milestones[ys.milestones.length - 1] ?? rows.topY;
  marks.push(lineMark([pourX, rows.topY, pourX, lastRowY + 12], { pen: 'pour' }));
  if (room.log) {
    const log = logMarks(room.log, room, ys.logTop, rows, pourX);
    const left = scale.x0 - 24;
    const sheet = startSheet({ x: left, y: ys.logTop - 6, width: scale.x1 - left, height: 50 });
    const nowX = scaleX(scale, rows.now);
    reserveMarks(sheet, [...marks, ...log.marks, lineMark([nowX, rows.topY, nowX, ys.bottom + 10])]);
    const words = log.words.map((candidates) => placeText(sheet, candidates)).filter((m) => m !== null);
    marks.push(groupMark(`log:${room.id}`, 'Temperature of the room', [...log.marks, ...words]));
  }
  return marks;
}

/** The log's lines, and where the words for the assumed and the minimum temperature may go. */
function logMarks(
  log: CureLog,
  room: CureRoom,
  top: number,
  rows: CureRowsAt,
  pourX: number,
): { readonly marks: Mark[]; readonly words: readonly (readonly Lettering[])[] } {
  const { scale } = rows;
  const marks: Mark[] = [];
  const temps = [...log.readings.map((r) => r.tempC), log.assumedC, log.leastC];
  const hot = Math.max(...temps);
  const cold = Math.min(...temps);
  const height = 30;
  // The scale spans at least ten degrees, so that a steady room does not look unsteady.
  const span = Math.max(10, hot - cold);
  const y = (c: number): number => top + 4 + ((hot - c) / span) * height;
  const clampX = (day: number): number => Math.max(scale.x0, Math.min(scale.x1, scaleX(scale, day)));
  const line = log.readings
    .filter((r) => r.day >= room.pouredAt - 1e-9 && r.day >= scale.from && r.day <= scale.to)
    .flatMap((r) => [scaleX(scale, r.day), y(r.tempC)]);
  const leastY = y(log.leastC);
  const now = clampX(rows.now);
  const to = clampX(log.assumedTo);
  marks.push(lineMark([pourX, leastY, to, leastY], { pen: 'witness', ink: 'line', dash: 'dots' }));
  for (const s of log.stoodStill) {
    const a = clampX(s.from);
    const b = Math.max(a + 3, clampX(s.to));
    const box = { x: a, y: top - 1, width: b - a, height: height + 12 };
    marks.push(hatchMark([[box.x, box.y, b, box.y, b, box.y + box.height, a, box.y + box.height]], 'grind'), boxMark(box, { pen: 'thin' }));
  }
  if (line.length >= 4) marks.push(lineMark(line, { pen: 'seen' }));
  const assumedY = y(log.assumedC);
  const from = line.length >= 4 ? now : Math.max(now, pourX);
  if (to > from) marks.push(lineMark([from, assumedY, to, assumedY], { pen: 'thin', dash: 'not-yet' }));
  const assumed = { text: log.assumedText, face: SANS_BOLD };
  const beside = (lineY: number, lettering: { text: string }): Lettering[] => [
    { ...lettering, x: to + 10, y: lineY + 5 },
    ...[-7, 18].flatMap((dy) => [
      { ...lettering, x: to - 12, y: lineY + dy, anchor: 'end' as const },
      { ...lettering, x: from + 8, y: lineY + dy },
      { ...lettering, x: pourX + 8, y: lineY + dy },
    ]),
  ];
  const least: Lettering = { text: log.leastText, x: pourX - 8, y: leastY + 5, anchor: 'end' };
  return { marks, words: [beside(assumedY, assumed), [...beside(leastY, { text: log.leastText }).slice(0, 1), least]] };
}

/** Pieces of the schedule's key, each 30 px wide around x, y: poured, range, promised date, curing paused. */
export function cureKey(
  x: number,
  y: number,
): { readonly poured: Mark[]; readonly range: Mark[]; readonly promise: Mark[]; readonly stoodStill: Mark[] } {
  const box = { x: x - 8, y: y - 8, width: 16, height: 16 };
  return {
    poured: [lineMark([x, y - 9, x, y + 9], { pen: 'pour' })],
    range: [...rangeMark(x - 20, x, x + 20, y), ...pointer(x, y, 11)],
    promise: [peg(x, y + 9, false)],
    stoodStill: [hatchMark([[box.x, box.y, box.x + 16, box.y, box.x + 16, box.y + 16, box.x, box.y + 16]], 'grind'), boxMark(box)],
  };
}
