/** Lettering of the house plan: its notes, its dimensions, its key and its scale. */
import { groupMark, hatchMark, ringMark, stippleMark, textMark } from './ink.ts';
import { isFree, placeFirst, uprightBox, type LabelSheet } from './labels.ts';
import { placeAlways, placeDimension, placeText } from './lettering.ts';
import type { Mark } from './marks.ts';
import { boundsOf, boxRing, type Box } from './ring-clip.ts';
import { dimension, letterBox, scaleBar } from './shapes.ts';
import { stippleDots } from './stipple.ts';
import { SANS_BOLD, textWidthPx } from './type-metrics.ts';

/** A letter in a square, or a bold figure with words, at the place it is about; in a room's own meters. */
export interface HouseNote {
  readonly id: string;
  readonly roomId: string;
  readonly xM: number;
  readonly yM: number;
  readonly letter: string;
  readonly text: string;
}

/** Size of the house plan, with its scale and key. */
export interface HouseSheet {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly scale: { readonly lengthM: number; readonly text: string } | null;
  /** Words for the key; null for no key. */
  readonly key: { readonly ours: string; readonly now: string; readonly plain: string } | null;
}

/** The lines of walls, in any group. */
export function linesOf(marks: readonly Mark[]): (readonly number[])[] {
  return marks.flatMap((m) =>
    m.kind === 'group' ? linesOf(m.marks) : m.kind === 'path' && m.pen !== null ? m.rings.map((r) => r.xy) : [],
  );
}

/** Places of a note's letter around its point, the point itself first, px. */
const ASIDE_PX = [
  [0, 0],
  ...[14, 22].flatMap((d) => [
    [0, -d],
    [0, d],
    [-d, 0],
    [d, 0],
    [-d, -d],
    [d, d],
    [d, -d],
    [-d, d],
  ]),
] as const;

/**
 * A note at its place or just beside it: a letter in a square, or a letter with its words. Where neither is free, the letter is farther off
 * with a leader, because documents name it.
 */
export function noteMarks(note: HouseNote, x: number, y: number, sheet: LabelSheet): Mark[] {
  const width = note.text === '' ? 0 : textWidthPx(note.text, 15) + 8;
  const places = [
    ...(width > 0 ? ASIDE_PX.map(([dx = 0, dy = 0]) => ({ dx, dy, width })) : []),
    ...ASIDE_PX.map(([dx = 0, dy = 0]) => ({ dx, dy, width: 0 })),
  ];
  const placed = placeFirst(
    sheet,
    places.map((p) => ({ ...p, box: uprightBox({ x: x + p.dx - 12, y: y + p.dy - 12, width: 24 + p.width, height: 24 }) })),
  );
  if (placed === null) {
    const beside = placeAlways(sheet, { x, y }, (cx, cy) => uprightBox({ x: cx - 12, y: cy - 12, width: 24, height: 24 }));
    if (beside === null) return [];
    return [
      groupMark(`note:${note.id}`, `${note.letter} ${note.text}`, [
        ...beside.leader,
        ...letterBox(note.letter, beside.box.x, beside.box.y),
      ]),
    ];
  }
  const [nx, ny] = [x + placed.dx, y + placed.dy];
  const words =
    placed.width === 0
      ? letterBox(note.letter, nx, ny)
      : [
          textMark(nx - 5, ny + 5, note.letter, { face: SANS_BOLD, clear: 'paper' }),
          textMark(nx + 8, ny + 5, note.text, { clear: 'paper' }),
        ];
  return [groupMark(`note:${note.id}`, `${note.letter} ${note.text}`, words)];
}

/** The key and the scale at the bottom, each where it fits. */
export function keyAndScale(
  input: HouseSheet,
  pxPerM: number,
  margin: { readonly left: number; readonly right: number },
  sheet: LabelSheet,
): Mark[] {
  const marks: Mark[] = [];
  const footY = input.heightPx - 26;
  let x = margin.left;
  for (const [look, words] of Object.entries(input.key ?? {})) {
    const box = boxRing({ x, y: footY - 12, width: 54, height: 22 });
    const text = placeText(sheet, [{ x: x + 66, y: footY + 5, text: words }]);
    if (text === null) continue;
    if (look === 'ours') marks.push(stippleMark(stippleDots({ rings: [box], gapAt: () => 7 })));
    if (look === 'now') marks.push(hatchMark([box], 'wide'));
    marks.push(ringMark(box, { pen: 'thin' }), text);
    x += 66 + textWidthPx(words, 15) + 28;
  }
  const width = (input.scale?.lengthM ?? 0) * pxPerM;
  if (!input.scale || width <= 24) return marks;
  const half = textWidthPx(input.scale.text, 15) / 2;
  const left = input.widthPx - Math.max(margin.right, half + 4) - width;
  const box = uprightBox({ x: left - 6, y: footY - 12, width: width + half + 6, height: 30 });
  if (isFree(sheet, box)) marks.push(...scaleBar(left, footY - 10, width, input.scale.text));
  return marks;
}

type Drawn = readonly { readonly ring: readonly number[] }[];
type LengthText = (lengthPx: number) => string;

/** The length of the house below it and its depth at the right, where there is room. */
export function overallDimensions(_: Drawn, b: Box, text: LengthText, sheet: LabelSheet): Mark[] {
  const [right, bottom] = [b.x + b.width, b.y + b.height];
  const along = placeDimension(sheet, [b.x, bottom + 50, right, bottom + 50], text(b.width));
  const across = placeDimension(sheet, [right + 34, bottom, right + 34, b.y], text(b.height));
  return [along, across].filter((d) => d !== null);
}

/**
 * Dimensions of each room at the bottom of the house, and the house's depth at the left. Gives the overall length instead where a
 * room is too narrow for its words.
 */
export function dimensionChain(drawn: Drawn, b: Box, text: LengthText, sheet: LabelSheet): Mark[] {
  const bottom = b.y + b.height;
  const y = bottom + 24;
  const spans = drawn
    .map((r) => boundsOf([r.ring]))
    .filter((box) => bottom - (box.y + box.height) < 12)
    .map((box) => [box.x, box.x + box.width] as const)
    .sort((p, q) => p[0] - q[0]);
  const fits = spans.every(([from, to], i) => to - from > textWidthPx(text(to - from), 15) + 34 && from >= (spans[i - 1]?.[1] ?? from) - 1);
  // Dimensions of adjoining rooms share their slashes, so the chain is checked as one length.
  const whole = [b.x, y, b.x + b.width, y] as const;
  const overall = placeDimension(sheet, whole, text(b.width));
  const across = placeDimension(sheet, [b.x - 26, bottom, b.x - 26, b.y], text(b.height));
  const along = overall !== null && fits ? spans.flatMap(([from, to]) => dimension(from, y, to, y, text(to - from))) : [overall];
  return [...along, across].filter((d) => d !== null);
}
