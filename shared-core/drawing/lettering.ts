/** Lettering placed by the label engine: the first free candidate is reserved and drawn; without one the text is left out. */
import { runsMarks, groupMark, textMark, type Setting } from './ink.ts';
import { boundsOf } from './ring-clip.ts';
import { isFree, placeFirst, reserve, textBox, uprightBox, type LabelSheet } from './labels.ts';
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
