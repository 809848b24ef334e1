/** A lift's minimum and maximum depth at full size, for the data sheet. */
import { hatchMark, lineMark, pathMark, ringMark, stippleMark, textMark } from './ink.ts';
import type { Drawing, Mark } from './marks.ts';
import { cutEdge } from './section.ts';
import { slash } from './shapes.ts';
import { gapForDepthPx, stippleDots } from './stipple.ts';
import { SERIF_ITALIC, textWidthPx } from './type-metrics.ts';

/** One lift at full size on paper, from minimum to maximum depth, and extended with aggregate, for the data sheet. */
export function liftPicture(input: {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly leastPx: number;
  readonly mostPx: number;
  readonly extendedPx: number | null;
  readonly leastText: string;
  readonly mostText: string;
  readonly extendedText: string;
  readonly neatWords: string;
  readonly extendedWords: string;
}): Drawing {
  const base = input.heightPx - 46;
  const x0 = 40;
  const x1 = x0 + Math.min(210, input.widthPx * (input.extendedPx === null ? 0.75 : 0.5));
  const marks: Mark[] = [];
  const topAt = (x: number): number => base - input.leastPx - (input.mostPx - input.leastPx) * ((x - x0) / (x1 - x0)) ** 1.15;
  const curve: number[] = [];
  for (let k = 0; k <= 24; k += 1) curve.push(x0 + ((x1 - x0) * k) / 24, topAt(x0 + ((x1 - x0) * k) / 24));
  const wedge = [...curve, x1, base, x0, base];
  marks.push(
    stippleMark(stippleDots({ rings: [wedge], gapAt: (x) => gapForDepthPx(((base - topAt(x)) / 96) * 0.0254) })),
    ringMark(wedge, { pen: 'seen' }),
  );
  marks.push(
    textMark(x0 - 8, base - input.leastPx + 2, input.leastText, { anchor: 'end' }),
    lineMark([x0 - 6, base - input.leastPx, x0, base - input.leastPx], { pen: 'witness' }),
  );
  marks.push(
    ...upright(x1 + 12, base, input.mostPx, input.mostText),
    textMark((x0 + x1) / 2, base + 40, input.neatWords, { face: SERIF_ITALIC, sizePx: 16, ink: 'ink2', anchor: 'middle' }),
  );
  let right = x1 + 26;
  if (input.extendedPx !== null) {
    const a = x1 + 26;
    const b = a + 116;
    const ring = [a, base - input.extendedPx, b, base - input.extendedPx, b, base, a, base];
    marks.push(
      hatchMark([ring], 'gravel', 'ink'),
      stippleMark(stippleDots({ rings: [ring], gapAt: () => 4.5 })),
      ringMark(ring, { pen: 'seen' }),
    );
    marks.push(
      ...upright(b + 18, base, input.extendedPx, input.extendedText),
      textMark((a + b) / 2, base + 40, input.extendedWords, { face: SERIF_ITALIC, sizePx: 16, ink: 'ink2', anchor: 'middle' }),
    );
    right = b + 14;
  }
  marks.push(...cutEdge([x0 - 16, base, right, base], 18));
  return { width: input.widthPx, height: input.heightPx, marks };
}

function upright(x: number, base: number, heightPx: number, text: string): Mark[] {
  const half = textWidthPx(text, 15) / 2 + 4;
  const mid = base - heightPx / 2;
  const isOpen = heightPx > half * 2 + 12;
  return [
    pathMark(
      isOpen
        ? [
            [x, base + 5, x, mid + half],
            [x, mid - half, x, base - heightPx - 5],
          ]
        : [[x, base + 5, x, base - heightPx - 5]],
      false,
      { pen: 'witness', ink: 'line' },
    ),
    slash(x, base, 9),
    slash(x, base - heightPx, 9),
    ...(isOpen ? [textMark(x + 5, mid, text, { anchor: 'middle', turnDeg: -90 })] : [textMark(x + 10, mid + 5, text)]),
  ];
}
