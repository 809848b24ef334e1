/** Pour mode's datum: the age of the oldest wet edge in minutes, up to a heavy bar where a cold joint forms. */
import { minuteTicks, scaleX, tickLabels, type Scale } from './datum.ts';
import { groupMark, hatchMark, lineMark, ringMark, textMark } from './ink.ts';
import { reserve, startSheet, textBox } from './labels.ts';
import type { Drawing, Mark } from './marks.ts';
import { damBar, pointer } from './shapes.ts';
import { textWidthPx } from './type-metrics.ts';

/** All times are in minutes. */
export interface PourClockInput {
  readonly widthPx: number;
  readonly x0: number;
  readonly x1: number;
  /** Age of the oldest wet edge; null while there is no wet edge. */
  readonly ageMinutes: number | null;
  readonly healingMinutes: number;
  /** Label of the limit: "15 minutes: cold joint". */
  readonly coldWords: string;
  readonly letteringPx: number;
}

/** Distance from the top of the drawing to the clock's line, px: room for the pointer. */
export const CLOCK_LINE_PX = 30;
/** Width of the pointer. */
const POINTER_PX = 34;

/** Draws the clock's line, with height for the pointer, ticks and words. */
export function pourClock(input: PourClockInput): Drawing {
  const y = CLOCK_LINE_PX;
  const wordsY = y + 21 + Math.round(input.letteringPx * 0.75);
  const most = Math.max(input.healingMinutes * 1.34, 5);
  const scale: Scale = { from: 0, to: most, x0: input.x0, x1: input.x1, isLog: false };
  const cold = scaleX(scale, input.healingMinutes);
  const marks: Mark[] = [lineMark([0, y, input.widthPx, y], { pen: 'pour' })];
  marks.push(hatchMark([[cold, y - 13, input.widthPx, y - 13, input.widthPx, y - 2, cold, y - 2]], 'grind', 'ink'));
  const wordsHalf = textWidthPx(input.coldWords, input.letteringPx) / 2;
  const wordsX = Math.max(input.x0 + wordsHalf, Math.min(input.widthPx - wordsHalf - 4, cold));
  const lettering = { anchor: 'middle', sizePx: input.letteringPx } as const;
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height: wordsY + 7 });
  reserve(sheet, textBox(wordsX, wordsY, input.coldWords, { ...lettering, air: 12 }));
  const ticks = minuteTicks(most);
  for (const tick of ticks) {
    const x = scaleX(scale, tick.value);
    marks.push(lineMark([x, y, x, y + (tick.isMajor ? 17 : 9)], { pen: 'seen' }));
  }
  marks.push(...tickLabels(ticks, scale, { y: wordsY, clearPx: 12, sizePx: input.letteringPx }, sheet).values());
  marks.push(damBar(cold, y - 26, cold, y + 18, 4), textMark(wordsX, wordsY, input.coldWords, lettering));
  if (input.ageMinutes !== null) {
    const x = Math.min(input.widthPx - POINTER_PX / 2 - 1, scaleX(scale, Math.max(0, input.ageMinutes)));
    marks.push(
      ringMark([0, y - 9, x, y - 9, x, y + 1, 0, y + 1], { pen: null, fill: 'ink' }),
      groupMark('age', 'the oldest wet edge', pointer(x, y - 2, POINTER_PX)),
    );
  }
  return { width: input.widthPx, height: wordsY + 7, marks };
}
