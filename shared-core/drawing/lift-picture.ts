/** A lift's minimum and maximum depth to scale, for the data sheet. */
import { hatchMark, lineMark, pathMark, ringMark, stippleMark } from './ink.ts';
import { startSheet, type LabelSheet } from './labels.ts';
import { placeText, reserveMarks, type Lettering } from './lettering.ts';
import type { Drawing, Mark } from './marks.ts';
import { cutEdge } from './section.ts';
import { slash } from './shapes.ts';
import { gapForDepthPx, stippleDots } from './stipple.ts';
import { fitText, SERIF_ITALIC, textWidthPx } from './type-metrics.ts';

const WEDGE_PX = 210;
const BLOCK_PX = 116;
const CAPTIONS_APART_PX = 20;
const CAPTION = { face: SERIF_ITALIC, sizePx: 16, ink: 'ink2', anchor: 'middle' } as const;

/** One lift at the scale of `leastPx` and `mostPx`, from minimum to maximum depth, and extended with aggregate, for the data sheet. */
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
  const { widthPx, extendedPx } = input;
  const base = input.heightPx - 46;
  const x0 = Math.max(40, textWidthPx(input.leastText, 15) + 14);
  const mostRoomPx = roomPx(input.mostPx, input.mostText);
  const freePx = widthPx - x0 - mostRoomPx - (extendedPx === null ? 0 : roomPx(extendedPx, input.extendedText));
  const blockPx = extendedPx === null ? 0 : Math.min(BLOCK_PX, freePx * 0.4);
  const x1 = x0 + Math.min(WEDGE_PX, freePx - blockPx);
  const topAt = (x: number): number => base - input.leastPx - (input.mostPx - input.leastPx) * ((x - x0) / (x1 - x0)) ** 1.15;
  const curve: number[] = [];
  for (let k = 0; k <= 24; k += 1) curve.push(x0 + ((x1 - x0) * k) / 24, topAt(x0 + ((x1 - x0) * k) / 24));
  const wedge = [...curve, x1, base, x0, base];
  const leastY = base - input.leastPx;
  const marks: Mark[] = [
    stippleMark(stippleDots({ rings: [wedge], gapAt: (x) => gapForDepthPx(((base - topAt(x)) / 96) * 0.0254) })),
    ringMark(wedge, { pen: 'seen' }),
    lineMark([x0 - 6, leastY, x0, leastY], { pen: 'witness' }),
    ...upright(x1 + 12, base, input.mostPx, input.mostText).marks,
  ];
  const words: Lettering[][] = [
    [leastY + 2, base - 8].map((y) => ({ x: x0 - 9, y, text: input.leastText, anchor: 'end' })),
    [upright(x1 + 12, base, input.mostPx, input.mostText).words],
  ];
  const a = x1 + mostRoomPx;
  let captionsTo = widthPx;
  if (extendedPx !== null) {
    const b = a + blockPx;
    const ring = [a, base - extendedPx, b, base - extendedPx, b, base, a, base];
    const measured = upright(b + 18, base, extendedPx, input.extendedText);
    marks.push(
      hatchMark([ring], 'gravel', 'ink'),
      stippleMark(stippleDots({ rings: [ring], gapAt: () => 4.5 })),
      ringMark(ring, { pen: 'seen' }),
      ...measured.marks,
    );
    const extended = caption((a + b) / 2, base + 40, input.extendedWords, widthPx);
    captionsTo = extended.x - captionPx(extended.text) / 2 - CAPTIONS_APART_PX;
    words.push([measured.words], [extended]);
  }
  words.push([caption((x0 + x1) / 2, base + 40, input.neatWords, captionsTo)]);
  marks.push(...cutEdge([x0 - 6, base, extendedPx === null ? a : a + blockPx + 14, base], 18));
  const sheet = startSheet({ x: 0, y: 0, width: widthPx, height: input.heightPx });
  reserveMarks(sheet, marks);
  return { width: widthPx, height: input.heightPx, marks: [...marks, ...placeAll(sheet, words)] };
}

const placeAll = (sheet: LabelSheet, words: readonly (readonly Lettering[])[]): Mark[] =>
  words.map((candidates) => placeText(sheet, candidates)).filter((mark) => mark !== null);

const captionPx = (text: string): number => textWidthPx(text, CAPTION.sizePx, CAPTION.face);

/** A caption centered at x, moved where it would pass `toX`, and shortened where it is wider. */
function caption(x: number, y: number, text: string, toX: number): Lettering {
  const short = fitText(text, toX - 8, CAPTION.sizePx, CAPTION.face);
  const half = captionPx(short) / 2 + 3;
  return { ...CAPTION, x: Math.max(half, Math.min(toX - half, x)), y, text: short };
}

const halfPx = (text: string): number => textWidthPx(text, 15) / 2 + 4;
const isOpen = (heightPx: number, text: string): boolean => heightPx > halfPx(text) * 2 + 12;
/** Width of a measured height with its text, from the edge that it measures. */
const roomPx = (heightPx: number, text: string): number => (isOpen(heightPx, text) ? 30 : 32 + textWidthPx(text, 15));

/** A measured height and its text: in its gap where it is long enough, else beside it. */
function upright(x: number, base: number, heightPx: number, text: string): { readonly marks: Mark[]; readonly words: Lettering } {
  const mid = base - heightPx / 2;
  const [low, high] = [base + 5, base - heightPx - 5];
  const gap = halfPx(text);
  const lines = isOpen(heightPx, text)
    ? [
        [x, low, x, mid + gap],
        [x, mid - gap, x, high],
      ]
    : [[x, low, x, high]];
  return {
    marks: [pathMark(lines, false, { pen: 'witness', ink: 'line' }), slash(x, base, 9), slash(x, base - heightPx, 9)],
    words: isOpen(heightPx, text)
      ? { x: x + 5, y: mid, text, anchor: 'middle', turnDeg: -90 }
      : { x: x + 8, y: Math.min(mid + 5, base - 8), text },
  };
}
