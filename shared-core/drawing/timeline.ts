/** Rows of moments and ranges below a datum: the data sheet by time since mixing, the house by years. */
import { datumMarks, scaleX, type Scale, type Tick } from './datum.ts';
import { boxMark, groupMark, lineMark, textMark } from './ink.ts';
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

/** Draws the timeline as marks. Words that would overlap move to the line below, or are left out but stay in the row's label. */
export function timeline(input: TimelineInput): Drawing {
  const { scale, nameX = 18 } = input;
  const height = input.datumY + 12 + input.rows.length * input.rowPx + 8;
  const marks: Mark[] = [];
  input.rows.forEach((row, r) => {
    const y = input.datumY + 12 + (r + 0.38) * input.rowPx + 4;
    const parts: Mark[] = [];
    const spans: [number, number][] = [];
    for (const range of row.ranges) {
      const a = scaleX(scale, range.from);
      const b = Math.max(a + 6, scaleX(scale, range.to));
      spans.push([a - 8, b + 8]);
    }
    let right = -Infinity;
    for (const range of row.ranges) {
      const a = scaleX(scale, range.from);
      const b = Math.max(a + 6, scaleX(scale, range.to));
      const face = range.isTypical ? SERIF_ITALIC : SANS;
      const width = textWidthPx(range.text, 15, face);
      const x = Math.max((a + b) / 2 - width / 2, right + 12);
      const inked: Mark[] = slashedLine(a, y, b, { isTypical: range.isTypical, over: 4 });
      if (x - ((a + b) / 2 - width / 2) < 60) {
        inked.push(textMark(x, y + 22, range.text, { face, ...(range.isTypical ? { sizePx: 15 } : {}) }));
        right = x + width;
      }
      parts.push(groupMark(`range:${range.id}`, range.text, inked));
    }
    for (const floor of row.floors) {
      const a = scaleX(scale, floor.from);
      const b = Math.max(a + 10, scaleX(scale, floor.to));
      spans.push([a - 4, b + 4]);
      parts.push(
        ...(floor.isAgreed
          ? [
              ...dryingBar({ x: a, y: y - 7, width: b - a, height: 14 }),
              boxMark({ x: a, y: y - 7, width: 4, height: 14 }, { pen: null, fill: 'ink' }),
            ]
          : notAgreedBar({ x: a, y: y - 7, width: b - a, height: 14 })),
      );
    }
    const moments = [...row.moments].sort((p, q) => p.year - q.year);
    moments.forEach((m, i) => {
      const x = scaleX(scale, m.year);
      const next = moments[i + 1];
      const lead = m.lead === '' ? '' : `${m.lead} `;
      const leadWidth = textWidthPx(lead, 15, SANS_BOLD);
      const width = leadWidth + textWidthPx(m.text, 15);
      const limit = Math.min(input.widthPx - 4, next ? scaleX(scale, next.year) - 12 : Infinity);
      const drawn: Mark[] = stateShape(m.state, x, y, 6);
      let end = x + 8;
      const afterBars = Math.max(
        x + 11,
        ...row.floors
          .filter((f) => scaleX(scale, f.from) < x + 30 && scaleX(scale, f.to) > x)
          .map((f) => Math.max(scaleX(scale, f.from) + 10, scaleX(scale, f.to)) + 8),
      );
      const words = (minute: number): void => {
        if (lead !== '') drawn.push(textMark(minute, y + 5, m.lead, { face: SANS_BOLD, ...(m.isLate ? { ink: 'chalk' as const } : {}) }));
        drawn.push(textMark(minute + leadWidth, y + 5, m.text));
      };
      const before = moments[i - 1];
      if (afterBars + width < limit) {
        words(afterBars);
        end = afterBars + width + 6;
        spans.push([x - 10, end]);
      } else if (x - 14 - width > (before ? scaleX(scale, before.year) + 12 : scale.x0)) {
        words(x - 14 - width);
        spans.push([x - 20 - width, end]);
      } else spans.push([x - 10, end]);
      parts.push(groupMark(`moment:${m.id}`, `${lead}${m.text}`, drawn));
    });
    const dots: Mark[] = [];
    let from = scale.x0 - 12;
    for (const [a, b] of [...spans].sort((p, q) => p[0] - q[0])) {
      if (a - from > 10) dots.push(lineMark([from, y, a, y], { pen: 'witness', ink: 'line', dash: 'dots' }));
      from = Math.max(from, b);
    }
    if (scale.x1 - from > 10) dots.push(lineMark([from, y, scale.x1, y], { pen: 'witness', ink: 'line', dash: 'dots' }));
    const nameWidth = textWidthPx(`${row.name} `, 15, SANS_BOLD);
    marks.push(
      groupMark(`row:${row.id}`, row.name, [
        ...dots,
        textMark(nameX, y + 5, row.name, { face: SANS_BOLD }),
        ...(row.note === '' ? [] : [textMark(nameX + nameWidth, y + 5, row.note)]),
        ...parts,
      ]),
    );
  });
  marks.push(
    ...datumMarks({
      y: input.datumY,
      fromX: 0,
      toX: input.widthPx,
      scale,
      ticks: input.ticks,
      pointerAt: input.now,
      pointerToY: height - 10,
    }),
  );
  if (input.lineWords !== '') marks.push(textMark(64, input.datumY - 9, input.lineWords, { face: SERIF_ITALIC, sizePx: 16, ink: 'ink2' }));
  return { width: input.widthPx, height, marks };
}
