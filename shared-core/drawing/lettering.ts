/** Lettering placed by the label engine: the first free candidate is reserved and drawn; without one the text is left out. */
import { groupMark, lineMark, pathMark, runsMarks, stippleMark, textMark, type Setting } from './ink.ts';
import { boundsOf } from './ring-clip.ts';
import {
  breakAtBoxes,
  isFree,
  isLeaderFree,
  placeFirst,
  reserve,
  reserveLeader,
  textBox,
  uprightBox,
  type LabelSheet,
  type TurnedBox,
} from './labels.ts';
import type { GroupMark, Mark, TextMark } from './marks.ts';
import { dimension } from './shapes.ts';
import { FALL, RISE, SANS, textWidthPx } from './type-metrics.ts';

/** A line of text at a place where it may go. */
export interface Lettering extends Setting {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

const boxOf = (l: Lettering): ReturnType<typeof textBox> => textBox(l.x, l.y, l.text, l);

/** The first candidate that is free, drawn and reserved; null when none is. */
export function placeText(sheet: LabelSheet, candidates: readonly Lettering[]): TextMark | null {
  const placed = placeFirst(
    sheet,
    candidates.flatMap((c) => (c.text === '' ? [] : [{ lettering: c, box: boxOf(c) }])),
  );
  return placed && textMark(placed.lettering.x, placed.lettering.y, placed.lettering.text, placed.lettering);
}

/** A line of text where it is free; nothing where it is not. */
export function letters(sheet: LabelSheet, lettering: Lettering): Mark[] {
  const placed = placeText(sheet, [lettering]);
  return placed === null ? [] : [placed];
}

/** The first block of lines of which every line is free and fits, drawn and reserved; null when none is. */
export function placeBlock(
  sheet: LabelSheet,
  blocks: readonly (readonly Lettering[])[],
  fits: (box: ReturnType<typeof textBox>) => boolean,
): TextMark[] | null {
  for (const block of blocks) {
    const boxes = block.map((l) => textBox(l.x, l.y, l.text, { ...l, air: 3 }));
    if (!boxes.every((box) => isFree(sheet, box) && fits(box))) continue;
    for (const box of boxes) reserve(sheet, box);
    return block.map((l) => textMark(l.x, l.y, l.text, l));
  }
  return null;
}

/** Leaders longer than this belong to a label that must not be left out, px. */
const LEADER_MOST_PX = 320;

/**
 * Reserves the nearest free place beside a spot, with a leader that ends in a dot on the spot and crosses nothing.
 * @param boxAt the label's box around a center
 * @param open the drawing with more taken than leaders have to keep clear of
 * @returns null where there is none
 */
export function placeBeside(
  sheet: LabelSheet,
  spot: { readonly x: number; readonly y: number },
  boxAt: (x: number, y: number) => TurnedBox,
  open: LabelSheet = sheet,
): { readonly box: TurnedBox; readonly leader: readonly Mark[] } | null {
  const best = nearestBeside(open, spot, { boxAt, mostPx: LEADER_MOST_PX, isClear: (line) => isLeaderFree(sheet, line) });
  if (best === null) return null;
  reserve(sheet, best.box);
  reserveLeader(sheet, best.line);
  return { box: best.box, leader: [lineMark(best.line, { pen: 'thin' }), stippleMark([spot.x, spot.y], 'ink', 4)] };
}

/**
 * Like `placeBeside`, for a label that is named elsewhere and must not be left out: where every leader would cross something, it has gaps
 * at other labels. Null only on a drawing without a free place.
 */
export function placeAlways(
  sheet: LabelSheet,
  spot: { readonly x: number; readonly y: number },
  boxAt: (x: number, y: number) => TurnedBox,
): ReturnType<typeof placeBeside> {
  const beside = placeBeside(sheet, spot, boxAt);
  if (beside !== null) return beside;
  const best = nearestBeside(sheet, spot, { boxAt, mostPx: Math.hypot(sheet.bounds.width, sheet.bounds.height), isClear: () => true });
  if (best === null) return null;
  const leader = pathMark(breakAtBoxes(best.line, sheet.taken), false, { pen: 'thin' });
  reserve(sheet, best.box);
  reserveLeader(sheet, best.line);
  return { box: best.box, leader: [leader] };
}

type BesideRules = {
  readonly boxAt: (x: number, y: number) => TurnedBox;
  readonly mostPx: number;
  readonly isClear: (line: readonly number[]) => boolean;
};

function nearestBeside(
  open: LabelSheet,
  spot: { readonly x: number; readonly y: number },
  { boxAt, mostPx, isClear }: BesideRules,
): { readonly box: TurnedBox; readonly line: readonly number[] } | null {
  let best: { box: TurnedBox; line: readonly number[]; cost: number } | null = null;
  for (let leaderPx = 16; leaderPx < mostPx; leaderPx += 6) {
    if (best !== null && leaderPx > best.cost) break;
    for (let k = 0; k < 32; k += 1) {
      const angle = (Math.PI * k) / 16;
      const x = spot.x + leaderPx * Math.cos(angle);
      const y = spot.y + leaderPx * Math.sin(angle);
      const box = boxAt(x, y);
      if (!isFree(open, box)) continue;
      const line = [spot.x, spot.y, x, y];
      const own = breakAtBoxes(line, [box])[0] ?? line;
      // A leader straight out of the wall is the easiest to read.
      const cost = leaderPx + (k % 8 === 0 ? 0 : 12);
      if ((best === null || cost < best.cost) && isClear(own)) best = { box, line: own, cost };
    }
  }
  return best;
}

/** Runs of one line in different faces, at the first left end where the whole line is free; null when none is. */
export function placeRuns(
  sheet: LabelSheet,
  lefts: readonly number[],
  y: number,
  runs: Parameters<typeof runsMarks>[2],
): TextMark[] | null {
  const width = runs.reduce((sum, run) => sum + textWidthPx(run.text, 15, run.face ?? SANS), 0);
  const placed = placeFirst(
    sheet,
    lefts.map((x) => ({ x, box: uprightBox({ x, y: y - RISE * 15, width, height: (RISE + FALL) * 15 }, 2) })),
  );
  return placed && runsMarks(placed.x, y, runs);
}

/** A measured length with its text, where both are free on the drawing (and on `check`, which may reserve more); null where they are not. */
export function placeDimension(
  sheet: LabelSheet,
  [x0, y0, x1, y1]: readonly [number, number, number, number],
  text: string,
  check: LabelSheet = sheet,
): GroupMark | null {
  const marks = dimension(x0, y0, x1, y1, text);
  const halfWidth = Math.hypot(x1 - x0, y1 - y0) / 2 + 8;
  const line = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, halfWidth, halfHeight: 10, turn: Math.atan2(y1 - y0, x1 - x0) };
  const boxes = [line, ...marks.flatMap((m) => (m.kind === 'text' ? [textBox(m.x, m.y, m.text, m)] : []))];
  if (!boxes.every((box) => isFree(check, box))) return null;
  for (const box of boxes) {
    reserve(sheet, box);
    if (check !== sheet) reserve(check, box);
  }
  return groupMark('dimension', '', marks);
}

/** Keeps lettering off marks that are drawn already: off open lines, and out of closed shapes, hatches and other lettering. */
export function reserveMarks(sheet: LabelSheet, marks: readonly Mark[]): void {
  for (const mark of marks) {
    if (mark.kind === 'group') reserveMarks(sheet, mark.marks);
    else if (mark.kind === 'text') reserve(sheet, textBox(mark.x, mark.y, mark.text, { ...mark, face: mark }));
    else if (mark.kind !== 'stipple')
      for (const { xy, closed } of mark.rings)
        if (closed) reserve(sheet, uprightBox(boundsOf([xy]), 1));
        else sheet.lines.push(xy);
  }
}
