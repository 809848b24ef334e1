/** Rows of moments and ranges below a datum: the data sheet by time since mixing, the house by years. */
import { datumMarks, scaleX, type Scale, type Tick } from './datum.ts';
import { boxMark, groupMark, lineMark } from './ink.ts';
import { breakAtBoxes, reserve, startSheet, textBox, uprightBox, type LabelSheet } from './labels.ts';
import { placeRuns, placeText } from './lettering.ts';
import type { Drawing, Mark } from './marks.ts';
import { dryingBar, notAgreedBar, slashedLine, stateShape, type StateShape } from './shapes.ts';
import { SANS, SANS_BOLD, SERIF_ITALIC, textWidthPx } from './type-metrics.ts';

/** A range in a row; a typical one has italic words and a dashed line. */
export interface TimelineRange {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly text: string;
  readonly isTypical: boolean;
}

/** A moment in a row: its state's shape, a bold lead, then its words. */
export interface TimelineMoment {
  readonly id: string;
  readonly year: number;
  readonly state: StateShape;
  readonly lead: string;
  readonly text: string;
  readonly isLate: boolean;
}

/** A floor's work as a small bar: prep, pour, drying; dashed when not agreed. */
export interface TimelineFloor {
  readonly from: number;
  readonly to: number;
  readonly isAgreed: boolean;
}

/** One row. */
export interface TimelineRow {
  readonly id: string;
  readonly name: string;
  /** Plain text after the name. */
  readonly note: string;
  readonly ranges: readonly TimelineRange[];
  readonly moments: readonly TimelineMoment[];
  readonly floors: readonly TimelineFloor[];
}

/** The timeline's data. */
export interface TimelineInput {
  readonly widthPx: number;
  readonly datumY: number;
  readonly scale: Scale;
  readonly ticks: readonly Tick[];
  readonly rows: readonly TimelineRow[];
  readonly rowPx: number;
  readonly now: number | null;
  /** Italic words to the left of the line: "water in". */
  readonly lineWords: string;
  /** Left edge of the row names, 18 if undefined. */
  readonly nameX?: number;
}

/** Draws the timeline as marks. Words move to a free place near their mark, or are left out but stay in the row's label. */
export function timeline(input: TimelineInput): Drawing {
  const { scale } = input;
  const height = input.datumY + 12 + input.rows.length * input.rowPx + 8;
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height });
  const marks: Mark[] = input.rows.map((row, r) =>
    groupMark(`row:${row.id}`, row.name, rowMarks(row, input.datumY + 16 + (r + 0.38) * input.rowPx, input, sheet)),
  );
  const lineWords = placeText(sheet, [{ x: 64, y: input.datumY - 9, text: input.lineWords, face: SERIF_ITALIC, sizePx: 16, ink: 'ink2' }]);
  if (lineWords !== null) marks.push(lineWords);
  marks.push(
    ...datumMarks(
      { y: input.datumY, fromX: 0, toX: input.widthPx, scale, ticks: input.ticks, pointerAt: input.now, pointerToY: height - 10 },
      sheet,
    ),
  );
  return { width: input.widthPx, height, marks };
}

/** A row: its name, its shapes, its words, and a dotted line where nothing else is. */
function rowMarks(row: TimelineRow, y: number, input: TimelineInput, sheet: LabelSheet): Mark[] {
  const { scale, nameX = 18 } = input;
  const ends = (span: { readonly from: number; readonly to: number }, leastPx: number): [number, number] => {
    const a = scaleX(scale, span.from);
    return [a, Math.max(a + leastPx, scaleX(scale, span.to))];
  };
  const name = placeRuns(sheet, [nameX], y + 5, [{ text: `${row.name} `, face: SANS_BOLD }, { text: row.note }]);
  const shapes: Mark[] = row.floors.flatMap((floor) => {
    const [a, b] = ends(floor, 10);
    const box = { x: a, y: y - 7, width: b - a, height: 14 };
    reserve(sheet, uprightBox(box, 3));
    return floor.isAgreed ? [...dryingBar(box), boxMark({ ...box, width: 4 }, { pen: null, fill: 'ink' })] : notAgreedBar(box);
  });
  for (const range of row.ranges) {
    const [a, b] = ends(range, 6);
    reserve(sheet, uprightBox({ x: a - 8, y: y - 6, width: b - a + 16, height: 12 }));
  }
  const parts = row.ranges.map((range) => {
    const [a, b] = ends(range, 6);
    const face = range.isTypical ? SERIF_ITALIC : SANS;
    const left = (a + b) / 2 - textWidthPx(range.text, 15, face) / 2;
    const words = placeText(
      sheet,
      SHIFTS_PX.map((shift) => ({ x: left + shift, y: y + 22, text: range.text, face })),
    );
    if (words !== null) reserve(sheet, textBox(words.x, words.y, range.text, { face, air: 8 }));
    return groupMark(`range:${range.id}`, range.text, [
      ...slashedLine(a, y, b, { isTypical: range.isTypical, over: 4 }),
      ...(words === null ? [] : [words]),
    ]);
  });
  const moments = [...row.moments].sort((p, q) => p.year - q.year);
  for (const m of moments) reserve(sheet, uprightBox({ x: scaleX(scale, m.year) - 8, y: y - 8, width: 16, height: 16 }));
  for (const m of moments) {
    const x = scaleX(scale, m.year);
    const lead = m.lead === '' ? '' : `${m.lead} `;
    const runs = [{ text: lead, face: SANS_BOLD, ...(m.isLate ? { ink: 'chalk' as const } : {}) }, { text: m.text }];
    const width = textWidthPx(lead, 15, SANS_BOLD) + textWidthPx(m.text, 15);
    const afterBars = Math.max(
      x + 11,
      ...row.floors.map((f) => ends(f, 10)).flatMap(([a, b]) => (a < x + 30 && b + 20 > x ? [b + 8] : [])),
    );
    const words = placeRuns(sheet, [afterBars, x - 14 - width], y + 5, runs) ?? [];
    parts.push(groupMark(`moment:${m.id}`, `${lead}${m.text}`, [...stateShape(m.state, x, y, 6), ...words]));
  }
  const dots = breakAtBoxes([scale.x0 - 12, y, scale.x1, y], sheet.taken)
    .filter(([from = 0, , to = 0]) => to - from > 10)
    .map((piece) => lineMark(piece, { pen: 'witness', ink: 'line', dash: 'dots' }));
  return [...dots, ...(name ?? []), ...shapes, ...parts];
}

/** How far a range's words may move to the right of its middle, px. */
const SHIFTS_PX = Array.from({ length: 11 }, (_, k) => k * 6);
