/** The pour day by the hour: prep, primed, dry from, planned pour, latest pour, primer too old. */
import { datumMarks, hourTicks, scaleX, type Scale } from './datum.ts';
import { boxMark, groupMark, hatchMark, lineMark } from './ink.ts';
import { reserve, startSheet, textBox } from './labels.ts';
import { placeText } from './lettering.ts';
import type { Drawing, Mark } from './marks.ts';
import { damBar, hatchedBar, notAgreedBar, slash } from './shapes.ts';
import { SANS, SANS_BOLD, textWidthPx, type Face } from './type-metrics.ts';

/** Hours since midnight of that day; null for unknown. The caller supplies the words. */
export interface HourStripInput {
  readonly widthPx: number;
  readonly x0: number;
  readonly x1: number;
  readonly datumY: number;
  readonly fromHour: number;
  readonly toHour: number;
  readonly clock: '12' | '24';
  readonly now: number | null;
  readonly preparing: { readonly from: number; readonly to: number; readonly text: string } | null;
  readonly primed: { readonly hour: number; readonly text: string } | null;
  readonly dry: { readonly hour: number; readonly text: string } | null;
  readonly pour: { readonly from: number; readonly to: number; readonly text: string } | null;
  readonly latest: { readonly hour: number; readonly text: string; readonly beyondText: string } | null;
}

/** Draws the strip as marks. The latest moment is a heavy bar like a dam, cross-hatched after it. */
export function hourStrip(input: HourStripInput): Drawing {
  const scale: Scale = { from: input.fromHour, to: input.toHour, x0: input.x0, x1: input.x1, isLog: false };
  const y = input.datumY + 30;
  const wordY = input.datumY + 62;
  const marks: Mark[] = [];
  const words: { x: number; text: string; anchor: 'start' | 'middle' | 'end'; face: Face }[] = [];
  const x = (h: number): number => Math.max(input.x0, Math.min(input.x1, scaleX(scale, h)));
  const start = input.preparing ? x(input.preparing.from) : input.primed ? x(input.primed.hour) : input.x0;
  const end = input.latest ? x(input.latest.hour) : input.x1;
  if (end > start) marks.push(lineMark([start, y, end, y], { pen: 'thin' }));
  if (input.preparing) {
    const a = x(input.preparing.from);
    const b = x(input.preparing.to);
    if (b - a > 1)
      marks.push(groupMark('preparing', input.preparing.text, hatchedBar({ x: a, y: y - 9, width: b - a, height: 18 }, 'prep')));
    words.push({ x: a, text: input.preparing.text, anchor: 'start', face: SANS });
  }
  if (input.primed) words.push({ x: x(input.primed.hour), text: input.primed.text, anchor: 'middle', face: SANS });
  if (input.dry) {
    marks.push(groupMark('dry', input.dry.text, [slash(x(input.dry.hour), y, 11)]));
    words.push({ x: x(input.dry.hour), text: input.dry.text, anchor: 'middle', face: SANS });
  }
  if (input.pour) {
    const a = x(input.pour.from);
    const b = Math.max(a + 12, x(input.pour.to));
    marks.push(
      groupMark('pour', input.pour.text, [
        boxMark({ x: a, y: y - 9, width: b - a, height: 18 }, { pen: null, fill: 'paper' }),
        ...notAgreedBar({ x: a, y: y - 9, width: b - a, height: 18 }, a, b),
      ]),
    );
    words.push({ x: (a + b) / 2, text: input.pour.text, anchor: 'middle', face: SANS });
  }
  if (input.latest) {
    const a = x(input.latest.hour);
    if (input.x1 - a > 1)
      marks.push(
        hatchMark([[a, y - 9, input.x1, y - 9, input.x1, y + 9, a, y + 9]], 'grind'),
        lineMark([input.x1, y - 9, a, y - 9, a, y + 9, input.x1, y + 9], { pen: 'thin' }),
      );
    marks.push(groupMark('latest', input.latest.text, [damBar(a, y - 15, a, y + 15, 4)]));
    words.push({ x: a - 6, text: input.latest.text, anchor: 'end', face: SANS_BOLD });
    if (input.x1 - a > textWidthPx(input.latest.beyondText, 15) + 16)
      words.push({ x: a + 16, text: input.latest.beyondText, anchor: 'start', face: SANS });
  }
  const height = input.datumY + 76;
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height });
  // Each word moves right as far as needed, and is left out when it would no longer be near its mark.
  for (const w of words.map((word) => ({ ...word, width: textWidthPx(word.text, 15, word.face) })).sort((p, q) => leftOf(p) - leftOf(q))) {
    const shifts = Array.from({ length: 11 }, (_, k) => k * 7);
    const placed = placeText(
      sheet,
      shifts.map((shift) => ({ x: leftOf(w) + shift, y: wordY, text: w.text, face: w.face })),
    );
    if (placed === null) continue;
    reserve(sheet, textBox(placed.x, wordY, w.text, { face: w.face, air: 10 }));
    marks.push(placed);
  }
  marks.push(
    ...datumMarks(
      {
        y: input.datumY,
        fromX: 0,
        toX: input.widthPx,
        scale,
        ticks: hourTicks(input.fromHour, input.toHour, input.clock),
        pointerAt: input.now,
        pointerToY: y + 16,
      },
      sheet,
    ),
  );
  return { width: input.widthPx, height, marks };
}

function leftOf(w: { x: number; anchor: string; width: number }): number {
  return w.anchor === 'start' ? w.x : w.anchor === 'end' ? w.x - w.width : w.x - w.width / 2;
}
